// SPDX-License-Identifier: MIT
#include "piping/power/electric.h"

#include <gtest/gtest.h>

#include <map>
#include <numeric>

#include "services.h"

namespace bw::piping {
namespace {

using namespace tests;
using text::Part;

TEST(Electric, OneTripLeavesHalfAndNoBreakerIsLoadedPastFourFifths) {
    for (const auto& heater : demo_catalogue().heaters)
        for (int n = 1; n <= 16; ++n) {
            const auto plan = plan_circuits(demo_catalogue(), heater, n);
            ASSERT_TRUE(plan.has_value()) << heater.key << " " << n;
            EXPECT_EQ(std::accumulate(plan->sizes.begin(), plan->sizes.end(), 0), n);
            for (const int on : plan->sizes) {
                EXPECT_TRUE(n < 2 || n - on >= (n + 1) / 2) << heater.key << " " << n;
                EXPECT_LE(on * plan->each, 0.8 * plan->rating + 1e-9) << heater.key << " " << n;
            }
        }
}

TEST(Electric, AHeaterNoBreakerCarriesIsRefused) {
    auto heater = demo_catalogue().heaters.front();
    heater.current_running = 26.0 * units::ampere;
    const auto plan = plan_circuits(demo_catalogue(), heater, 2);
    ASSERT_FALSE(plan.has_value());
    EXPECT_NE(plan.error().what.find("26.0 A"), std::string::npos);
}

TEST(Electric, EachHeaterHasADisconnectOfItsOwnBetweenItAndItsBreaker) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const auto& plant = p.built.plant;
        std::map<std::string, int> on_circuit;
        for (int n = 1; n <= p.job.capacity.installed; ++n) {
            const auto own = way_to(plant, heater_port_of(plant, n, "power"), Part::disconnect);
            ASSERT_FALSE(own.empty()) << name << " heater " << n;
            EXPECT_EQ(plant.pieces[static_cast<std::size_t>(own.back())].heater, n);
            const auto fed = way_to(plant, heater_port_of(plant, n, "power"), Part::panel_feed);
            ASSERT_FALSE(fed.empty()) << name << " heater " << n;
            // the emergency stop holds a pole of every circuit, so the first cable's name tells which is this one's
            const auto cable = std::ranges::find_if(
                fed, [&](int i) { return plant.pieces[static_cast<std::size_t>(i)].id.starts_with("circuit-"); });
            ASSERT_NE(cable, fed.end());
            const auto& id = plant.pieces[static_cast<std::size_t>(*cable)].id;
            ++on_circuit[id.substr(0, id.find('.'))];
        }
        for (const auto& [circuit, heaters] : on_circuit)
            EXPECT_GE(2 * (p.job.capacity.installed - heaters), p.job.capacity.installed) << name;
    }
}

TEST(Electric, TheStopCutsEveryCircuitWhereItIsRequiredAndIsLeftOutWhereNot) {
    const auto& p = plant_of("hostel");
    ASSERT_TRUE(*p.job.survey.emergency_stop_required);
    const auto& plant = p.built.plant;
    EXPECT_EQ(count(plant, Part::emergency_stop), 1);
    for (int n = 1; n <= p.job.capacity.installed; ++n) {
        const auto way = way_to(plant, heater_port_of(plant, n, "power"), Part::emergency_stop);
        EXPECT_FALSE(way.empty()) << "heater " << n;
    }
    EXPECT_EQ(count(plant, Part::co_alarm), 1);
    const auto without = plant_with("wash-house", [](auto& survey) { survey.emergency_stop_required.value = false; });
    EXPECT_EQ(count(without.built.plant, Part::emergency_stop), 0);
}

TEST(Electric, TheLinkChainRunsFromFirstToLastWithAPlugAtEitherEnd) {
    for (const auto& name : example_names()) {
        const auto& p = plant_of(name);
        const int heaters = p.job.capacity.installed, most = heater_of(p).greatest_group;
        const int groups = (heaters + most - 1) / most;
        EXPECT_EQ(count(p.built.plant, Part::link_cable), heaters - groups) << name;
        EXPECT_EQ(count(p.built.plant, Part::link_plug), 2 * groups) << name;
    }
}

TEST(Electric, CablesReach) {
    for (const auto& name : example_names()) {
        for (const auto& piece : plant_of(name).built.plant.pieces) {
            if (piece.part != Part::cable && piece.part != Part::link_cable) continue;
            const double apart = shape::distance(piece.ports[0].at, piece.ports[1].at);
            const auto* row = demo_catalogue().item(piece.item);
            const double length = piece.cut > 0 ? piece.cut : row->number("length").value();
            EXPECT_GE(length, apart - 1e-9) << name << " " << piece.id;
        }
    }
}

TEST(Electric, TheGasPipeIsBonded) {
    for (const auto& name : example_names()) {
        const auto& plant = plant_of(name).built.plant;
        EXPECT_EQ(count(plant, Part::bond), 2) << name << ": a clamp and a jumper";
        const int jumper = plant.find("main.gas.bond.jumper");
        ASSERT_GE(jumper, 0) << name;
        const auto clamp = plant.mate({jumper, 0}), earth = plant.mate({jumper, 1});
        EXPECT_EQ(plant.pieces[static_cast<std::size_t>(clamp.piece)].id, "main.gas.bond.clamp") << name;
        EXPECT_EQ(plant.pieces[static_cast<std::size_t>(earth.piece)].id, "site.earth") << name;
    }
}

TEST(Electric, TheStopHangsBesideTheLatchNotBehindTheLeaf) {
    auto room = job_of("hostel").survey.room;  // wall 4, near jamb at 6 ft, 34 in wide, hinged far
    ClearanceMap space(room.plan, room.overhead());
    const auto place = beside_door(room, space);
    const double x_wall = room.plan[0].x;
    EXPECT_NEAR(place.at.x, x_wall, 1e-9);
    EXPECT_NEAR(place.at.z, 48 * 0.0254, 1e-9);
    EXPECT_NEAR(place.facing.x, 1, 1e-9);
    const double along = room.plan[3].y - place.at.y;  // wall 4 runs from the fourth corner down
    EXPECT_NEAR(along, (72 - 8) * 0.0254, 1e-9);
    // on the other side where a cupboard stands there, unless that is before the panel
    space.take(shape::grown({place.at, place.at}, 3 * 0.0254), 0);
    EXPECT_NEAR(room.plan[3].y - beside_door(room, space).at.y, (72 - 8 - 3 * 3) * 0.0254, 1e-9);
    room.panel.given = false;
    EXPECT_NEAR(room.plan[3].y - beside_door(room, space).at.y, (72 + 34 + 8) * 0.0254, 1e-9);
}

TEST(Electric, TheStopHangsCloseByTheFrameWhereAShelfLeavesNoMore) {
    const auto room = job_of("hostel").survey.room;
    ClearanceMap space(room.plan, room.overhead());
    const double x = room.plan[0].x, latch = room.plan[3].y - 72 * 0.0254, hinge = latch - 34 * 0.0254;
    constexpr double left = 9.5 * 0.0254, deep = 12 * 0.0254, far = 120 * 0.0254;
    space.take({{x, latch + left, 0}, {x + deep, latch + far, 3}}, 0);
    space.take({{x, hinge - far, 0}, {x + deep, hinge, 3}}, 1);
    const auto place = beside_door(room, space);
    EXPECT_NEAR(place.at.y, latch + 5.5 * 0.0254, 1e-9);
    EXPECT_NEAR(place.at.z, 48 * 0.0254, 1e-9);
}

}  // namespace
}  // namespace bw::piping
