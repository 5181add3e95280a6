// SPDX-License-Identifier: MIT
// Random networks with everything in them, many without an answer: what is answered keeps every law.
#include <algorithm>
#include <cmath>
#include <random>

#include "networks.h"

namespace bw::flow {
namespace {

/// Its own draws: the library's distributions differ between machines.
class Draw {
public:
    explicit Draw(unsigned seed) : engine_(seed) {}
    int below(int n) { return static_cast<int>(engine_() % static_cast<unsigned long>(n)); }
    double between(double a, double b) { return a + (b - a) * below(10000) / 10000.0; }
    bool one_in(int n) { return below(n) == 0; }

private:
    std::mt19937 engine_;
};

Law drawn_law(Draw& draw) {
    switch (draw.below(6)) {
        case 0: return fitting(draw.between(0.015, 0.05), draw.between(0.5, 20));
        case 1: return hazen_williams(draw.between(1, 60), draw.between(0.015, 0.05), draw.between(90, 150));
        case 2:
            return Table{{0, 1e-4, 1e-3, 2e-2}, {0, draw.between(0.1, 1), draw.between(3, 9), draw.between(300, 900)}};
        default: return tube(draw.between(0.2, 60), draw.between(0.015, 0.06), draw.between(0, 5));
    }
}

Network drawn(unsigned seed) {
    Draw draw(seed);
    Network network;
    const int nodes = 4 + draw.below(12);
    for (int i = 0; i < nodes; ++i) {
        if (i == 0 || draw.one_in(8))
            network.add_fixed(fmt::format("n{}", i), draw.between(20, 60));
        else
            network.add_node(fmt::format("n{}", i), draw.one_in(2) ? -draw.between(0, 8e-4) : 0);
    }
    const int links = nodes + draw.below(nodes);
    for (int l = 0; l < links; ++l) {
        Link link;
        link.name = fmt::format("l{}", l);
        link.to = l + 1 < nodes ? l + 1 : draw.below(nodes);
        link.from = l + 1 < nodes ? draw.below(l + 1) : draw.below(nodes);
        if (link.from == link.to) continue;
        link.law = drawn_law(draw);
        link.one_way = draw.one_in(6);
        link.open = !draw.one_in(14);
        if (draw.one_in(12)) {
            link.law = Power{draw.between(1e6, 1e8), draw.between(1.2, 2.5), 1e-7};
            link.gain = draw.between(2, 25);
            link.one_way = true;
        }
        const bool held = std::ranges::any_of(network.links, [&](const Link& other) {
            return other.to == link.to && std::holds_alternative<Regulator>(other.law);
        });
        if (draw.one_in(12) && !network.nodes[static_cast<std::size_t>(link.to)].fixed && !held) {
            link.law = Regulator{draw.between(15, 50), 1e5, 1e-7};
            link.gain = 0;
            link.one_way = false;
        }
        network.add_link(link);
    }
    return network;
}

void expect_lawful(const Network& network, const Solution& found, unsigned seed) {
    double greatest = 1e-6;
    for (const double flow : found.flow) greatest = std::max(greatest, std::fabs(flow));
    std::vector<double> out(network.nodes.size(), 0);
    for (std::size_t l = 0; l < network.links.size(); ++l) {
        const auto& link = network.links[l];
        const auto from = static_cast<std::size_t>(link.from), to = static_cast<std::size_t>(link.to);
        const double flow = found.flow[l], drop = found.potential[from] - found.potential[to] + link.gain;
        const auto where = fmt::format("network {}, {}", seed, link.name);
        out[from] += flow;
        out[to] -= flow;
        double memory = 0;
        const double lost = Ready(link.law).at(flow, memory).loss;
        const auto* regulator = std::get_if<Regulator>(&link.law);
        if (!link.open) {
            EXPECT_EQ(flow, 0) << where;
        } else if (found.state[l] == State::holding) {
            EXPECT_NEAR(found.potential[to], regulator->setting, 1e-6) << where;
            EXPECT_GE(flow, -1e-8 * greatest) << where;
            EXPECT_GE(drop, lost - 1e-6) << where;
        } else if (found.state[l] == State::held) {
            EXPECT_EQ(flow, 0) << where;
            EXPECT_TRUE(drop < lost + 1e-6 || (regulator && found.potential[to] >= regulator->setting - 1e-6)) << where;
        } else {
            EXPECT_NEAR(drop, lost, 1e-4 + 1e-6 * std::fabs(lost)) << where;
            if (link.one_way || regulator) {
                EXPECT_GE(flow, 0) << where;
            }
            if (regulator) {
                EXPECT_TRUE(found.potential[to] <= regulator->setting + 1e-6 || flow < 1e-8 * greatest) << where;
            }
        }
    }
    for (std::size_t n = 0; n < out.size(); ++n) {
        EXPECT_NEAR(out[n], found.inflow[n], 1e-7 * greatest + 1e-11) << "network " << seed << ", node " << n;
        if (!network.nodes[n].fixed) {
            EXPECT_EQ(found.inflow[n], network.nodes[n].inflow);
        }
    }
}

TEST(FlowRandom, WhatIsAnsweredKeepsEveryLaw) {
    int answered = 0, refused = 0, unsettled = 0;
    for (unsigned seed = 1; seed <= 4000; ++seed) {
        const auto network = drawn(seed);
        auto solver = Solver::analyse(network);
        ASSERT_TRUE(solver) << seed << ": " << describe(solver.error());
        const auto found = solver->solve();
        if (found) {
            ++answered;
            expect_lawful(network, **found, seed);
            continue;
        }
        ++refused;
        const auto& says = found.error().what;
        unsettled += says.find("settle") != std::string::npos;
        EXPECT_TRUE(says.starts_with("n") || says.starts_with("l") || says.find("; l") != std::string::npos) << says;
    }
    EXPECT_GT(answered, 1500);
    EXPECT_GT(refused, 300);
    EXPECT_LT(unsettled, 20);  // regulators and one-way links set against each other
}

}  // namespace
}  // namespace bw::flow
