// SPDX-License-Identifier: MIT
#include "piping/support/level_runs.h"

#include <algorithm>

#include "code/gas_rules.h"
#include "code/hangers.h"
#include "text/material.h"

namespace bw::piping {
namespace {

std::optional<double> spacing_of(const catalogue::Pipe& row, Service service) {
    if (service == Service::gas) {
        return (text::row_of(row.material).tubing ? code::gas_tubing_support_spacing(row.size)
                                                  : code::gas_support_spacing(row.size))
            .value.value();
    }
    if (service == Service::exhaust || service == Service::intake) return code::vent_support_spacing().value.value();
    const auto rule = code::hanger_spacing(row.material, row.size);
    return rule ? std::optional(rule->value.value()) : std::nullopt;
}

/// The tightest of the run's pipes; nothing where the code names none.
std::optional<double> spacing_of(const Builder& b, const network::LevelRun& run) {
    std::optional<double> least;
    for (const int i : run.pieces) {
        const auto* row = b.catalogue.pipe(b.built.plant.pieces[i].item);
        const auto limit = row ? spacing_of(*row, run.service) : std::nullopt;
        if (limit && *limit > 0) least = std::min(least.value_or(*limit), *limit);
    }
    return least;
}

}  // namespace

bool is_level_pipe(const Piece& piece) {
    return (piece.part == Part::pipe || piece.part == Part::vent_pipe) && network::is_level(piece);
}

std::vector<SpacedRun> spaced_runs(const Builder& b) {
    const auto& plant = b.built.plant;
    std::vector<SpacedRun> out;
    for (auto& run : network::level_runs(plant, [&](int i) { return is_level_pipe(plant.pieces[i]); })) {
        const auto limit = spacing_of(b, run);
        if (!limit) continue;
        std::vector<double> held_at;
        for (const auto& hold : run.held) held_at.push_back(hold.at);
        out.push_back({std::move(run), *limit, std::move(held_at)});
    }
    return out;
}

}  // namespace bw::piping
