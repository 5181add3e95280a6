// SPDX-License-Identifier: MIT
#pragma once
// Points of connection that no layout reaches, and what would let it.

#include <vector>

#include "plant/layout.h"
#include "survey/survey.h"

namespace bw::piping {

/// Given points of connection that stand inside an obstacle, that have something right before them, or from which no
/// way as wide as their own pipe leads into the room. `arrangement` is "connections.<name>"; need and have are metres
/// of clear straight pipe before it, or of clear width; the remedy is the nearest place on its wall or floor that
/// serves, else the obstacle without which there is a way. Thorough rather than quick: for a room where nothing was
/// built.
[[nodiscard]] std::vector<plant::Shortfall> unreachable_connections(const survey::Survey& survey);

}  // namespace bw::piping
