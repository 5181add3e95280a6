// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "flow/solver.h"
#include "matter/pipe_flow.h"

namespace {

using namespace bw::flow;

constexpr double pi = 3.14159265358979323846, g = 9.80665;

/// 20 m of 20 mm drawn tube with water at about 20 degC, by head.
Pipe tube(double length, double bore) {
    const double viscosity = 1.0e-6;
    return {length / bore * 8 / (pi * pi * g * std::pow(bore, 4)), 0, 4 / (pi * bore * viscosity), 1.5e-6 / bore};
}

TEST(FlowPipes, OnePipeCarriesWhatIsDrawn) {
    Network network;
    const int source = network.add_fixed("source", 30);
    const int tap = network.add_node("tap", -3e-4);
    network.add_link("tube", source, tap, tube(20, 0.02));
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver) << describe(solver.error());
    const auto found = solver->solve();
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR((*found)->flow[0], 3e-4, 1e-15);
    EXPECT_NEAR((*found)->inflow[0], 3e-4, 1e-15);
    using namespace bw::units;
    const auto drop =
        bw::matter::pipe_drop(VolumeFlow::from_value(3e-4), Length::from_value(0.02), Length::from_value(1.5e-6),
                              Length::from_value(20), 0, Density::from_value(1000), Viscosity::from_value(1e-3));
    ASSERT_TRUE(drop);
    EXPECT_NEAR((30 - (*found)->potential[1]) * 1000 * g, drop->drop.value(), 1e-6);
}

TEST(FlowPipes, ParallelTubesShareByTheirResistance) {
    Network network;
    const int a = network.add_fixed("a", 12), b = network.add_fixed("b", 10);
    network.add_link("long", a, b, tube(40, 0.02));
    network.add_link("short", a, b, tube(10, 0.02));
    const int middle = network.add_node("middle");
    network.add_link("half", a, middle, tube(20, 0.02));
    network.add_link("other half", middle, b, tube(20, 0.02));
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver) << describe(solver.error());
    const auto found = solver->solve();
    ASSERT_TRUE(found) << describe(found.error());
    const auto& flow = (*found)->flow;
    EXPECT_NEAR(flow[2], flow[0], 1e-12);
    EXPECT_NEAR(flow[3], flow[2], 1e-15);
    EXPECT_GT(flow[1], 1.9 * flow[0]);
    EXPECT_NEAR((*found)->potential[2], 11, 1e-9);
}

}  // namespace
