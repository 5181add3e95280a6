// SPDX-License-Identifier: MIT
// The catalogue that travels in the program: it loads, every row says where it comes from, and what piping asks for is
// there in every material and size.

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "catalogue/catalogue.h"

namespace bw::catalogue {
namespace {

const Catalogue& demo() {
    static const Catalogue catalogue = load().value();
    return catalogue;
}

TEST(EmbeddedCatalogue, LoadsInKeyOrder) {
    const auto loaded = load();
    ASSERT_TRUE(loaded) << describe(loaded.error());
    EXPECT_EQ(loaded->heaters.size(), 3u);
    EXPECT_GT(loaded->pipes.size(), 90u);
    EXPECT_GT(loaded->items.size(), 1500u);
    for (std::size_t i = 1; i < loaded->items.size(); ++i) EXPECT_LT(loaded->items[i - 1].key, loaded->items[i].key);
}

template <class Rows>
void hold_sources(const Rows& rows) {
    for (const auto& row : rows) {
        EXPECT_FALSE(row.sources.empty()) << row.key;
        for (const auto& source : row.sources) {
            const bool needs_document =
                source.standing != reason::Standing::invented && source.standing != reason::Standing::common_practice;
            EXPECT_EQ(needs_document, !source.document.empty()) << row.key;
            EXPECT_NE(source.standing, reason::Standing::given) << row.key;
        }
    }
}

TEST(EmbeddedCatalogue, EveryRowHasASource) {
    hold_sources(demo().heaters);
    hold_sources(demo().pipes);
    hold_sources(demo().items);
}

TEST(EmbeddedCatalogue, TakeOutsLieOnTheSixteenth) {
    for (const auto& item : demo().items)
        for (const Length& length : {item.run, item.stem}) {
            const double sixteenths = 16 * static_cast<double>(length / inch);
            EXPECT_NEAR(sixteenths, std::round(sixteenths), 1e-6) << item.key;
        }
}

/// A fitting at each size, with what a leg must hold: more than nothing, and less than a foot or two.
void expect_item(Part part, Material material, Nominal size, std::optional<Nominal> branch = {}) {
    const Item* item = demo().item(part, material, size, branch);
    ASSERT_NE(item, nullptr) << text::name(part) << " " << text::name(material) << " " << print(size)
                             << (branch ? "x" + print(*branch) : "");
    EXPECT_GT(item->run.value(), 0) << item->key;
    EXPECT_LT(item->run, 24.0 * inch) << item->key;
    EXPECT_GE(item->outside / inch, 0.5) << item->key;
    EXPECT_GT(item->price, 0) << item->key;
    EXPECT_GT(item->labour.value(), 0) << item->key;
}

class Piped : public testing::TestWithParam<Material> {};

TEST_P(Piped, HasEveryFittingInEverySize) {
    const auto sizes = demo().sizes(GetParam());
    ASSERT_GE(sizes.size(), 6u);
    for (const Pipe* pipe : sizes) {
        for (const Part part : {Part::elbow, Part::elbow_45, Part::cap, Part::coupling, Part::union_joint, Part::tee})
            expect_item(part, GetParam(), pipe->size);
        if (GetParam() != Material::steel_40 && GetParam() != Material::steel_80)
            expect_item(Part::adapter, GetParam(), pipe->size);
        EXPECT_NE(demo().item(Part::hanger, GetParam(), pipe->size), nullptr);
        EXPECT_NE(demo().item(Part::firestop, GetParam(), pipe->size), nullptr);
        for (const Pipe* smaller : sizes) {
            if (smaller->size > pipe->size) continue;
            expect_item(Part::tee, GetParam(), pipe->size, smaller->size);
            EXPECT_GT(demo().item(Part::tee, GetParam(), pipe->size, smaller->size)->stem, pipe->outside / 2.0)
                << pipe->key;
            if (smaller->size < pipe->size) expect_item(Part::reducer, GetParam(), pipe->size, smaller->size);
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Materials, Piped,
                         testing::Values(Material::steel_40, Material::steel_80, Material::stainless_10s,
                                         Material::copper_k, Material::copper_l, Material::copper_m, Material::cpvc,
                                         Material::csst, Material::pvc_drain),
                         [](const auto& of) {
                             std::string name(text::name(of.param));
                             std::replace(name.begin(), name.end(), '-', '_');
                             return name;
                         });

TEST(EmbeddedCatalogue, EveryVentMaterialHasItsParts) {
    for (const Material m : {Material::vent_polypropylene, Material::vent_cpvc, Material::vent_pvc}) {
        const auto sizes = demo().sizes(m);
        ASSERT_EQ(sizes.size(), 8u);
        for (const Pipe* pipe : sizes) {
            for (const Part part : {Part::vent_elbow, Part::elbow_45, Part::coupling, Part::cap, Part::vent_tee,
                                    Part::vent_terminal, Part::intake_terminal})
                expect_item(part, m, pipe->size);
            EXPECT_NE(demo().item(Part::firestop, m, pipe->size), nullptr);
            EXPECT_NE(demo().item(Part::hanger, m, pipe->size), nullptr);
        }
        for (const auto& heater : demo().heaters) {
            const Nominal collar = heater.port("exhaust")->size;
            expect_item(Part::vent_collar, m, collar);
            for (const auto& limit : heater.common_vents) {
                expect_item(Part::vent_tee, m, limit.size, collar);
                expect_item(Part::vent_damper, m, collar);
            }
            for (const auto& limit : heater.vents)
                if (limit.size > collar) expect_item(Part::vent_adapter, m, limit.size, collar);
        }
    }
}

TEST(EmbeddedCatalogue, ValvesGoWithAnyPipe) {
    for (const Material m : {Material::copper_l, Material::steel_40})
        for (const Pipe* pipe : demo().sizes(m)) {
            if (pipe->size <= Nominal{32}) expect_item(Part::ball_valve, m, pipe->size);
            expect_item(Part::gas_valve, m, pipe->size);
            EXPECT_EQ(demo().item(Part::gas_valve, m, pipe->size), demo().item(Part::gas_valve, pipe->size));
        }
}

TEST(EmbeddedCatalogue, EveryPartIsSold) {
    using enum Part;
    const std::set<Part> not_items{heater, pipe, vent_pipe, nipple, connection};
    for (std::size_t i = 0; i < text::names<Part>().size(); ++i) {
        const auto part = static_cast<Part>(i);
        EXPECT_EQ(demo().cheapest(part) == nullptr, not_items.contains(part)) << text::name(part);
        for (const Item* item : demo().of(part)) EXPECT_EQ(item->part, part);
    }
}

TEST(EmbeddedCatalogue, WhatIsSafeToTrustIsListed) {
    for (const Item* item : demo().of(Part::gas_valve)) EXPECT_TRUE(item->gas_listed) << item->key;
    for (const Item* item : demo().of(Part::flexible_gas)) EXPECT_TRUE(item->gas_listed) << item->key;
    for (const Item* item : demo().of(Part::ball_valve)) EXPECT_TRUE(item->drinking_water) << item->key;
    for (const Item* item : demo().of(Part::flexible_water)) EXPECT_TRUE(item->drinking_water) << item->key;
    for (const Material m : {Material::copper_l, Material::cpvc, Material::stainless_10s})
        for (const Pipe* pipe : demo().sizes(m)) EXPECT_TRUE(pipe->drinking_water) << pipe->key;
    for (const Pipe* pipe : demo().sizes(Material::steel_40)) EXPECT_FALSE(pipe->drinking_water) << pipe->key;
    for (const Item* valve : demo().of(Part::relief_valve)) {
        EXPECT_NEAR(valve->number("set-pressure").value(), (150.0 * psi).value(), 1);
        for (const auto& heater : demo().heaters) {
            EXPECT_GE(valve->number("capacity").value(), heater.input_greatest.value());
            EXPECT_LE(valve->number("set-pressure").value(), heater.relief_greatest.value());
        }
    }
}

TEST(EmbeddedCatalogue, RegulatorsHoldEveryHeaterWithinItsInlet) {
    for (const auto& heater : demo().heaters)
        for (const auto& inlet : heater.gas) {
            int fit = 0;
            for (const Item* row : demo().of(Part::regulator)) {
                if (row->gas != inlet.gas) continue;
                ++fit;
                EXPECT_LE(row->number("lock-up").value(), inlet.greatest.value()) << row->key;
                EXPECT_GE(row->number("outlet").value(), inlet.least.value()) << row->key;
            }
            EXPECT_GE(fit, 4) << text::name(inlet.gas);
        }
}

}  // namespace
}  // namespace bw::catalogue
