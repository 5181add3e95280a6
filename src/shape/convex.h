// SPDX-License-Identifier: MIT
#pragma once
// The distance between two convex bodies of which only the farthest point in each direction is known.

#include "shape/solid.h"

namespace bw::shape {

/// Metres, 0 when they touch or overlap. Boxes and bars in any direction, exact to 1e-9 m.
/// Method: Gilbert, Johnson, Keerthi 1988 ("a fast procedure for computing the distance between complex objects"): a
/// simplex in the difference of the bodies walks towards the origin until no point of the difference is nearer. From
/// memory.
[[nodiscard]] double convex_gap(const Solid& a, const Solid& b);

}  // namespace bw::shape
