// SPDX-License-Identifier: MIT
#include "piping/drain/drain.h"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "services.h"

namespace bw::piping {
namespace {

using namespace tests;
using text::Part;

std::set<Part> parts_on(const plant::Plant& plant, const std::vector<int>& way) {
    std::set<Part> parts;
    for (const int i : way) parts.insert(plant.pieces[static_cast<std::size_t>(i)].part);
    return parts;
}

TEST(Drain, EveryHeaterDrainsThroughTrapNeutraliserAndAirGap) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        for (int n = 1; n <= p.job.capacity.installed; ++n) {
            const auto way = way_to(plant, heater_port_of(plant, n, "condensate"), Part::connection);
            ASSERT_FALSE(way.empty()) << name << " heater " << n;
            EXPECT_EQ(plant.pieces[static_cast<std::size_t>(way.back())].id, "site.drain");
            const auto parts = parts_on(plant, way);
            EXPECT_TRUE(parts.contains(Part::condensate_trap)) << name << " heater " << n;
            EXPECT_TRUE(parts.contains(Part::neutraliser)) << name << " heater " << n;
            EXPECT_TRUE(parts.contains(Part::air_gap)) << name << " heater " << n;
        }
    }
}

TEST(Drain, TheTrapStandsBeforeTheFirstTee) {
    const auto& p = plant_of("hostel");
    const auto& plant = p.built.plant;
    for (int n = 1; n <= p.job.capacity.installed; ++n) {
        const auto way = way_to(plant, heater_port_of(plant, n, "condensate"), Part::tee);
        ASSERT_FALSE(way.empty());
        EXPECT_TRUE(parts_on(plant, way).contains(Part::condensate_trap)) << "heater " << n;
    }
}

TEST(Drain, WaterNeverHasToRise) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        for (int n = 1; n <= p.job.capacity.installed; ++n) {
            const auto port = heater_port_of(plant, n, "condensate");
            double level = plant.at(port).at.z;
            for (const int i : way_to(plant, port, Part::connection)) {
                const auto& piece = plant.pieces[static_cast<std::size_t>(i)];
                double low = 1e9;
                for (const auto& each : piece.ports)
                    if (each.service == text::Service::condensate) low = std::min(low, each.at.z);
                // a trap's inlet stands above its outlet, a tee's branch level with its run
                EXPECT_LE(low, level + 0.02) << name << " " << piece.id;
                level = std::min(level, low);
            }
        }
    }
}

TEST(Drain, CommonVentsDrainToo) {
    const auto& p = plant_of("hostel");
    const auto& plant = p.built.plant;
    int tappings = 0;
    for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i) {
        const int port = plant.port(i, "drain");
        if (port < 0 || plant.pieces[static_cast<std::size_t>(i)].part != Part::cap) continue;
        ++tappings;
        const auto way = way_to(plant, {i, port}, Part::connection);
        EXPECT_TRUE(parts_on(plant, way).contains(Part::condensate_trap));
        EXPECT_TRUE(parts_on(plant, way).contains(Part::neutraliser));
    }
    EXPECT_GT(tappings, 0);
}

TEST(Drain, TheNeutraliserIsRatedForAllHeaters) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        double rated = 0;
        for (const auto& piece : p.built.plant.pieces)
            if (piece.part == Part::neutraliser)
                rated += demo_catalogue().item(piece.item)->number("rated-input").value();
        EXPECT_GE(rated, p.job.capacity.installed * heater_of(p).input_greatest.value()) << name;
    }
}

TEST(Drain, CondensateIsAGallonAnHourForEachHundred) {
    // common practice, no source
    const auto flow = condensate_flow(800.0 * units::kbtu_per_hour);
    EXPECT_NEAR(flow / units::gallon_per_hour, 8.0, 1e-9);
}

TEST(Drain, CapacityAgreesWithManningInFeet) {
    // Manning's equation in US units, 1.486/n A R^(2/3) S^(1/2), computed here for 3/4 in Schedule 40 PVC (0.824 in),
    // half full
    const double d = 0.824 / 12, area = 3.14159265 * d * d / 8, hydraulic = d / 4;
    const double cubic_feet_a_second = 1.486 / 0.009 * area * std::pow(hydraulic, 2.0 / 3) * std::sqrt(0.25 / 12);
    const double gpm = cubic_feet_a_second * 448.83;
    EXPECT_NEAR(drain_capacity(0.824 * units::inch) / units::gallon_per_minute, gpm, 0.002 * gpm);
}

}  // namespace
}  // namespace bw::piping
