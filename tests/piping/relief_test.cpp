// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "services.h"

namespace bw::piping {
namespace {

using namespace tests;
using text::Part;

constexpr double in = 0.0254;

TEST(Relief, EachHeaterHasItsOwnWithNothingToShutBetween) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        for (int n = 1; n <= p.job.capacity.installed; ++n) {
            const auto way = way_to(plant, heater_port_of(plant, n, "hot"), Part::relief_valve);
            ASSERT_FALSE(way.empty()) << name << " heater " << n;
            const auto& valve = plant.pieces[static_cast<std::size_t>(way.back())];
            EXPECT_EQ(valve.heater, n) << name;
            for (const int i : way) {
                const Part part = plant.pieces[static_cast<std::size_t>(i)].part;
                EXPECT_TRUE(part == Part::flexible_water || part == Part::service_valve_hot ||
                            part == Part::relief_valve || part == Part::reducer || part == Part::adapter ||
                            part == Part::pipe)
                    << name << " heater " << n << ": " << text::name(part);
            }
        }
    }
}

TEST(Relief, SetNoHigherThanTheHeaterStands) {
    const auto& p = plant_of("hostel");
    for (const auto& piece : p.built.plant.pieces) {
        if (piece.part != Part::relief_valve) continue;
        const auto* row = demo_catalogue().item(piece.item);
        EXPECT_LE(row->number("set-pressure").value(), heater_of(p).relief_greatest.value() + 1);
        EXPECT_GE(row->number("capacity").value(), heater_of(p).input_greatest.value());
    }
}

TEST(Relief, DischargeIsFullSizeFallsAndEndsOverTheFloor) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i) {
            if (plant.pieces[static_cast<std::size_t>(i)].part != Part::relief_valve) continue;
            const int outlet = plant.port(i, "b");
            ASSERT_GE(outlet, 0);
            const auto way = way_to(plant, {i, outlet}, Part::air_gap);
            ASSERT_FALSE(way.empty()) << name << " " << plant.pieces[static_cast<std::size_t>(i)].id;
            double level = plant.at({i, outlet}).at.z;
            for (const int at : way)
                for (const auto& port : plant.pieces[static_cast<std::size_t>(at)].ports) {
                    if (port.service != text::Service::relief) continue;
                    EXPECT_LE(port.at.z, level + 1e-6);
                    EXPECT_GE(port.size, plant.at({i, outlet}).size);
                }
            // IPC 504.6, from memory: at most 6 in above the floor; an air gap is two pipe diameters at least
            const double end = plant.pieces[static_cast<std::size_t>(way.back())].ports.front().at.z;
            EXPECT_LE(end, 6 * in);
            EXPECT_GE(end, 2 * 0.75 * in);
        }
    }
}

}  // namespace
}  // namespace bw::piping
