// SPDX-License-Identifier: MIT
// Gas pressures at the heaters, solved from the pieces of real plants.
#include "network/gas_network.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "code/gas_pipe.h"
#include "matter/air.h"
#include "services.h"

namespace bw::tests {
namespace {

using namespace piping;  // NOLINT
using namespace units;   // NOLINT
using network::GasNetwork;
using network::GasSplit;

network::GasFeed feed_of(const Job& job) {
    const auto& gas = job.survey.gas;
    const auto air = matter::atmosphere(*job.survey.altitude);
    EXPECT_TRUE(air);
    return {*gas.kind, *gas.specific_gravity, *gas.delivery_pressure, *air,
            job.capacity.each.input / *gas.heating_value};
}

/// What each run loses to friction, its fittings taken off, beside the code's equation for its
/// length: two laws that lie within a third of one another where the flow is turbulent.
void expect_near_the_codes_equation(const GasNetwork& gas, const network::GasFeed& feed, const GasSplit& split,
                                    const plant::Plant& plant) {
    int compared = 0;
    for (std::size_t l = 0; l < gas.network.links.size(); ++l) {
        const auto& link = gas.network.links[l];
        const auto* law = std::get_if<flow::Pipe>(&link.law);
        double length = 0, bore = 1;
        for (const int at : gas.pieces[l]) {
            const auto& piece = plant.pieces[static_cast<std::size_t>(at)];
            if (piece.part != text::Part::tee) length += shape::distance(piece.ports[0].at, piece.ports[1].at);
            if (piece.bore > 0) bore = std::min(bore, piece.bore);  // a tee's side outlet may be smaller than its run
        }
        if (!law || length < 20 * bore) continue;
        const auto entering = split.pressure[static_cast<std::size_t>(link.from)];
        const auto drop = code::gas_drop({feed.kind, feed.specific_gravity, entering}, bore * metre, length * metre,
                                         split.through[l]);
        ASSERT_TRUE(drop) << link.name;
        const auto leaving = split.pressure[static_cast<std::size_t>(link.to)];
        const double mass = split.through[l].value() * 1.2238 * feed.specific_gravity;
        const double both_ends = (entering + leaving + 2.0 * feed.atmosphere).value();
        const double ours = (entering - leaving).value() - law->local * mass * mass / both_ends;
        EXPECT_NEAR(ours, drop->value.value(), 0.25 * drop->value.value() + 0.2) << link.name;
        ++compared;
    }
    EXPECT_GT(compared, 0);
}

TEST(GasNetwork, EveryHeaterOfEveryExampleHasItsPressure) {
    for (const auto& name : example_names()) {
        const auto& made = plant_of(name);
        const auto feed = feed_of(made.job);
        const auto gas = gas_network(made.built.plant, demo_catalogue(), feed);
        ASSERT_TRUE(gas) << name << ": " << describe(gas.error());
        ASSERT_EQ(static_cast<int>(gas->heater.size()), made.job.capacity.installed);
        const auto flows = gas_flows(*gas, feed);
        ASSERT_TRUE(flows) << name << ": " << describe(flows.error());
        ASSERT_TRUE(flows->all) << name << ": " << describe(flows->all.error());
        const auto& all = *flows->all;
        expect_near_the_codes_equation(*gas, feed, all, made.built.plant);
        const double burnt = feed.each.value() * static_cast<double>(all.heater.size());
        EXPECT_NEAR(all.through.front().value(), burnt, 1e-9 * burnt);
        for (std::size_t n = 0; n < all.heater.size(); ++n) {
            EXPECT_GT(all.heater[n].value(), 0);
            EXPECT_LT(all.heater[n], feed.delivery);
            ASSERT_TRUE(flows->alone[n]) << describe(flows->alone[n].error());
            EXPECT_GT(flows->alone[n]->heater[n], all.heater[n]) << "one alone has more pressure than all together";
            EXPECT_GE(all.heater[n], all.heater[static_cast<std::size_t>(all.lowest) - 1]);
        }
    }
}

TEST(GasNetwork, ALineThatCannotCarryItNamesThePiece) {
    const auto& made = plant_of("wash-house");
    auto feed = feed_of(made.job);
    auto plant = made.built.plant;
    for (auto& piece : plant.pieces)
        if (piece.service == text::Service::gas && piece.bore > 0) piece.bore *= 0.2;
    const auto gas = gas_network(plant, demo_catalogue(), feed);
    ASSERT_TRUE(gas) << describe(gas.error());
    const auto flows = gas_flows(*gas, feed);
    ASSERT_TRUE(flows);
    ASSERT_FALSE(flows->all);
    EXPECT_THAT(flows->all.error().what, testing::HasSubstr("potential"));
    const auto node = flows->all.error().what.substr(0, flows->all.error().what.find(':'));
    EXPECT_GE(plant.find(node.substr(0, node.rfind('.'))), 0) << node;
}

}  // namespace
}  // namespace bw::tests
