// SPDX-License-Identifier: MIT
#pragma once
// Networks read off the pieces: what flows through each piece, and by which pieces a heater is reached. A service is a
// tree from its point of connection to the heaters (its loops come with the flow kernel).

#include <vector>

#include "plant/plant.h"
#include "units/error.h"

namespace bw::network {

struct Traversal {
    int piece = -1;
    int in = -1, out = -1;  ///< ports on the way from the root; out is -1 at an end
    int before = -1;        ///< index of the passage upstream, -1 at the root
    int heaters = 0;        ///< heaters fed through this passage
    double along = 0;       ///< metres of centre line from the root to this passage's `in`
};

/// Whether a passage goes straight on: its ports look away from one another.
[[nodiscard]] bool straight_on(const plant::Piece& piece, const Traversal& passage);
/// Velocity heads a passage loses: a tee's side outlet its own, everything else what is lost in the run.
[[nodiscard]] double velocity_heads(const plant::Piece& piece, const Traversal& passage);

/// A tree rooted at the connection piece, in breadth-first order: every passage stands after the one before it. A tee
/// gives one passage for the run and one for the branch.
struct Tree {
    std::vector<Traversal> traversals;
    std::vector<int> leaf;  ///< by heater number - 1: index of the passage that ends at the heater, or -1
};

/// Fails when the service has no root or a loop.
[[nodiscard]] Result<Tree> trace_service(const plant::Plant& plant, text::Service service, int root);

/// Passages from the root to a heater, in order. Empty when the heater is not reached.
[[nodiscard]] std::vector<int> path_to(const Tree& tree, int heater);

}  // namespace bw::network
