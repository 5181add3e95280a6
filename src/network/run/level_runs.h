// SPDX-License-Identifier: MIT
#pragma once
// Straight, level rows of pieces and what holds them up: what supports are spaced along and what grows as it warms.

#include <functional>
#include <vector>

#include "plant/plant.h"

namespace bw::network {

struct Hold {
    double at = 0;   ///< metres along the run
    int piece = -1;  ///< the hanger or clamp
};

struct LevelRun {
    text::Service service{};  ///< of the piece it was begun from
    std::vector<int> pieces;  ///< in order along `way`
    shape::Vec from, way;
    double length = 0;       ///< metres
    std::vector<Hold> held;  ///< by rising place
};

/// Each level piece of those `starts` gives, with what goes straight on from it: fittings, valves. Heaters, points of
/// connection and flexible connectors end a run; a piece stands in one run only.
[[nodiscard]] std::vector<LevelRun> level_runs(const plant::Plant& plant, const std::function<bool(int)>& starts);

/// Whether a port of this service passes a fluid on, rather than a load, a current or a signal.
[[nodiscard]] inline bool carries_flow(text::Service service) {
    return service != text::Service::structure && service != text::Service::power && service != text::Service::link;
}
/// Whether a piece's first two ports stand apart at one height.
[[nodiscard]] bool is_level(const plant::Piece& piece);
/// The port of a piece that looks along `way` and passes a flow, or -1.
[[nodiscard]] int port_along(const plant::Piece& piece, shape::Vec way);

}  // namespace bw::network
