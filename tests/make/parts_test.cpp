// SPDX-License-Identifier: MIT
#include "make/parts.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <numeric>
#include <set>

namespace bw::make {
namespace {

using plant::Piece;
using text::Part;
using text::Service;
using namespace units;  // NOLINT: quantities read as the trade writes them

constexpr double inches = 0.0254;

catalogue::Catalogue small_catalogue() {
    catalogue::Catalogue c;
    c.heaters.push_back(
        {.key = "heater/small", .title = "Small heater", .mass = 70.0 * pound, .price = 1000, .labour = 2.0 * hour});
    catalogue::Pipe pipe;
    pipe.key = "pipe/copper-l/2";
    pipe.material = text::Material::copper_l;
    pipe.size = Nominal{16};
    pipe.price_per_metre = 30;
    pipe.labour_per_metre = 10.0 * minute;
    pipe.sources = {{.document = "ASTM B88", .edition = "2016", .clause = "Table 1"}};
    c.pipes.push_back(pipe);
    catalogue::Item tee;
    tee.key = "tee/copper-l/2x3/4";
    tee.part = Part::tee;
    tee.title = "Tee";
    tee.material = text::Material::copper_l;
    tee.size = Nominal{16};
    tee.branch = Nominal{6};
    tee.price = 25;
    tee.labour = 15.0 * minute;
    c.items.push_back(tee);
    EXPECT_TRUE(c.index().has_value());
    return c;
}

Piece piece(std::string id, Part part, Service service, std::string item, double cut = 0, double mass = 0) {
    Piece p;
    p.id = std::move(id);
    p.part = part;
    p.service = service;
    p.item = std::move(item);
    p.cut = cut;
    p.mass_dry = mass;
    return p;
}

plant::Plant small_plant() {
    plant::Plant plant;
    plant.add(piece("site.cold", Part::connection, Service::cold, ""));
    plant.add(piece("bank-1.hot.header.pipe-1", Part::pipe, Service::hot, "pipe/copper-l/2", 36 * inches, 2.0));
    plant.add(piece("bank-1.cold.header.pipe-1", Part::pipe, Service::cold, "pipe/copper-l/2", 24 * inches, 1.5));
    plant.add(piece("bank-1.cold.header.tee-1", Part::tee, Service::cold, "tee/copper-l/2x3/4", 0, 0.5));
    plant.add(piece("bank-1.hot.header.tee-1", Part::tee, Service::hot, "tee/copper-l/2x3/4", 0, 0.5));
    auto heater = piece("heater-1", Part::heater, Service::structure, "heater/small", 0, 32);
    heater.water = 0.002;
    plant.add(heater);
    return plant;
}

survey::Survey priced() {
    survey::Survey survey;
    survey.preferences.labour_rate.value = 90;
    survey.preferences.markup.value = 0.15;
    return survey;
}

const Line& line_of(const Estimate& e, std::string_view item) {
    return *std::find_if(e.lines.begin(), e.lines.end(), [&](const Line& line) { return line.item == item; });
}

TEST(Parts, EveryBoughtPieceIsCountedOnceAndConnectionsNever) {
    const auto plant = small_plant();
    const auto e = estimate(priced(), small_catalogue(), plant);
    ASSERT_TRUE(e.has_value()) << describe(e.error());
    std::multiset<int> counted;
    for (const auto& line : e->lines) {
        counted.insert(line.pieces.begin(), line.pieces.end());
        EXPECT_EQ(line.count, static_cast<int>(line.pieces.size())) << line.item;
        for (const int at : line.pieces) EXPECT_EQ(plant.pieces[static_cast<std::size_t>(at)].item, line.item);
    }
    EXPECT_THAT(counted, testing::ElementsAre(1, 2, 3, 4, 5));
}

TEST(Parts, LengthsAddUpAndPriceFollowsThem) {
    const auto e = estimate(priced(), small_catalogue(), small_plant());
    ASSERT_TRUE(e.has_value());
    const auto& pipe = line_of(*e, "pipe/copper-l/2");
    EXPECT_NEAR(pipe.length, 60 * inches, 1e-12);
    EXPECT_NEAR(pipe.price, 60 * inches * 30, 1e-9);
    EXPECT_NEAR(pipe.minutes, 60 * inches * 10, 1e-9);
    EXPECT_EQ(pipe.material, "copper-l");
    EXPECT_EQ(pipe.size, "2 in");
    EXPECT_THAT(pipe.source, testing::HasSubstr("ASTM B88"));
    const auto& tee = line_of(*e, "tee/copper-l/2x3/4");
    EXPECT_EQ(tee.length, 0);
    EXPECT_EQ(tee.size, "2 in x 3/4 in");
    EXPECT_NEAR(tee.price, 50, 1e-9);
}

TEST(Parts, TotalsAreTheSumsOfTheirParts) {
    const auto e = estimate(priced(), small_catalogue(), small_plant());
    ASSERT_TRUE(e.has_value());
    const double parts = 60 * inches * 30 + 2 * 25 + 1000;
    const double minutes = 60 * inches * 10 + 2 * 15 + 120;
    EXPECT_NEAR(e->parts, parts, 1e-9);
    EXPECT_NEAR(e->hours, minutes / 60, 1e-9);
    EXPECT_NEAR(e->labour, minutes / 60 * 90, 1e-9);
    EXPECT_NEAR(e->markup, 0.15 * parts, 1e-9);
    EXPECT_NEAR(e->total, e->parts + e->labour + e->markup, 1e-9);
    EXPECT_NEAR(e->mass_dry, 36.5, 1e-9);
    EXPECT_NEAR(e->mass_full, 38.5, 1e-9);
}

TEST(Parts, AGivenPriceReplacesTheCatalogueAndSaysSo) {
    auto survey = priced();
    survey.preferences.prices = {{"tee/copper-l/2x3/4", 31.5}, {"pipe/copper-l/2", 40}};
    const auto e = estimate(survey, small_catalogue(), small_plant());
    ASSERT_TRUE(e.has_value());
    EXPECT_NEAR(line_of(*e, "tee/copper-l/2x3/4").price, 63, 1e-9);
    EXPECT_NEAR(line_of(*e, "pipe/copper-l/2").price, 60 * inches * 40, 1e-9);
    EXPECT_THAT(line_of(*e, "pipe/copper-l/2").source, testing::HasSubstr("given in the survey"));
    EXPECT_NEAR(line_of(*e, "heater/small").price, 1000, 1e-9);
}

TEST(Parts, LinesStandByServiceThenItemWhateverTheOrderOfThePieces) {
    const auto plant = small_plant();
    plant::Plant backwards;
    for (auto p = plant.pieces.rbegin(); p != plant.pieces.rend(); ++p) backwards.add(*p);
    const auto e = estimate(priced(), small_catalogue(), plant),
               other = estimate(priced(), small_catalogue(), backwards);
    ASSERT_TRUE(e.has_value() && other.has_value());
    std::vector<std::string> items, others;
    for (const auto& line : e->lines) items.push_back(line.service + " " + line.item);
    for (const auto& line : other->lines) others.push_back(line.service + " " + line.item);
    EXPECT_EQ(items, others);
    EXPECT_THAT(items, testing::ElementsAre("cold, hot pipe/copper-l/2", "cold, hot tee/copper-l/2x3/4",
                                            "structure heater/small"));
}

TEST(Parts, APieceOfAnUnknownItemIsRefusedByName) {
    auto plant = small_plant();
    plant.add(piece("bank-1.gas.header.cap-1", Part::cap, Service::gas, "cap/steel-40/9"));
    const auto e = estimate(priced(), small_catalogue(), plant);
    ASSERT_FALSE(e.has_value());
    EXPECT_THAT(e.error().what,
                testing::AllOf(testing::HasSubstr("bank-1.gas.header.cap-1"), testing::HasSubstr("cap/steel-40/9")));
}

}  // namespace
}  // namespace bw::make
