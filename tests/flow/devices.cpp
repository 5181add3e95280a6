// SPDX-License-Identifier: MIT
// Valves, one-way links, regulators, pumps and buoyancy.
#include <gmock/gmock.h>

#include <cmath>

#include "networks.h"

namespace bw::flow {
namespace {

Link link(std::string name, int from, int to, Law law) {
    Link made;
    made.name = std::move(name);
    made.from = from;
    made.to = to;
    made.law = std::move(law);
    return made;
}

TEST(FlowDevices, AClosedValveStopsItsBranchAndTheOtherTakesAll) {
    Network network;
    const int source = network.add_fixed("source", 20), start = network.add_node("start");
    const int end = network.add_node("end", -4e-4), stub = network.add_node("stub");
    network.add_link("main", source, start, tube(5, 0.03));
    const int valve = network.add_link("valve", start, stub, fitting(0.02, 0.5));
    network.add_link("beyond", stub, end, tube(10, 0.02));
    network.add_link("other", start, end, tube(10, 0.02));
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver);
    const auto both = solver->solve();
    ASSERT_TRUE(both);
    EXPECT_NEAR((*both)->flow[2], 2e-4, 2e-5);
    solver->set_open(valve, false);
    const auto one = solver->solve(Start::warm);
    ASSERT_TRUE(one) << describe(one.error());
    EXPECT_EQ((*one)->flow[1], 0);
    EXPECT_NEAR((*one)->flow[2], 0, 1e-12);
    EXPECT_NEAR((*one)->flow[3], 4e-4, 1e-12);
    EXPECT_NEAR((*one)->potential[3], (*one)->potential[2], 1e-9);
    solver->set_open(valve, true);
    const auto again = solver->solve(Start::warm);
    ASSERT_TRUE(again);
    EXPECT_NEAR((*again)->flow[2], solved(network).flow[2], 1e-11);
}

TEST(FlowDevices, ACheckValveHoldsAgainstTheHigherSide) {
    Network network;
    const int high = network.add_fixed("high", 20), low = network.add_fixed("low", 10);
    const int middle = network.add_node("middle", -2e-4);
    network.add_link("from high", high, middle, tube(10, 0.02));
    auto check = link("check", low, middle, fitting(0.02, 2));
    check.one_way = true;
    network.add_link(check);
    const auto found = solved(network);
    EXPECT_EQ(found.flow[1], 0);
    EXPECT_EQ(found.state[1], State::held);
    EXPECT_NEAR(found.flow[0], 2e-4, 1e-9);
}

TEST(FlowDevices, ARegulatorHoldsStandsOpenOrShuts) {
    Network network;
    const int source = network.add_fixed("source", 50), inlet = network.add_node("inlet");
    const int outlet = network.add_node("outlet"), end = network.add_node("end", -3e-4);
    const int beyond = network.add_fixed("beyond", 5);
    network.add_link("feed", source, inlet, tube(10, 0.02));
    const int regulator = network.add_link("regulator", inlet, outlet, Regulator{20, 1e5, 1e-8});
    network.add_link("run", outlet, end, tube(10, 0.02));
    network.add_link("to beyond", end, beyond, tube(30, 0.02));
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver) << describe(solver.error());
    auto found = solver->solve();
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_EQ((*found)->state[static_cast<std::size_t>(regulator)], State::holding);
    EXPECT_NEAR((*found)->potential[2], 20, 1e-12);
    EXPECT_NEAR((*found)->flow[0], (*found)->flow[1], 1e-12);
    EXPECT_LT((*found)->imbalance, 1e-12);
    solver->set_potential(source, 18);
    found = solver->solve(Start::warm);
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_EQ((*found)->state[1], State::open);
    EXPECT_NEAR((*found)->potential[1] - (*found)->potential[2], 1e5 * std::pow((*found)->flow[1], 2), 1e-9);
    solver->set_potential(source, 50);
    solver->set_potential(beyond, 120);
    found = solver->solve(Start::warm);
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_EQ((*found)->state[1], State::held);
    EXPECT_EQ((*found)->flow[1], 0);
    EXPECT_GT((*found)->potential[2], 20);
}

/// A pump of 12 m - 3e7 q^2 lifts against 8 m: closed form q = sqrt(4 / (3e7 + r)).
TEST(FlowDevices, APumpWorksWhereItsCurveMeetsTheSystem) {
    Network network;
    const int low = network.add_fixed("low", 0), high = network.add_fixed("high", 8),
              outlet = network.add_node("outlet");
    auto pump = link("pump", low, outlet, Power{3e7, 2, 1e-8});
    pump.gain = 12;
    pump.one_way = true;
    network.add_link(pump);
    network.add_link("riser", outlet, high, Power{2e7, 2, 1e-8});
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver);
    auto found = solver->solve();
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR((*found)->flow[0], std::sqrt(4 / 5e7), 1e-12);
    solver->set_potential(high, 13);  // above its shut-off head
    found = solver->solve(Start::warm);
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_EQ((*found)->flow[0], 0);
    EXPECT_EQ((*found)->state[0], State::held);
}

TEST(FlowDevices, AFansTableIsFollowedAndNotLeft) {
    Network network;
    const int room = network.add_fixed("room", 0), outside = network.add_fixed("outside", 0);
    const int outlet = network.add_node("outlet");
    auto fan = link("fan", room, outlet, Table{{0, 0.01, 0.02, 0.03}, {-200, -180, -120, -20}});
    fan.one_way = true;
    network.add_link(fan);
    const int duct = network.add_link("duct", outlet, outside, Power{4e5, 2, 1e-6});
    auto found = solved(network);
    // on the straight line from 180 to 120 Pa: 180 - 6000 (q - 0.01) = 4e5 q^2
    const double q = (-6000 + std::sqrt(6000.0 * 6000 + 4 * 4e5 * 240)) / (2 * 4e5);
    EXPECT_NEAR(found.flow[0], q, 1e-10);
    network.links[static_cast<std::size_t>(duct)].law = Power{100, 2, 1e-6};
    EXPECT_THAT(refusal(network), testing::HasSubstr("fan"));
    EXPECT_THAT(refusal(network), testing::HasSubstr("outside its table"));
}

/// A warm column 6 m high draws: (1.2 - 0.9) g 6 = r m^2.
TEST(FlowDevices, BuoyancyDrawsAColumn) {
    Network network;
    const int room = network.add_fixed("room", 0), top = network.add_fixed("top", 0);
    auto stack = link("stack", room, top, Power{5000, 2, 1e-6});
    stack.gain = buoyancy(1.2, 0.9, 6);
    network.add_link(stack);
    const auto found = solved(network);
    EXPECT_NEAR(found.flow[0], std::sqrt(0.3 * 9.80665 * 6 / 5000), 1e-10);
    EXPECT_NEAR(gas_density(101325, 287.05, 293.15), 1.204, 0.001);
}

}  // namespace
}  // namespace bw::flow
