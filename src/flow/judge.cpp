// SPDX-License-Identifier: MIT
// Whether a network can be solved, and whether what was found is a solution.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flow/solver.h"

namespace bw::flow {

namespace {

constexpr double negligible = 1e-6;  ///< of the greatest flow
constexpr double nothing = 1e-8;     ///< of a link's typical flow: what may leak through a shut one

}  // namespace

/// As given: through every open link. As solved: not through links that hold their flow, and a holding regulator's
/// outlet is as good as fixed.
Result<void> Solver::connected(bool as_solved) const {
    std::vector<std::vector<std::size_t>> next(network_.nodes.size());
    std::vector<std::size_t> reached;
    std::vector<bool> seen(network_.nodes.size(), false);
    const auto reach = [&](std::size_t node) {
        if (!seen[node]) reached.push_back(node);
        seen[node] = true;
    };
    for (std::size_t n = 0; n < seen.size(); ++n)
        if (network_.nodes[n].fixed) reach(n);
    for (std::size_t l = 0; l < network_.links.size(); ++l) {
        const auto& link = network_.links[l];
        const auto from = static_cast<std::size_t>(link.from), to = static_cast<std::size_t>(link.to);
        if (as_solved && state_[l] == State::holding) reach(to);
        if (!link.open || (as_solved && state_[l] != State::open)) continue;
        next[from].push_back(to);
        next[to].push_back(from);
    }
    for (std::size_t i = 0; i < reached.size(); ++i)
        for (const auto node : next[reached[i]]) reach(node);
    const auto lost = std::find(seen.begin(), seen.end(), false);
    if (lost == seen.end()) return {};
    const auto& node = network_.nodes[static_cast<std::size_t>(lost - seen.begin())];
    return fail(fmt::format("{}: no open way leads from it to a fixed potential{}", node.name,
                            node.inflow != 0 ? ", and it has a flow of its own" : ""),
                "an open link to the rest of the network, or a network without that part");
}

namespace {

/// What a regulator does next; `through` is what its outlet would have were it open.
State regulated(State now, double flow, double setting, double through, double outlet, double slack, double none) {
    switch (now) {
        case State::holding:
            if (flow < -none) return State::held;
            return through < setting - slack ? State::open : State::holding;
        case State::open: {
            // without flow, only an outlet filled from the inlet can be held: one filled from beyond stands above it
            const bool filled = flow > none || (flow >= -none && outlet <= through + slack);
            return filled && outlet > setting + slack ? State::holding : State::open;
        }
        case State::held:
            if (outlet >= setting - slack || through <= outlet + slack) return State::held;
            return through > setting ? State::holding : State::open;
    }
    return now;
}

}  // namespace

/// Changes the regulators that do not fit their state; one that did, or -1.
int Solver::settle_regulators() {
    if (regulators_.empty()) return -1;
    int moved = -1;
    double greatest = small_flow_;
    for (const double flow : flow_) greatest = std::max(greatest, std::fabs(flow));
    for (const int link : regulators_) {
        const auto at = static_cast<std::size_t>(link);
        if (!network_.links[at].open) continue;
        const double setting = std::get<Regulator>(network_.links[at].law).setting;
        const double inlet = potential_[static_cast<std::size_t>(line_[at].from)];
        const double outlet = potential_[static_cast<std::size_t>(line_[at].to)];
        const double slack = 1e-9 * std::max({std::fabs(setting), std::fabs(inlet), std::fabs(outlet)});
        const double through = inlet + gain_[at] - ready_[at].at(flow_[at], memory_[at]).loss;
        const auto next = regulated(state_[at], flow_[at], setting, through, outlet, slack, 1e-9 * greatest);
        if (next == state_[at]) continue;
        state_[at] = next;
        free_[at] = next == State::open;
        if (next == State::held) flow_[at] = 0;
        balanced_ = evaluated_ = false;
        moved = link;
    }
    return moved;
}

Result<void> Solver::judge_link(std::size_t l) {
    const auto& link = network_.links[l];
    auto& flow = solution_.flow[l];
    if (!link.open) return {};
    if (back_[l] > 0 && flow < 0) {
        double greatest = 0, high = 0;
        for (const double each : flow_) greatest = std::max(greatest, std::fabs(each));
        for (const double each : potential_) high = std::max(high, std::fabs(each));
        if (-flow > std::max(negligible * greatest, nothing * ready_[l].typical()))
            return fail(fmt::format("{}: {:.4g} would have to flow back through it", link.name, -flow),
                        "a source that can meet what is drawn beyond it");
        if (-back_[l] * flow > 1e-9 * high && state_[l] == State::open) solution_.state[l] = State::held;
        flow = 0;
        return {};
    }
    if (state_[l] == State::holding || !ready_[l].bounded()) return {};
    const double beyond = negligible * ready_[l].typical();
    if (flow > ready_[l].greatest() + beyond || flow < ready_[l].least() - beyond)
        return fail(fmt::format("{}: its flow of {:.4g} is outside its table", link.name, flow),
                    fmt::format("{:.4g} to {:.4g}", ready_[l].least(), ready_[l].greatest()));
    return {};
}

Result<void> Solver::judge_nodes() {
    std::fill(right_.begin(), right_.end(), 0.0);  // what leaves each node along its links
    double greatest = 0;
    for (std::size_t l = 0; l < line_.size(); ++l) {
        const double flow = solution_.flow[l];
        right_[static_cast<std::size_t>(line_[l].from)] += flow;
        right_[static_cast<std::size_t>(line_[l].to)] -= flow;
        greatest = std::max(greatest, std::fabs(flow));
    }
    const double unbalanced = std::max(negligible * greatest, 0.01 * small_flow_);
    std::size_t lowest = 0;
    solution_.imbalance = 0;
    solution_.inflow.resize(place_.size());
    for (std::size_t n = 0; n < place_.size(); ++n) {
        const auto at = static_cast<std::size_t>(place_[n]);
        const bool fixed = place_[n] >= factor_.size();
        const double off = fixed ? 0 : std::fabs(right_[at] - inflow_[at]);
        solution_.imbalance = std::max(solution_.imbalance, off);
        if (off > unbalanced)
            return fail(fmt::format("{}: {:.4g} is missing from its balance", network_.nodes[n].name, off),
                        "a firmer tie to a fixed potential");
        solution_.inflow[n] = fixed ? right_[at] : inflow_[at];
        if (!(solution_.potential[n] >= solution_.potential[lowest])) lowest = n;
    }
    if (solution_.potential[lowest] >= network_.least_potential) return {};
    return fail(
        fmt::format("{}: its potential would be {:.4g}", network_.nodes[lowest].name, solution_.potential[lowest]),
        fmt::format("at least {:.4g}: less flow, larger links or a stronger source", network_.least_potential));
}

Result<void> Solver::finish() {
    solution_.flow = flow_;
    solution_.state = state_;
    solution_.potential.resize(network_.nodes.size());
    for (std::size_t n = 0; n < place_.size(); ++n)
        solution_.potential[n] = potential_[static_cast<std::size_t>(place_[n])];
    bool stopped = false;
    for (const int link : watched_) {
        const auto l = static_cast<std::size_t>(link);
        if (const auto fits = judge_link(l); !fits) return fits;
        stopped = stopped || solution_.state[l] != State::open;
    }
    if (const auto fits = judge_nodes(); !fits) return fits;
    if (!stopped) return {};
    std::swap(state_, solution_.state);
    const auto whole = connected(true);
    std::swap(state_, solution_.state);
    return whole;
}

}  // namespace bw::flow
