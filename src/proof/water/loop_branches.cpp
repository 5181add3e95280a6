// SPDX-License-Identifier: MIT
#include "proof/water/loop_branches.h"

#include <cmath>

#include "flow/pipes.h"
#include "flow/solver.h"
#include "matter/pipe_flow.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

constexpr double gravity = units::standard_gravity;

/// Gallons a minute of 60 degF water that a loss of 1 psi drives: Q = Cv sqrt(dp / s), the valve makers' coefficient.
double coefficient(VolumeFlow flow, Pressure lost, const matter::Water& water) {
    constexpr double water_60 = 999.0;
    return flow / gallon_per_minute * std::sqrt(water.density.value() / water_60 / (lost / psi).value());
}

class Loop {
public:
    Loop(const View& view, Pressure plant, const PumpCurve& pump, const matter::Water& water)
        : view_(view), plant_(plant), pump_(pump), water_(water), flow_(view.demand.recirculation_flow) {}

    Result<Branches> found() {
        for (const auto& branch : view_.survey.recirculation.branches)
            if (auto done = heat(branch); !done) return tl::unexpected(done.error());
        for (auto& b : out_.at)
            if (auto done = needs(b); !done) return tl::unexpected(done.error());
        set_valves();
        if (auto done = solve(false); !done) out_.unset_refused = describe(done.error());
        if (auto done = solve(true); !done) return tl::unexpected(done.error());
        for (std::size_t i = 1; i < out_.at.size(); ++i)
            if (out_.at[i].back < out_.at[out_.coldest].back) out_.coldest = i;
        return std::move(out_);
    }

private:
    Result<void> heat(const survey::LoopBranch& branch) {
        BranchFigures b;
        b.branch = &branch;
        const auto hot = view_.demand.hot, back = hot - *view_.survey.recirculation.drop;
        const bool told = !branch.insulation.assumed;
        b.code_insulation = least_insulation(hot, branch.size);
        b.insulation = told ? *branch.insulation : b.code_insulation;
        b.return_insulation = told ? *branch.insulation : least_insulation(back, *branch.return_size);
        const auto out = pipe_loss(view_, *branch.material, branch.size, branch.length, b.insulation, hot);
        if (!out) return tl::unexpected(named(branch, out.error()));
        const auto home =
            pipe_loss(view_, *branch.material, *branch.return_size, *branch.return_length, b.return_insulation, back);
        if (!home) return tl::unexpected(named(branch, home.error()));
        b.loss = *out + *home;
        out_.loss += b.loss;
        out_.at.push_back(b);
        return {};
    }

    static Error named(const survey::LoopBranch& branch, Error error) {
        error.what = branch.name + ": " + error.what;
        return error;
    }

    [[nodiscard]] double effective(Length length, const survey::LoopBranch& branch) const {
        return length.value() * (1 + *branch.fittings);
    }

    Result<void> needs(BranchFigures& b) {
        const auto& branch = *b.branch;
        b.needed = flow_ * (b.loss / out_.loss).value();
        for (const auto& [size, length] :
             {std::pair{branch.size, branch.length}, std::pair{*branch.return_size, *branch.return_length}}) {
            const auto* row = view_.catalogue.pipe(*branch.material, size);
            const auto drop =
                matter::pipe_drop(b.needed, row->inside, row->roughness, effective(length, branch) * metre, 0, water_);
            if (!drop) return tl::unexpected(named(branch, drop.error()));
            b.pipe += drop->drop;
        }
        const auto* row = view_.catalogue.pipe(*branch.material, *branch.return_size);
        const double area = 0.25 * units::pi * row->inside.value() * row->inside.value();
        const auto* valve = view_.catalogue.item(Part::balancing_valve, *branch.return_size);
        if (!valve)
            return fail(fmt::format("{}: no balancing valve in {}", branch.name, print(*branch.return_size)),
                        "a valve of the catalogue in the return's size");
        const double speed = b.needed.value() / area;
        b.valve = Pressure::from_value(valve->loss_run * 0.5 * water_.density.value() * speed * speed);
        b.open = coefficient(b.needed, b.valve, water_);
        return {};
    }

    /// The branch that takes most keeps its valve open; each other takes as much.
    void set_valves() {
        for (std::size_t i = 0; i < out_.at.size(); ++i) {
            const auto whole = out_.at[i].pipe + out_.at[i].valve;
            if (i > 0 && whole <= out_.index) continue;
            out_.index = whole;
            out_.hardest = i;
        }
        for (auto& b : out_.at) {
            const auto open = b.valve;
            b.valve = std::max(open, out_.index - b.pipe);
            b.setting = coefficient(b.needed, b.valve, water_);
        }
    }

    flow::Law pipe_law(const survey::LoopBranch& branch, Nominal size, Length length) const {
        const auto* row = view_.catalogue.pipe(*branch.material, size);
        return flow::by_pressure(
            {effective(length, branch), row->inside.value(), std::max(row->roughness.value(), 1e-7), 0},
            water_.density.value(), water_.viscosity.value());
    }

    /// A loss that goes as the flow squared, through one point.
    static flow::Law squared(Pressure lost, VolumeFlow at) {
        return flow::Power{std::max(lost.value(), 1e-3) / (at.value() * at.value()), 2, 1e-6 * at.value()};
    }

    flow::Law pump_law() const {
        flow::Table table;
        for (std::size_t i = 0; i < pump_.flow.size(); ++i) {
            table.flow.push_back(pump_.flow[i].value());
            table.loss.push_back(-water_.density.value() * gravity * pump_.head[i].value());
        }
        return table;
    }

    /// Every branch between the plant's outlet and the pump, the plant's own way behind it.
    Result<void> solve(bool set) {
        flow::Network network;
        const int outlet = network.add_fixed("the plant's outlet", 0);
        const int inlet = network.add_node("the pump's inlet"), after = network.add_node("the pump's outlet");
        std::vector<int> links;
        for (const auto& b : out_.at) {
            const int end = network.add_node(b.branch->name + ", its end");
            const int valve = network.add_node(b.branch->name + ", before its valve");
            links.push_back(
                network.add_link(b.branch->name, outlet, end, pipe_law(*b.branch, b.branch->size, b.branch->length)));
            network.add_link(b.branch->name + ", its return", end, valve,
                             pipe_law(*b.branch, *b.branch->return_size, *b.branch->return_length));
            const double cv = set ? b.setting : b.open;
            const double ratio = b.setting / cv;
            network.add_link(b.branch->name + ", its balancing valve", valve, inlet,
                             squared(b.valve * ratio * ratio, b.needed));
        }
        network.add_link("the pump", inlet, after, pump_law());
        network.add_link("the plant", after, outlet, squared(plant_, flow_));
        auto solver = flow::Solver::analyse(network);
        if (!solver) return tl::unexpected(solver.error());
        const auto found = solver->solve();
        if (!found) return tl::unexpected(found.error());
        for (std::size_t i = 0; i < links.size(); ++i)
            told(out_.at[i], VolumeFlow::from_value((*found)->flow[static_cast<std::size_t>(links[i])]), set);
        return {};
    }

    void told(BranchFigures& b, VolumeFlow flow, bool set) const {
        const auto hot = view_.demand.hot;
        const double drop =
            b.loss.value() / std::max(1e-12, flow.value() * (water_.density * water_.heat_capacity).value());
        // no colder than the air about it
        const auto back = std::max(loop_air, Temperature::from_value(hot.value() - drop));
        (set ? b.set : b.unset) = flow;
        (set ? b.back : b.back_unset) = back;
        if (!set) return;
        for (const auto size : {b.branch->size, *b.branch->return_size}) {
            const auto bore = view_.catalogue.pipe(*b.branch->material, size)->inside;
            b.fastest = std::max(b.fastest, Velocity(flow / (0.25 * units::pi * bore * bore)));
        }
    }

    const View& view_;
    Pressure plant_;
    const PumpCurve& pump_;
    const matter::Water& water_;
    VolumeFlow flow_;
    Branches out_;
};

}  // namespace

Result<Branches> loop_branches(const View& view, Pressure plant, const PumpCurve& pump) {
    const auto water = matter::water(view.demand.hot - *view.survey.recirculation.drop);
    if (!water) return tl::unexpected(water.error());
    return Loop(view, plant, pump, *water).found();
}

}  // namespace bw::proof
