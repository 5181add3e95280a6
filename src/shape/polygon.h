// SPDX-License-Identifier: MIT
#pragma once
// Room plans: simple polygons in plan, counter-clockwise, metres.

#include <vector>

#include "shape/solid.h"
#include "shape/vec.h"

namespace bw::shape {

struct Point {
    double x = 0, y = 0;
    bool operator==(const Point&) const = default;
};
using Polygon = std::vector<Point>;

[[nodiscard]] double signed_area(const Polygon& polygon);  ///< m2, positive when counter-clockwise
[[nodiscard]] Box bounds(const Polygon& polygon);          ///< on the floor
[[nodiscard]] bool crosses_itself(const Polygon& polygon);  ///< also true for repeated or spiked corners
[[nodiscard]] bool inside(const Polygon& polygon, Point p, double tolerance = 1e-9);  ///< edges count as inside
/// Whether an axis-aligned rectangle lies wholly inside (edges may touch), right also for L-shaped rooms.
[[nodiscard]] bool contains(const Polygon& polygon, const Box& box, double tolerance = 1e-9);

}  // namespace bw::shape
