// SPDX-License-Identifier: MIT
#pragma once
// Straight, level rows of pipe with what goes straight on from it: what hangers are spaced along.

#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

struct LevelRun {
    Service service{};
    Vec from, way;
    double length = 0, limit = 0;
    std::vector<int> pieces;
    std::vector<double> held;
};

/// Every level run that the code spaces supports on, with what holds it so far.
[[nodiscard]] std::vector<LevelRun> level_runs(const Builder& b);

[[nodiscard]] bool is_level(const Piece& piece);
/// The port of a piece that looks along `way` and passes a flow, or -1.
[[nodiscard]] int port_towards(const Piece& piece, Vec way);

}  // namespace bw::piping
