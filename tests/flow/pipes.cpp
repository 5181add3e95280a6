// SPDX-License-Identifier: MIT
#include "matter/pipe_flow.h"

#include <gmock/gmock.h>

#include <cmath>

#include "networks.h"

namespace bw::flow {
namespace {

TEST(FlowPipes, OnePipeLosesWhatDarcyWeisbachSaysInEveryRegime) {
    for (const double flow : {5e-6, 2.2e-5, 4.5e-5, 1e-4, 3e-4, 2e-3}) {
        Network network;
        const int source = network.add_fixed("source", 30), tap = network.add_node("tap", -flow);
        network.add_link("tube", source, tap, tube(20, 0.02, 3));
        const auto found = solved(network);
        EXPECT_NEAR(found.flow[0], flow, 1e-15);
        EXPECT_NEAR(found.inflow[0], flow, 1e-15);
        using namespace bw::units;
        const auto drop =
            matter::pipe_drop(VolumeFlow::from_value(flow), Length::from_value(0.02), Length::from_value(1.5e-6),
                              Length::from_value(20), 3, Density::from_value(1000), Viscosity::from_value(1e-3));
        ASSERT_TRUE(drop);
        EXPECT_NEAR((30 - found.potential[1]) * 1000 * 9.80665, drop->drop.value(), 1e-9 * drop->drop.value() + 1e-9);
    }
}

TEST(FlowPipes, PressureAndMassSayTheSameAsHead) {
    const Stretch run{12, 0.04, 4.5e-5, 2};
    const auto head = by_head(run, 1e-6), pressure = by_pressure(run, 1000, 1e-3), mass = by_mass(run, 1000, 1e-3);
    double memory[3] = {};
    const double flow = 1.3e-3;
    const double metres = Ready(head).at(flow, memory[0]).loss;
    EXPECT_NEAR(Ready(pressure).at(flow, memory[1]).loss, metres * 9806.65, 1e-9 * metres * 9806.65);
    EXPECT_NEAR(Ready(mass).at(flow * 1000, memory[2]).loss, metres * 9806.65, 1e-9 * metres * 9806.65);
}

/// Slope of every law against a small difference of its loss, and a loss that never falls.
TEST(FlowPipes, SlopesAreThoseOfTheLosses) {
    const Law laws[] = {tube(20, 0.02),
                        tube(20, 0.02, 8),
                        by_head({20, 0.02, 4.5e-5, 1}, 1e-6, Friction::swamee_jain),
                        hazen_williams(20, 0.02, 130),
                        fitting(0.02, 5),
                        Table{{0, 1e-4, 3e-4, 9e-4}, {0, 0.5, 3, 30}}};
    for (const auto& law : laws) {
        const Ready ready(law);
        double memory = 0, before = 0;
        for (double flow = 1.013e-6; flow < 8e-4; flow *= 1.21) {
            const auto here = ready.at(flow, memory);
            const double d = 1e-6 * flow;
            const double slope = (ready.at(flow + d, memory).loss - ready.at(flow - d, memory).loss) / (2 * d);
            EXPECT_NEAR(here.slope, slope, 1e-5 * slope) << law.index() << " at " << flow;
            EXPECT_GT(here.loss, before);
            EXPECT_NEAR(ready.at(-flow, memory).loss, -here.loss, 1e-12 * here.loss);
            before = here.loss;
        }
    }
}

TEST(FlowPipes, TubesInParallelShareByTheirResistance) {
    Network network;
    const int a = network.add_fixed("a", 12), b = network.add_fixed("b", 10);
    network.add_link("long", a, b, tube(40, 0.02));
    network.add_link("short", a, b, tube(10, 0.02));
    const int middle = network.add_node("middle");
    network.add_link("half", a, middle, tube(20, 0.02));
    network.add_link("other half", middle, b, tube(20, 0.02));
    const auto found = solved(network);
    EXPECT_NEAR(found.flow[2], found.flow[0], 1e-12);
    EXPECT_NEAR(found.flow[3], found.flow[2], 1e-15);
    EXPECT_GT(found.flow[1], 1.9 * found.flow[0]);
    EXPECT_NEAR(found.potential[2], 11, 1e-9);
    EXPECT_NEAR(found.inflow[0] + found.inflow[1], 0, 1e-15);
}

TEST(FlowPipes, NothingDrawnIsNothingFlowing) {
    Network network;
    const int source = network.add_fixed("source", 30);
    int at = source;
    for (int i = 0; i < 5; ++i) {
        const int next = network.add_node(fmt::format("n{}", i));
        network.add_link(fmt::format("tube {}", i), at, next, tube(5, 0.02, 2));
        at = next;
    }
    network.add_link("back", at, source, fitting(0.02, 4));
    const auto found = solved(network);
    for (const double flow : found.flow) EXPECT_NEAR(flow, 0, 1e-12);
    for (const double head : found.potential) EXPECT_NEAR(head, 30, 1e-9);
}

}  // namespace
}  // namespace bw::flow
