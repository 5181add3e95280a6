// SPDX-License-Identifier: MIT
#pragma once
// Real plants, and their model files as independent readers see them.

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "../support/examples.h"
#include "../support/readers.h"
#include "model/model.h"

namespace bw::test {

/// Bounds of a piece's solids.
[[nodiscard]] shape::Box bounds_of(const plant::Piece& piece);
[[nodiscard]] double volume_of(const plant::Piece& piece);
/// Pieces the project's own: all but points of connection.
[[nodiscard]] std::vector<const plant::Piece*> own_pieces(const plant::Plant& plant);

/// A piece's box as a reader gives it, {"low": [x, y, z], "high": …}, against its solids'.
void expect_same_bounds(const Json& read, const plant::Piece& piece, double tolerance);

}  // namespace bw::test
