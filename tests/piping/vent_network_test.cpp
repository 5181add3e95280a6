// SPDX-License-Identifier: MIT
// Pressures in vents, solved from the pieces of real plants.
#include "network/vent_network.h"
#include "network/vent_by_number.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "services.h"

namespace bw::tests {
namespace {

using namespace network;  // NOLINT
using namespace piping;   // NOLINT
using namespace units;    // NOLINT
using text::Part;
using text::Service;

VentFeed feed_of(const Plant& made) {
    const auto feed = vent_feed(made.job.survey, heater_of(made), made.job.demand, made.job.capacity);
    EXPECT_TRUE(feed) << describe(feed.error());
    return *feed;
}

std::vector<VentNetwork> networks_of(const Plant& made, Service service, const VentFeed& feed) {
    const auto all = vent_networks(made.built.plant, demo_catalogue(), service, feed);
    EXPECT_TRUE(all) << describe(all.error());
    return *all;
}

/// Darcy-Weisbach with Colebrook's factor by going round and round, written down apart from the kernel.
double darcy_weisbach(double mass, double bore, double length, double local, double density, double viscosity) {
    const double area = std::numbers::pi / 4 * bore * bore, speed = mass / density / area;
    const double reynolds = density * speed * bore / viscosity;
    EXPECT_GT(reynolds, 4000);
    double root = 8;  // 1/sqrt(f)
    for (int i = 0; i < 60; ++i) root = -2 * std::log10(1.5e-6 / bore / 3.7 + 2.51 / reynolds * root);
    return (length / bore / (root * root) + local) * density * speed * speed / 2;
}

TEST(VentNetwork, FlueGasIsByHand) {
    const auto& made = plant_of("wash-house");
    const auto feed = feed_of(made);
    // methane with a quarter more air than it needs: 2 x 1.25 / 0.21 = 11.905 of air, 12.905 of flue gas
    const double moles = made.job.capacity.each.input.value() / made.job.survey.gas.heating_value->value() * 101325 /
                         (8.314462618 * 288.7056);
    const double mass = 16.043e-3 + 2.5 / 0.21 * 28.9644e-3;
    EXPECT_NEAR(feed.flue.full.value(), moles * mass, 1e-4 * moles * mass);
    const double kelvin = feed.flue_temperature.value();
    const double density = feed.atmosphere.value() * mass / (2.5 / 0.21 + 1) / (8.314462618 * kelvin);
    EXPECT_NEAR(feed.flue.density.value(), density, 1e-4 * density);
    EXPECT_LT(feed.flue.least, 0.2 * feed.flue.full);
    EXPECT_LT(feed.air.full, feed.flue.full);
}

/// What a heater's exhaust loses on its way, piece by piece; `fired` counts the heaters whose exhaust meets in a piece.
double lost_by_hand(const plant::Plant& plant, const std::vector<int>& way, const std::map<int, int>& fired,
                    const VentGas& gas) {
    double lost = 0;
    const plant::Piece* before = nullptr;
    double mass = 0;
    for (const int at : way) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(at)];
        if (piece.part == Part::heater) continue;
        const bool tee = piece.part == Part::vent_tee, branch = tee && before->heater > 0;
        if (!tee) mass = fired.at(at) * gas.full.value();  // a tee passes on what comes to it
        const double length = tee ? 0 : shape::distance(piece.ports[0].at, piece.ports[1].at);
        lost += darcy_weisbach(mass, branch ? before->bore : piece.bore, length,
                               branch ? piece.loss_stem : piece.loss_run, gas.density.value(), gas.viscosity.value());
        before = &piece;
    }
    return lost;
}

/// Every heater of one vent at full fire, by hand and by the network.
void expect_by_hand(const Plant& made, const VentNetwork& vent, const VentFeed& feed) {
    const auto& plant = made.built.plant;
    const auto flows = vent_flows(vent, feed);
    ASSERT_TRUE(flows) << describe(flows.error());
    ASSERT_TRUE(flows->all) << describe(flows->all.error());
    std::map<int, int> fired;
    std::vector<std::vector<int>> ways;
    for (const auto& mouth : vent.mouths) {
        ways.push_back(way_to(plant, heater_port_of(plant, mouth.number, "exhaust"), Part::vent_terminal));
        for (const int at : ways.back()) ++fired[at];
    }
    for (std::size_t m = 0; m < ways.size(); ++m) {
        const auto port = heater_port_of(plant, vent.mouths[m].number, "exhaust");
        const double lost = lost_by_hand(plant, ways[m], fired, feed.flue);
        const double rise = plant.at(vent.at[0]).at.z - plant.at(port).at.z;
        const double air = (rise >= 0 ? feed.light_air : feed.heavy_air).value();
        const double lift = (air - feed.flue.density.value()) * 9.80665 * rise;
        EXPECT_GT(lost, 10);
        EXPECT_NEAR(flows->all->port[m].value(), lost - lift, 1e-3 * lost) << "heater-" << vent.mouths[m].number;
    }
}

TEST(VentNetwork, SingleVentsLoseWhatDarcyWeisbachSays) {
    const auto made = plant_with("wash-house", [](survey::Survey& s) {
        s.preferences.vent = {survey::VentPreference::single, false};
    });
    const auto feed = feed_of(made);
    const auto all = networks_of(made, Service::exhaust, feed);
    ASSERT_EQ(static_cast<int>(all.size()), made.job.capacity.installed);
    for (const auto& vent : all) {
        ASSERT_EQ(vent.mouths.size(), 1U);
        expect_by_hand(made, vent, feed);
    }
}

TEST(VentNetwork, CommonVentsLoseWhatDarcyWeisbachSays) {
    for (const auto& name : example_names()) {
        const auto& made = plant_of(name);
        const auto feed = feed_of(made);
        for (const auto& vent : networks_of(made, Service::exhaust, feed)) expect_by_hand(made, vent, feed);
    }
}

TEST(VentNetwork, AnIdleHeaterMeetsWhatTheOthersPush) {
    for (const auto& name : example_names()) {
        const auto& made = plant_of(name);
        const auto feed = feed_of(made);
        std::set<int> seen;
        for (const auto& vent : networks_of(made, Service::exhaust, feed)) {
            const auto flows = vent_flows(vent, feed);
            ASSERT_TRUE(flows && flows->all);
            for (std::size_t m = 0; m < vent.mouths.size(); ++m) {
                const auto& mouth = vent.mouths[m];
                seen.insert(mouth.number);
                if (vent.mouths.size() < 2) continue;  // alone in its vent: nobody pushes
                ASSERT_TRUE(flows->idle[m] && flows->least[m] && flows->open[m]) << name;
                const auto idle = flows->idle[m]->port[m];
                EXPECT_GT(idle, Pressure{}) << name << " heater-" << mouth.number;
                EXPECT_LT(idle, flows->least[m]->port[m]);
                EXPECT_LT(flows->least[m]->port[m], flows->all->port[m]);
                // a damper failed open: the others' exhaust parts between terminal and room, by the outlet's own head
                const auto& open = *flows->open[m];
                const int damper = made.built.plant.find(fmt::format("heater-{}.exhaust.damper", mouth.number));
                ASSERT_GE(damper, 0);
                const double bore = made.built.plant.pieces[static_cast<std::size_t>(damper)].bore;
                const double by_hand = std::numbers::pi / 4 * bore * bore *
                                       std::sqrt(2 * feed.flue.density.value() * open.port[m].value());
                EXPECT_NEAR(open.leak.value(), by_hand, 1e-6 * by_hand);
                EXPECT_LT(open.port[m], idle);
                const double others = static_cast<double>(vent.mouths.size() - 1) * feed.flue.full.value();
                double out = 0;  // what comes to the terminal
                for (std::size_t l = 0; l < vent.network.links.size(); ++l)
                    if (vent.network.links[l].to == 0) out += open.through[l].value();
                EXPECT_NEAR(out + open.leak.value(), others, 1e-8 * others);
            }
        }
        EXPECT_EQ(static_cast<int>(seen.size()), made.job.capacity.installed);
    }
}

TEST(VentNetwork, AirIsDrawnThroughItsPipe) {
    const auto& made = plant_of("wash-house");
    const auto feed = feed_of(made);
    const auto all = networks_of(made, Service::intake, feed);
    ASSERT_FALSE(all.empty());
    for (const auto& pipe : all) {
        const auto flows = vent_flows(pipe, feed);
        ASSERT_TRUE(flows && flows->all);
        for (const auto& port : flows->all->port) EXPECT_LT(port, Pressure{});
        for (std::size_t l = 0; l < pipe.network.links.size(); ++l)
            if (pipe.network.links[l].open) {
                EXPECT_GT(flows->all->through[l], MassFlow{});
            }
    }
}

TEST(VentNetwork, APieceWithoutABoreIsNamed) {
    const auto& made = plant_of("wash-house");
    auto plant = made.built.plant;
    for (auto& piece : plant.pieces)
        if (piece.service == Service::exhaust) piece.bore = 0;
    const auto all = vent_networks(plant, demo_catalogue(), Service::exhaust, feed_of(made));
    ASSERT_FALSE(all);
    EXPECT_THAT(all.error().what, testing::HasSubstr("no bore"));
}

/// With all but one firing it is the worst of the idle heaters; each heater more adds; fewer heaters are any of them.
TEST(VentNetwork, WhatADamperHoldsRisesWithTheNumberFiring) {
    int shared = 0;
    for (const auto& name : example_names()) {
        const auto& made = plant_of(name);
        const auto feed = feed_of(made);
        for (const auto& vent : networks_of(made, Service::exhaust, feed)) {
            const auto rows = vent_by_number(vent, feed);
            if (vent.mouths.size() < 2) {
                EXPECT_TRUE(rows.empty());
                continue;
            }
            ++shared;
            ASSERT_EQ(rows.size(), vent.mouths.size() - 1);
            const auto flows = vent_flows(vent, feed);
            ASSERT_TRUE(flows);
            Pressure worst{};
            for (std::size_t m = 0; m < vent.mouths.size(); ++m) worst = std::max(worst, flows->idle[m]->port[m]);
            EXPECT_NEAR(rows.back().pressure.value(), worst.value(), 1e-6 * worst.value());
            for (std::size_t k = 0; k < rows.size(); ++k) {
                EXPECT_EQ(rows[k].firing, static_cast<int>(k) + 1);
                EXPECT_EQ(rows[k].burning.size(), k + 1);
                EXPECT_THAT(rows[k].burning, testing::Not(testing::Contains(rows[k].idle)));
                if (k > 0) {
                    EXPECT_GT(rows[k].pressure, rows[k - 1].pressure);
                }
            }
            EXPECT_TRUE(vent_by_number(networks_of(made, Service::intake, feed).front(), feed).empty());
        }
    }
    EXPECT_GT(shared, 0);
}

}  // namespace
}  // namespace bw::tests
