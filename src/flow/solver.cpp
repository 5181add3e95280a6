// SPDX-License-Identifier: MIT
#include "flow/solver.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "flow/lawful.h"

namespace bw::flow {

namespace {

/// What leaks the wrong way through a one-way link, as a share of its typical flow.
constexpr double leak = 1e-10;

bool one_way(const Link& link) { return link.one_way || std::holds_alternative<Regulator>(link.law); }

}  // namespace

Result<Solver> Solver::analyse(Network network, Options options) {
    if (const auto fit = lawful(network); !fit) return tl::unexpected(fit.error());
    Solver solver;
    solver.network_ = std::move(network);
    solver.options_ = options;
    solver.prepare();
    return solver;
}

void Solver::prepare() {
    const auto& nodes = network_.nodes;
    const auto& links = network_.links;
    std::vector<int> row(nodes.size(), -1);
    int unknown = 0;
    for (std::size_t n = 0; n < nodes.size(); ++n)
        if (!nodes[n].fixed) row[n] = unknown++;
    std::map<std::pair<int, int>, int> index;
    std::vector<std::pair<int, int>> pairs;
    std::vector<int> pair_of(links.size(), -1);
    for (std::size_t l = 0; l < links.size(); ++l) {
        const int a = row[static_cast<std::size_t>(links[l].from)], b = row[static_cast<std::size_t>(links[l].to)];
        if (a < 0 || b < 0) continue;
        const auto [at, added] = index.try_emplace(std::minmax(a, b), static_cast<int>(pairs.size()));
        if (added) pairs.emplace_back(at->first);
        pair_of[l] = at->second;
    }
    factor_ = Factor(unknown, pairs);
    place_.resize(nodes.size());
    potential_.assign(nodes.size(), 0.0);
    inflow_.assign(nodes.size(), 0.0);
    right_.resize(nodes.size());
    int fixed = unknown;
    for (std::size_t n = 0; n < nodes.size(); ++n) {
        place_[n] = nodes[n].fixed ? fixed++ : factor_.place(row[n]);
        const auto at = static_cast<std::size_t>(place_[n]);
        potential_[at] = nodes[n].potential;
        inflow_[at] = nodes[n].inflow;
    }
    for (std::size_t l = 0; l < links.size(); ++l) {
        ready_.emplace_back(links[l].law);
        line_.push_back({place_[static_cast<std::size_t>(links[l].from)], place_[static_cast<std::size_t>(links[l].to)],
                         pair_of[l] < 0 ? -1 : factor_.slot(pair_of[l])});
        gain_.push_back(links[l].gain);
        double memory = 0;
        spread_ = std::max({spread_, std::fabs(gain_[l]), std::fabs(ready_[l].at(ready_[l].typical(), memory).loss)});
        free_.push_back(links[l].open);
        if (one_way(links[l]) || ready_[l].bounded()) watched_.push_back(static_cast<int>(l));
        if (std::holds_alternative<Regulator>(links[l].law)) prepare_regulator(l);
    }
    back_.assign(links.size(), 0.0);
    for (std::size_t l = 0; l < links.size(); ++l) set_back(l);
    for (auto* each : {&flow_, &step_, &loss_, &ease_, &drop_, &memory_}) each->assign(links.size(), 0.0);
    state_.assign(links.size(), State::open);
}

void Solver::prepare_regulator(std::size_t link) {
    const auto& links = network_.links;
    regulators_.push_back(static_cast<int>(link));
    around_outlet_.emplace_back();
    for (std::size_t other = 0; other < links.size(); ++other)
        if (other != link && (links[other].from == links[link].to || links[other].to == links[link].to))
            around_outlet_.back().push_back(static_cast<int>(other));
}

void Solver::set_back(std::size_t link) {
    if (one_way(network_.links[link])) back_[link] = spread_ / (leak * ready_[link].typical());
}

void Solver::set_inflow(int node, double inflow) {
    network_.nodes[static_cast<std::size_t>(node)].inflow = inflow;
    inflow_[static_cast<std::size_t>(place_[static_cast<std::size_t>(node)])] = inflow;
}

void Solver::set_potential(int node, double potential) {
    network_.nodes[static_cast<std::size_t>(node)].potential = potential;
    potential_[static_cast<std::size_t>(place_[static_cast<std::size_t>(node)])] = potential;
}

void Solver::set_open(int link, bool open) {
    const auto at = static_cast<std::size_t>(link);
    if (network_.links[at].open == open) return;
    network_.links[at].open = open;
    free_[at] = open;
    flow_[at] = open ? ready_[at].typical() : 0;
    state_[at] = State::open;
    openings_changed_ = true;
    evaluated_ = false;
}

Result<void> Solver::set_law(int link, Law law) {
    const auto at = static_cast<std::size_t>(link);
    auto changed = network_.links[at];
    if (std::holds_alternative<Regulator>(changed.law) != std::holds_alternative<Regulator>(law))
        return fail(fmt::format("{}: a regulator stays a regulator", changed.name), "a network with the other link");
    changed.law = std::move(law);
    if (const auto fit = lawful(changed); !fit) return fit;
    network_.links[at] = std::move(changed);
    ready_[at] = Ready(network_.links[at].law);
    memory_[at] = 0;
    evaluated_ = false;
    set_back(at);
    return {};
}

Result<const Solution*> Solver::solve(Start start) {
    if (openings_changed_) {
        if (const auto whole = connected(false); !whole) return tl::unexpected(whole.error());
        openings_changed_ = false;
    }
    solution_.iterations = 0;
    if (start == Start::cold || !have_flows_) first_flows();
    have_flows_ = false;
    balanced_ = false;
    for (int round = 0; round < options_.iterations; ++round) {
        if (const auto solved = newton(); !solved) return tl::unexpected(solved.error());
        const int moved = settle_regulators();
        if (moved < 0) {
            if (const auto done = finish(); !done) return tl::unexpected(done.error());
            have_flows_ = evaluated_ = true;
            return &solution_;
        }
        if (round + 1 == options_.iterations)
            return fail(
                fmt::format("{}: the regulator does not settle", network_.links[static_cast<std::size_t>(moved)].name),
                "regulators that do not work against each other");
    }
    return fail("no iterations allowed", "at least one");
}

}  // namespace bw::flow
