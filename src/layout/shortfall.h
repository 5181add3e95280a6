// SPDX-License-Identifier: MIT
#pragma once
// What is short where an arrangement does not fit, and by how much: numbers that are true, so that a room with that
// much more would hold it.

#include "layout/job.h"

namespace bw::layout {

/// The ceiling, when it is too low for any arrangement; else nothing.
[[nodiscard]] std::optional<plant::Shortfall> ceiling_shortfall(const Job& job);

/// Each wall that no candidate uses: at an angle, combustible, too short between what stands there, or too near to what
/// stands opposite.
[[nodiscard]] std::vector<plant::Shortfall> wall_shortfalls(const Job& job, const Sketches& found);

/// A rack that does not fit anywhere in the room.
[[nodiscard]] std::vector<plant::Shortfall> rack_shortfalls(const Job& job, plant::Arrangement arrangement);

/// The place asked for, where the heaters cannot stand: the nearest free one along the same wall, or the families that
/// fit.
[[nodiscard]] plant::Shortfall place_shortfall(const Job& job, const std::string& asked, const std::string& families);

}  // namespace bw::layout
