// SPDX-License-Identifier: MIT
// How heaters share water, solved from the pieces of real plants.
#include "network/water_network.h"

#include <gtest/gtest.h>

#include <cmath>
#include <numeric>

#include "matter/pipe_flow.h"
#include "services.h"

namespace bw::tests {
namespace {

using namespace network;  // NOLINT
using namespace piping;   // NOLINT
using namespace units;    // NOLINT

WaterFeed feed_of(const Job& job) {
    WaterFeed feed;
    feed.supply = *job.survey.supply.pressure;
    feed.each = job.capacity.each.flow;
    feed.design = std::min(job.demand.peak, static_cast<double>(job.capacity.installed) * feed.each);
    feed.cold = *matter::water(job.demand.cold);
    feed.hot = *matter::water(job.demand.hot);
    return feed;
}

/// What the pieces of a link lose, each by itself, at the flow the network found.
double lost_piece_by_piece(const plant::Plant& plant, const WaterNetwork& water, std::size_t link, double mass_flow,
                           const matter::Water& state) {
    double lost = 0;
    double bore = 0;
    for (const int at : water.pieces[link]) bore = std::max(bore, plant.pieces[static_cast<std::size_t>(at)].bore);
    for (const int at : water.pieces[link]) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(at)];
        const auto* row = demo_catalogue().pipe(piece.item);
        const auto length = piece.ports.size() == 2 ? shape::distance(piece.ports[0].at, piece.ports[1].at) : 0;
        const auto drop =
            matter::pipe_drop(VolumeFlow::from_value(mass_flow / state.density.value()),
                              Length::from_value(piece.bore > 0 ? piece.bore : bore),
                              row ? row->roughness : 1.5e-6 * metre, length * metre, piece.loss_run, state);
        EXPECT_TRUE(drop) << piece.id;
        if (drop) lost += drop->drop.value();
    }
    return lost;
}

/// Every law of the solution that a reader could check by hand.
void expect_solved(const plant::Plant& plant, const WaterNetwork& water, const WaterFeed& feed,
                   const WaterSplit& split) {
    double sum = 0;
    for (const auto& flow : split.heater) sum += flow.value() * feed.cold.density.value();
    const double drawn = split.drawn.value() * feed.hot.density.value();
    EXPECT_NEAR(sum, drawn, 1e-9 * drawn);
    const auto& links = water.network.links;
    for (std::size_t l = 0; l < links.size(); ++l) {
        const auto from = static_cast<std::size_t>(links[l].from), to = static_cast<std::size_t>(links[l].to);
        const double rise = plant.at(water.at[to]).at.z - plant.at(water.at[from]).at.z;
        const double flow = split.through[l].value() * feed.cold.density.value();
        const bool has_tee = std::ranges::any_of(
            water.pieces[l], [&](int at) { return plant.pieces[static_cast<std::size_t>(at)].ports.size() > 2; });
        if (!std::holds_alternative<flow::Pipe>(links[l].law) || has_tee) continue;
        const bool cold = plant.at(water.at[from]).service == text::Service::cold;
        const auto& state = cold ? feed.cold : feed.hot;
        const double lost =
            split.pressure[from].value() - split.pressure[to].value() - state.density.value() * 9.80665 * rise;
        EXPECT_NEAR(lost, lost_piece_by_piece(plant, water, l, flow, state), 0.05 * std::fabs(lost) + 0.5)
            << links[l].name;
    }
}

void expect_water_flows(const Job& job, const plant::Plant& plant) {
    const auto feed = feed_of(job);
    const auto water = water_network(plant, demo_catalogue(), *demo_catalogue().heater(job.capacity.heater), feed);
    ASSERT_TRUE(water) << job.name << ": " << describe(water.error());
    ASSERT_EQ(static_cast<int>(water->heater.size()), job.capacity.installed);
    const auto flows = water_flows(*water, feed);
    ASSERT_TRUE(flows) << job.name << ": " << describe(flows.error());
    ASSERT_TRUE(flows->design) << job.name << ": " << describe(flows->design.error());
    ASSERT_TRUE(flows->half) << describe(flows->half.error());
    expect_solved(plant, *water, feed, *flows->design);
    expect_solved(plant, *water, feed, *flows->half);
    EXPECT_GT(flows->design->shortfall, 0);
    EXPECT_LT(flows->design->shortfall, 0.5);
    for (std::size_t n = 0; n < flows->one_shut.size(); ++n) {
        if (job.capacity.installed < 2) continue;
        const auto& shut = flows->one_shut[n];
        if (!shut) {  // only for a heater asked past its curve, which the message names
            EXPECT_NE(shut.error().what.find("heater-"), std::string::npos) << describe(shut.error());
            continue;
        }
        EXPECT_EQ(shut->heater[n].value(), 0);
        expect_solved(plant, *water, feed, *shut);
    }
}

TEST(WaterNetwork, SharesTheDrawAmongTheHeatersOfEveryExample) {
    for (const auto& name : example_names()) {
        const auto& plant = plant_of(name);
        expect_water_flows(plant.job, plant.built.plant);
    }
}

TEST(WaterNetwork, SharesTheDrawAmongSixteenHeaters) {
    auto survey = survey::read(BANKWRIGHT_SOURCE "/bench/data/sixteen-heaters.toml");
    ASSERT_TRUE(survey) << describe(survey.error());
    const auto job = job_from("sixteen", std::move(*survey));
    ASSERT_GE(job.capacity.installed, 15);
    for (const auto& layout : job.layouts.candidates) {
        const auto built = piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, layout);
        if (!built) continue;
        return expect_water_flows(job, built->plant);
    }
    FAIL() << "no layout of the sixteen heaters could be built";
}

TEST(WaterNetwork, ABranchWithoutABoreOrAHeaterCutOffIsRefusedByName) {
    const auto& made = plant_of("wash-house");
    const auto feed = feed_of(made.job);
    auto plant = made.built.plant;
    const auto& heater = heater_of(made);
    const auto water = water_network(plant, demo_catalogue(), heater, feed);
    ASSERT_TRUE(water);
    auto cut = *water;
    for (auto& link : cut.network.links)
        if (link.to == cut.network.links[static_cast<std::size_t>(cut.heater[2])].from) link.open = false;
    const auto still = water_flows(cut, feed);  // heater 3 is fed from behind through nothing: no flow
    ASSERT_TRUE(still);
    ASSERT_TRUE(still->design) << describe(still->design.error());
    EXPECT_NEAR(still->design->heater[2].value(), 0, 1e-9);
    EXPECT_EQ(still->design->least, 3);
    plant.pieces.clear();
    EXPECT_FALSE(water_network(plant, demo_catalogue(), heater, feed));
}

}  // namespace
}  // namespace bw::tests
