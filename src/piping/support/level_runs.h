// SPDX-License-Identifier: MIT
#pragma once
// Level runs of pipe with the spacing the code asks of their supports: what hangers are spaced along.

#include <vector>

#include "network/run/level_runs.h"
#include "piping/kit/builder.h"

namespace bw::piping {

struct SpacedRun : network::LevelRun {
    double limit = 0;             ///< metres between supports
    std::vector<double> held_at;  ///< by rising place, with what is hung since
};

/// Every level run that the code spaces supports on, with what holds it so far.
[[nodiscard]] std::vector<SpacedRun> spaced_runs(const Builder& b);

/// Pipe, or vent pipe, that lies level.
[[nodiscard]] bool is_level_pipe(const Piece& piece);

}  // namespace bw::piping
