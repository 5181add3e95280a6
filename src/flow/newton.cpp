// SPDX-License-Identifier: MIT
// One solution with the regulators' states as they are.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "flow/solver.h"

namespace bw::flow {

namespace {

/// Steps after which a regulator's flow should have settled.
constexpr int patience = 6;

}  // namespace

void Solver::first_flows() {
    double given = 0;
    for (const auto& node : network_.nodes)
        if (!node.fixed) given += std::fabs(node.inflow);
    double all = 0;
    for (std::size_t l = 0; l < flow_.size(); ++l) {
        const double typical = ready_[l].typical();
        free_[l] = network_.links[l].open;
        flow_[l] = !free_[l] ? 0 : given > 0 ? std::min(typical, given) : typical;
        all += typical;
        memory_[l] = 0;
        state_[l] = State::open;
    }
    evaluated_ = false;
    small_flow_ = 1e-6 * all;
}

void Solver::evaluate() {
    for (std::size_t l = 0; l < flow_.size(); ++l) {
        const auto at = ready_[l].at(flow_[l], memory_[l]);
        loss_[l] = at.loss;
        ease_[l] = 1 / at.slope;
    }
    for (const int link : watched_) {
        const auto l = static_cast<std::size_t>(link);
        if (back_[l] == 0 || flow_[l] >= 0) continue;
        loss_[l] = ready_[l].at(0, memory_[l]).loss + back_[l] * flow_[l];
        ease_[l] = 1 / back_[l];
    }
}

/// Row of node i: sum over its links of ease (Hi - Hj) = inflow - sum of y, where the Newton flow of a link is
/// y + ease (Hi - Hj), ease = 1/slope and y = flow - ease (loss - gain).
void Solver::assemble() {
    const auto n = static_cast<std::size_t>(factor_.size());
    double* const diagonal = factor_.diagonal.data();
    double* const off = factor_.off.data();
    double* const right = right_.data();
    std::fill(factor_.diagonal.begin(), factor_.diagonal.end(), 0.0);
    std::fill(factor_.off.begin(), factor_.off.end(), 0.0);
    std::copy(inflow_.begin(), inflow_.end(), right_.begin());
    const int unknown = static_cast<int>(n);
    for (std::size_t l = 0; l < line_.size(); ++l) {
        if (!free_[l]) continue;
        const auto [from, to, slot] = line_[l];
        const double ease = ease_[l], y = flow_[l] - ease * (loss_[l] - gain_[l]);
        right[from] -= y;
        right[to] += y;
        if (slot >= 0) {
            diagonal[from] += ease;
            diagonal[to] += ease;
            off[slot] -= ease;
        } else if (from < unknown) {
            diagonal[from] += ease;
            right[from] += ease * potential_[static_cast<std::size_t>(to)];
        } else if (to < unknown) {
            diagonal[to] += ease;
            right[to] += ease * potential_[static_cast<std::size_t>(from)];
        }
    }
    for (const int link : regulators_) {
        const auto at = static_cast<std::size_t>(link);
        if (state_[at] == State::holding) right[line_[at].from] -= flow_[at];
    }
    for (const int link : regulators_)
        if (state_[static_cast<std::size_t>(link)] == State::holding) pin(link);
}

/// Sets the outlet of a holding regulator to its setting and takes it out of its neighbours' rows.
void Solver::pin(int link) {
    const auto at = static_cast<std::size_t>(link);
    const int outlet = line_[at].to;
    const double setting = std::get<Regulator>(network_.links[at].law).setting;
    const auto which = std::find(regulators_.begin(), regulators_.end(), link) - regulators_.begin();
    for (const int other : around_outlet_[static_cast<std::size_t>(which)]) {
        const auto& line = line_[static_cast<std::size_t>(other)];
        if (line.slot < 0) continue;
        auto& off = factor_.off[static_cast<std::size_t>(line.slot)];
        right_[static_cast<std::size_t>(line.from == outlet ? line.to : line.from)] -= off * setting;
        off = 0;
    }
    factor_.diagonal[static_cast<std::size_t>(outlet)] = 1;
    right_[static_cast<std::size_t>(outlet)] = setting;
}

Result<void> Solver::find_potentials() {
    assemble();
    const int stuck = factor_.factor();
    if (stuck >= 0) {
        const auto node = std::find(place_.begin(), place_.end(), stuck) - place_.begin();
        return fail(fmt::format("{}: its potential cannot be found from the rest of the network",
                                network_.nodes[static_cast<std::size_t>(node)].name),
                    "links whose losses are of one order, and a way to a fixed potential");
    }
    factor_.solve(right_.data());
    std::copy(right_.begin(), right_.begin() + factor_.size(), potential_.begin());
    return {};
}

/// Moves the flows by Newton's step; how fast the network's content (whose least value is the solution) rises along it
/// at its start, never above zero.
double Solver::take_step() {
    double rise = 0;
    for (std::size_t l = 0; l < flow_.size(); ++l) {
        if (!free_[l]) {
            step_[l] = 0;
            continue;
        }
        const auto& line = line_[l];
        const double drop =
            potential_[static_cast<std::size_t>(line.from)] - potential_[static_cast<std::size_t>(line.to)] + gain_[l];
        const double off = drop - loss_[l];
        drop_[l] = drop;
        step_[l] = off * ease_[l];
        flow_[l] += step_[l];
        rise -= off * step_[l];
    }
    return rise;
}

/// One-way links that the step turned against their way count only where asked: the next step sets them to nothing, and
/// to stop short of their corner would leave them there.
double Solver::rise_along_step(bool with_turned) const {
    double rise = 0;
    for (std::size_t l = 0; l < flow_.size(); ++l)
        if (free_[l] && (with_turned || !(back_[l] > 0 && flow_[l] < 0))) rise += step_[l] * (loss_[l] - drop_[l]);
    return rise;
}

/// Goes back along a step that went too far, to about where the content is least.
void Solver::search(double start, bool with_turned) {
    double taken = 1;
    for (int tries = 0; tries < 30; ++tries) {
        const double rise = rise_along_step(with_turned);
        if (rise <= 0.5 * std::fabs(start)) return;
        const double share = taken * std::max(0.1, std::fabs(start) / (std::fabs(start) + rise));
        for (std::size_t l = 0; l < flow_.size(); ++l) flow_[l] += (share - taken) * step_[l];
        taken = share;
        evaluate();
    }
}

/// A holding regulator carries what the other links at its outlet ask for.
void Solver::balance_regulators() {
    regulators_off_ = 0;
    for (std::size_t r = 0; r < regulators_.size(); ++r) {
        const auto link = static_cast<std::size_t>(regulators_[r]);
        if (state_[link] != State::holding) continue;
        const int outlet = line_[link].to;
        double carried = -inflow_[static_cast<std::size_t>(outlet)];
        for (const int other : around_outlet_[r]) {
            const auto at = static_cast<std::size_t>(other);
            carried += line_[at].from == outlet ? flow_[at] : -flow_[at];
        }
        regulators_off_ += std::fabs(carried - flow_[link]);
        flow_[link] = carried;
    }
}

/// What the next step would still change, over the sum of all flows.
double Solver::remaining() const {
    double off = regulators_off_, all = 0;
    for (std::size_t l = 0; l < flow_.size(); ++l) {
        all += std::fabs(flow_[l]);
        if (free_[l]) off += std::fabs(loss_[l] - drop_[l]) * ease_[l];
    }
    return off / std::max(all, small_flow_);
}

/// A regulator whose inlet is fed from its own outlet would be asked for ever more flow backwards: it shuts.
void Solver::shut_fed_from_behind() {
    for (const int link : regulators_) {
        const auto at = static_cast<std::size_t>(link);
        if (state_[at] != State::holding || flow_[at] >= 0) continue;
        state_[at] = State::held;
        flow_[at] = 0;
    }
}

Result<void> Solver::newton() {
    if (!evaluated_) evaluate();
    double moved_before = 0;
    for (int i = 0; i < options_.iterations; ++i) {
        ++solution_.iterations;
        if (const auto found = find_potentials(); !found) return found;
        const double start = take_step();
        balance_regulators();
        evaluate();
        if (remaining() <= options_.tolerance) return {};
        if (balanced_) search(start, i > options_.iterations / 2);
        balanced_ = regulators_off_ == 0;
        if (i >= patience && regulators_off_ > 0.9 * moved_before) shut_fed_from_behind();
        moved_before = regulators_off_;
    }
    return tl::unexpected(unsettled());
}

Error Solver::unsettled() const {
    std::size_t worst = 0;
    double most = -1;
    for (std::size_t l = 0; l < flow_.size(); ++l) {
        const double off = free_[l] ? std::fabs(loss_[l] - drop_[l]) * ease_[l] : -1;
        if (off > most) most = off, worst = l;
    }
    return {fmt::format("the flows do not settle in {} steps; {} is farthest off", options_.iterations,
                        network_.links[worst].name),
            "losses of one order, and demands the sources can meet"};
}

}  // namespace bw::flow
