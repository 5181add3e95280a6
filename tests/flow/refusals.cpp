// SPDX-License-Identifier: MIT
// What has no answer ends in an error that names the node or link.
#include <gmock/gmock.h>

#include <limits>

#include "networks.h"

namespace bw::flow {
namespace {

using testing::AllOf;
using testing::HasSubstr;

/// source - feed - branching - run - tap, and what a test makes of it.
struct Line {
    Network network;
    int source = network.add_fixed("source", 30), branching = network.add_node("branching");
    int tap = network.add_node("tap", -2e-4);
    int feed = network.add_link("feed", source, branching, tube(5, 0.03));
    int run = network.add_link("run", branching, tap, tube(10, 0.02));
    Link& link(int at) { return network.links[static_cast<std::size_t>(at)]; }
};

TEST(FlowRefusals, NoFixedPotential) {
    Line line;
    line.network.nodes[0].fixed = false;
    EXPECT_THAT(refusal(line.network), HasSubstr("no node has a fixed potential"));
}

TEST(FlowRefusals, APartThatHangsOnNothing) {
    Line line;
    const int a = line.network.add_node("island", -1e-4), b = line.network.add_node("shore");
    line.network.add_link("ferry", a, b, tube(1, 0.02));
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("island"), HasSubstr("a flow of its own")));
}

TEST(FlowRefusals, AClosedValveBeforeADraw) {
    Line line;
    line.link(line.run).open = false;
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("tap"), HasSubstr("no open way")));
}

TEST(FlowRefusals, ANodeShutOffWithoutADraw) {
    Line line;
    line.network.nodes[2].inflow = 0;
    line.link(line.run).open = false;
    EXPECT_THAT(refusal(line.network), HasSubstr("tap"));
}

TEST(FlowRefusals, ACheckValveTheWrongWayRound) {
    Line line;
    auto& run = line.link(line.run);
    std::swap(run.from, run.to);
    run.one_way = true;
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("run"), HasSubstr("flow back")));
}

TEST(FlowRefusals, APumpBackwards) {
    Line line;
    auto& feed = line.link(line.feed);
    std::swap(feed.from, feed.to);
    feed.law = Power{1e6, 2, 1e-8};
    feed.gain = 20;
    feed.one_way = true;
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("feed"), HasSubstr("flow back")));
}

TEST(FlowRefusals, ADrawTheSourceCannotMeet) {
    Line line;
    line.network.least_potential = 0;
    EXPECT_EQ(refusal(line.network), "");
    line.network.nodes[2].inflow = -0.02;
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("tap"), HasSubstr("its potential would be -")));
}

TEST(FlowRefusals, LawsThatAreNone) {
    const auto with = [](Law law) {
        Line line;
        line.link(line.run).law = std::move(law);
        return refusal(line.network);
    };
    EXPECT_THAT(with(Power{0, 2, 1e-8}), AllOf(HasSubstr("run"), HasSubstr("without resistance")));
    EXPECT_THAT(with(Power{1, 2, 0}), HasSubstr("linear"));
    EXPECT_THAT(with(Power{1, 0.5, 1e-8}), HasSubstr("exponent"));
    EXPECT_THAT(with(Table{{0, 1}, {0, 0}}), HasSubstr("do not both rise"));
    EXPECT_THAT(with(Table{{0}, {0}}), HasSubstr("two points"));
    EXPECT_THAT(with(tube(0, 0.02)), HasSubstr("without"));
    EXPECT_THAT(with(tube(std::numeric_limits<double>::quiet_NaN(), 0.02)), HasSubstr("run"));
    EXPECT_THAT(with(by_head({10, 0.02, 0.002, 0}, 1e-6)), HasSubstr("roughness"));
}

TEST(FlowRefusals, LinksThatLeadNowhere) {
    Line line;
    line.network.add_link("loop", line.tap, line.tap, tube(1, 0.02));
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("loop"), HasSubstr("one node to another")));
    line.network.links.back().to = 17;
    EXPECT_THAT(refusal(line.network), HasSubstr("loop"));
}

TEST(FlowRefusals, TwoRegulatorsOnOneOutlet) {
    Line line;
    line.network.add_link("first", line.source, line.tap, Regulator{10, 1e5, 1e-8});
    EXPECT_EQ(refusal(line.network).find("held by"), std::string::npos);
    line.network.add_link("second", line.branching, line.tap, Regulator{12, 1e5, 1e-8});
    EXPECT_THAT(refusal(line.network), AllOf(HasSubstr("second"), HasSubstr("tap"), HasSubstr("first")));
}

TEST(FlowRefusals, NumbersThatAreNone) {
    Line line;
    line.network.nodes[2].inflow = std::numeric_limits<double>::infinity();
    EXPECT_THAT(refusal(line.network), HasSubstr("tap"));
}

TEST(FlowRefusals, ASolverIsWholeAfterARefusal) {
    Line line;
    auto solver = Solver::analyse(line.network);
    ASSERT_TRUE(solver);
    solver->set_open(line.run, false);
    ASSERT_FALSE(solver->solve());
    solver->set_open(line.run, true);
    const auto found = solver->solve(Start::warm);
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR((*found)->flow[1], 2e-4, 1e-12);
    EXPECT_FALSE(solver->set_law(line.run, Power{0, 2, 1e-8}));
}

}  // namespace
}  // namespace bw::flow
