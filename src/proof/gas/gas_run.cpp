// SPDX-License-Identifier: MIT
#include "proof/gas/gas_run.h"

#include "network/gas_loss.h"
#include "proof/base/new_check.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

/// Adds one piece's length and losses to the section.
void lengthen(GasSection& section, const PlantIndex& view, const network::Traversal& passage, double metres) {
    section.pieces.push_back(passage.piece);
    section.length += metres * metre;
    const auto fitting = network::gas_fitting(view.piece(passage.piece), passage, section.bore);
    section.equivalent += fitting.as_pipe;
    section.velocity_heads += fitting.velocity_heads;
}

/// Cuts the way into sections; a regulator ends one. `regulator_after[i]` is the regulator behind section i, or -1.
std::vector<GasSection> sections(const PlantIndex& view, const network::Tree& tree, const std::vector<int>& path,
                                 std::vector<int>& regulator_after) {
    std::vector<GasSection> cut;
    const auto each = gas_flow_each(view);
    for (std::size_t i = 0; i + 1 < path.size(); ++i) {
        const auto& passage = tree.traversals[static_cast<std::size_t>(path[i])];
        const auto& piece = view.piece(passage.piece);
        if (piece.part == Part::regulator) {
            if (cut.empty()) cut.emplace_back(), regulator_after.push_back(-1);
            regulator_after.back() = passage.piece;
            continue;
        }
        if (piece.part == Part::connection) continue;
        const Length bore = piece.bore * metre;
        const VolumeFlow flow = static_cast<double>(passage.heaters) * each;
        const bool same =
            !cut.empty() && regulator_after.back() < 0 && cut.back().bore == bore && cut.back().flow == flow;
        if (!same) {
            cut.emplace_back();
            cut.back().bore = bore;
            cut.back().flow = flow;
            regulator_after.push_back(-1);
        }
        const double along = tree.traversals[static_cast<std::size_t>(path[i + 1])].along - passage.along;
        lengthen(cut.back(), view, passage, along);
    }
    return cut;
}

Result<void> drop_along(const PlantIndex& view, GasSection& section, code::GasEquation equation) {
    if (section.pieces.empty()) return {};
    const double gravity = *view.survey.gas.specific_gravity;
    const code::GasFeed feed{*view.survey.gas.kind, gravity, section.entering};
    const auto length = section.length + section.equivalent;
    if (length.value() > 0) {
        auto drop = code::gas_drop_by(equation, feed, section.bore, length, section.flow);
        if (!drop) return tl::unexpected(drop.error());
        section.drop = *drop;
    }
    section.equation = equation;
    section.by_heads = network::lost_by_heads(section.velocity_heads, gravity, section.bore, section.flow);
    section.drop += section.by_heads;
    return {};
}

/// Follows the pressure through the sections and regulators.
Result<void> follow(const PlantIndex& view, GasRun& run, const std::vector<int>& regulator_after) {
    Pressure at = *view.survey.gas.delivery_pressure;
    run.rest = at;
    auto equation = code::gas_equation(at);
    for (std::size_t i = 0; i < run.sections.size(); ++i) {
        auto& section = run.sections[i];
        section.entering = at;
        if (auto done = drop_along(view, section, equation); !done) return done;
        at -= section.drop;
        if (run.regulators.empty()) run.before_regulator += section.drop;
        const int regulator = section.regulator_after = regulator_after[i];
        if (regulator < 0) continue;
        const auto outlet = view.number(regulator, "outlet");
        if (!outlet)
            return fail(fmt::format("{} names no outlet pressure", view.name(regulator)),
                        "add `outlet` to its catalogue row");
        run.regulators.push_back(regulator);
        run.regulator_inlets.push_back(at);
        at = std::min(at, *outlet * pascal);
        run.rest = view.number(regulator, "lock-up").value_or(*outlet) * pascal;
        equation = code::gas_equation(at);
    }
    run.running = at;
    return {};
}

}  // namespace

const catalogue::GasInlet* gas_inlet(const PlantIndex& view) { return view.heater.inlet(*view.survey.gas.kind); }

VolumeFlow gas_flow_each(const PlantIndex& view) { return view.capacity.each.input / *view.survey.gas.heating_value; }

Result<GasRun> trace_gas(const PlantIndex& view, int heater_number) {
    const auto& tree = view.tree(Service::gas);
    if (!tree) return tl::unexpected(tree.error());
    const auto path = network::path_to(*tree, heater_number);
    if (path.empty())
        return fail(fmt::format("no gas reaches heater-{}", heater_number),
                    "pipe from the point of connection to its gas port");
    GasRun run;
    for (const int at : path) run.pieces.push_back(tree->traversals[static_cast<std::size_t>(at)].piece);
    std::vector<int> regulator_after;
    run.sections = sections(view, *tree, path, regulator_after);
    if (auto done = follow(view, run, regulator_after); !done) return tl::unexpected(done.error());
    return run;
}

}  // namespace bw::proof
