// SPDX-License-Identifier: MIT
// A mesh large enough for columns to be factored many at a time, and what a solution must keep on every link and node.
#include <cmath>

#include "networks.h"

namespace bw::flow {
namespace {

constexpr int side = 24;

/// Tubes of many sizes between side x side nodes, two corners fixed.
Network mesh() {
    Network network;
    for (int i = 0; i < side * side; ++i) {
        const auto name = fmt::format("node {}", i);
        if (i == 0 || i == side * side - 1)
            network.add_fixed(name, i == 0 ? 60 : 50);
        else
            network.add_node(name, -1e-5 * (i * 7 % 5));
    }
    const auto add = [&](int from, int to) {
        const auto k = static_cast<int>(network.links.size());
        network.add_link(fmt::format("tube {}", k), from, to,
                         tube(5 + k * 37 % 23, 0.02 + 0.005 * (k * 53 % 7), k % 3));
    };
    for (int i = 0; i < side; ++i)
        for (int j = 0; j < side; ++j) {
            if (j + 1 < side) add(i * side + j, i * side + j + 1);
            if (i + 1 < side) add(i * side + j, (i + 1) * side + j);
        }
    return network;
}

void expect_kept(const Network& network, const Solution& found) {
    double greatest = 0;
    for (const double flow : found.flow) greatest = std::max(greatest, std::fabs(flow));
    std::vector<double> out(network.nodes.size(), 0);
    for (std::size_t l = 0; l < network.links.size(); ++l) {
        const auto from = static_cast<std::size_t>(network.links[l].from),
                   to = static_cast<std::size_t>(network.links[l].to);
        out[from] += found.flow[l];
        out[to] -= found.flow[l];
        double memory = 0;
        const double lost = Ready(network.links[l].law).at(found.flow[l], memory).loss;
        EXPECT_NEAR(found.potential[from] - found.potential[to], lost, 1e-7) << network.links[l].name;
    }
    for (std::size_t n = 0; n < network.nodes.size(); ++n)
        if (!network.nodes[n].fixed) {
            EXPECT_NEAR(out[n], network.nodes[n].inflow, 1e-11 * greatest) << network.nodes[n].name;
        }
}

TEST(FlowGrid, EveryLinkAndNodeOfAMeshIsKept) {
    const auto network = mesh();
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver);
    const auto found = solver->solve();
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_LT((*found)->iterations, 20);
    expect_kept(network, **found);
}

TEST(FlowGrid, WarmAndColdAgree) {
    auto network = mesh();
    auto solver = Solver::analyse(network);
    ASSERT_TRUE(solver);
    ASSERT_TRUE(solver->solve());
    for (int i = 1; i < 40; i += 3) {
        solver->set_inflow(i, -2e-5 * i);
        network.nodes[static_cast<std::size_t>(i)].inflow = -2e-5 * i;
    }
    solver->set_potential(0, 64);
    network.nodes[0].potential = 64;
    const auto warm = solver->solve(Start::warm);
    ASSERT_TRUE(warm) << describe(warm.error());
    const auto cold = solved(network);
    expect_kept(network, **warm);
    for (std::size_t l = 0; l < cold.flow.size(); ++l) EXPECT_NEAR((*warm)->flow[l], cold.flow[l], 1e-9) << l;
}

}  // namespace
}  // namespace bw::flow
