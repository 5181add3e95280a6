// SPDX-License-Identifier: MIT
// Random looped networks against the EPANET engine; data/flow_networks.csv says which version and how it was made.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "flow/solver.h"

namespace bw::flow {
namespace {

constexpr double pi = 3.14159265358979323846, foot = 0.3048, millimetre = 1e-3;
// the engine's own, its litre among them
constexpr double gravity = 32.2 * foot, viscosity = 1.1e-5 * foot * foot, litre = foot * foot * foot / 28.317;

/// What the engine itself lets past a closed link: some 1e-8 ft3/s a foot of head. In l/s.
constexpr double leak = 5e-5;

double velocity_head(double bore) { return 8 / (pi * pi * gravity * std::pow(bore, 4)); }
/// 0.02517 in feet and ft3/s, as the engine rounds it.
double local_loss(double bore) { return 0.02517 * std::pow(bore / foot, -4) * std::pow(foot, -5); }
double slow(double bore) { return 1e-5 * pi / 4 * bore * bore; }

struct Held {
    int number = 0;
    bool hazen_williams = false;
    Network network;
    std::vector<int> link;           ///< in the network, by the file's order
    std::vector<double> flow, head;  ///< as the engine found them, l/s by the file's links, m by its nodes
};

void add_pipe(Held& held, Link link, const std::vector<double>& field) {
    const double length = field[0], bore = field[1] * millimetre, local = field[3] * local_loss(bore);
    auto& network = held.network;
    if (!held.hazen_williams) {
        link.law = Pipe{velocity_head(bore) * length / bore, local, 4 / (pi * bore * viscosity),
                        field[2] * millimetre / bore, Friction::swamee_jain};
        network.add_link(link);
        return;
    }
    if (local > 0) {
        const int middle = network.add_node(link.name + ", its middle");
        network.add_link(link.name + ", its fittings", middle, link.to, Power{local, 2, slow(bore)});
        link.to = middle;
    }
    // 4.727 in feet and ft3/s, as the engine's manual has it
    const double resistance =
        4.727 * std::pow(field[2], -1.852) * std::pow(bore / foot, -4.871) * length * std::pow(foot, -3 * 1.852);
    link.law = Power{resistance, 1.852, slow(bore)};
    network.add_link(link);
}

void add_link(Held& held, const std::string& kind, Link link, const std::vector<double>& field) {
    if (kind == "pipe" || kind == "check") {
        link.one_way = kind == "check";
        add_pipe(held, link, field);
    } else if (kind == "valve") {
        const double bore = field[0] * millimetre;
        link.law = Power{field[1] * local_loss(bore), 2, slow(bore)};
        held.network.add_link(link);
    } else if (kind == "regulator") {
        const double bore = field[0] * millimetre;
        link.law = Regulator{field[2], field[1] * local_loss(bore), slow(bore)};
        held.network.add_link(link);
    } else {  // a pump: gain = shut-off head - r flow^n through the two points given
        ASSERT_EQ(kind, "pump");
        const double first = field[0] - field[2], second = field[0] - field[4];
        const double exponent = std::log(second / first) / std::log(field[3] / field[1]);
        link.law = Power{first / std::pow(field[1] * litre, exponent), exponent, 1e-5 * field[1] * litre};
        link.gain = field[0];
        link.one_way = true;
        held.network.add_link(link);
    }
    held.link.push_back(static_cast<int>(held.network.links.size()) - 1);
}

std::vector<Held> read() {
    std::vector<Held> all;
    std::ifstream in(BANKWRIGHT_SOURCE "/tests/outside/data/flow_networks.csv");
    for (std::string line; std::getline(in, line);) {
        if (line.starts_with('#')) continue;
        std::istringstream cells(line);
        std::vector<std::string> cell;
        for (std::string one; std::getline(cells, one, ',');) cell.push_back(one);
        const auto number = [&](std::size_t i) { return std::stod(cell.at(i)); };
        if (cell[0] == "network") {
            all.emplace_back();
            all.back().number = std::stoi(cell.at(1));
            all.back().hazen_williams = cell.at(2) == "H-W";
        } else if (cell[0] == "node") {
            auto& held = all.back();
            const auto name = fmt::format("node {}", held.head.size());
            if (cell.at(1).empty())
                held.network.add_node(name, -number(2) * litre);
            else
                held.network.add_fixed(name, number(1));
            held.head.push_back(number(3));
        } else {
            auto& held = all.back();
            Link link;
            link.name = fmt::format("link {}, a {}", held.flow.size(), cell.at(1));
            link.from = std::stoi(cell.at(2));
            link.to = std::stoi(cell.at(3));
            held.flow.push_back(number(4));
            std::vector<double> field;
            for (std::size_t i = 5; i < cell.size(); ++i) field.push_back(number(i));
            add_link(held, cell.at(1), link, field);
        }
    }
    return all;
}

TEST(OutsideFlow, RandomNetworksAsTheEngineSolvesThem) {
    const auto all = read();
    ASSERT_GE(all.size(), 300u);
    double worst = 0;
    int laws[2] = {}, flows = 0, stopped = 0, holding = 0, most = 0;
    for (const auto& held : all) {
        auto solver = Solver::analyse(held.network);
        ASSERT_TRUE(solver) << held.number << ": " << describe(solver.error());
        const auto found = solver->solve();
        ASSERT_TRUE(found) << held.number << ": " << describe(found.error());
        const auto& solution = **found;
        most = std::max(most, solution.iterations);
        ++laws[held.hazen_williams];
        double greatest = 0;
        for (const double flow : held.flow) greatest = std::max(greatest, std::fabs(flow));
        for (std::size_t i = 0; i < held.flow.size(); ++i, ++flows) {
            const auto link = static_cast<std::size_t>(held.link[i]);
            const double ours = solution.flow[link] / litre, theirs = held.flow[i];
            EXPECT_NEAR(ours, theirs, 1e-3 * std::fabs(theirs) + leak)
                << held.number << ", " << held.network.links[link].name;
            if (std::fabs(theirs) > 1e-2 * greatest) worst = std::max(worst, std::fabs(ours / theirs - 1));
            stopped += solution.state[link] == State::held;
            holding += solution.state[link] == State::holding;
        }
        for (std::size_t n = 0; n < held.head.size(); ++n)
            EXPECT_NEAR(solution.potential[n], held.head[n], 0.01) << held.number << ", node " << n;
        EXPECT_LT(solution.imbalance, 1e-8) << held.number;
    }
    EXPECT_GE(laws[0], 100);
    EXPECT_GE(laws[1], 100);
    EXPECT_GT(stopped, 100);  // the file holds check valves that shut
    EXPECT_GE(holding, 15);   // and regulators that hold
    EXPECT_GT(flows, 8000);
    EXPECT_LT(worst, 2e-4);  // of any flow above a hundredth of its network's greatest
    EXPECT_LT(most, 50);
}

}  // namespace
}  // namespace bw::flow
