// SPDX-License-Identifier: MIT
#pragma once
// Straight, level runs of a service, and what holds them up.

#include "proof/view.h"

namespace bw::proof {

struct Hold {
    double at = 0;   ///< metres along the run
    int piece = -1;  ///< the hanger or clamp
};

/// A straight level row of pieces of one service.
struct Straight {
    std::vector<int> pieces;  ///< in order along `way`
    shape::Vec from, way;
    double length = 0;       ///< metres
    std::vector<Hold> held;  ///< by rising place
};

/// Runs of pipe and vent pipe, each with what goes straight on from it: fittings, valves. Heaters, points of connection
/// and flexible connectors end a run.
[[nodiscard]] std::vector<Straight> straights_of(const View& view, Service service);

/// The port of a piece that looks along `way` and passes a flow, or -1.
[[nodiscard]] int port_along(const Piece& piece, shape::Vec way);

/// The longest stretch without support: between two, or from an end to the nearest, metres. An end is held by what it
/// turns into, so a run without any support of its own counts whole.
[[nodiscard]] double longest_gap(const Straight& run);

}  // namespace bw::proof
