// SPDX-License-Identifier: MIT
#pragma once
// How long a piece counts on the way through it.

#include "plant/plant.h"

namespace bw::network {

enum class LengthRule {
    centre_lines,  ///< the codes': along the centre lines, a turn by both its legs
    solved,  ///< the solved networks': straight from port to port, and a tee none: its whole loss is velocity heads
};

/// Metres from one port of a piece to another; 0 where either is -1. By either rule a flexible connector counts
/// straight.
[[nodiscard]] double length_through(const plant::Piece& piece, int in, int out, LengthRule rule);

}  // namespace bw::network
