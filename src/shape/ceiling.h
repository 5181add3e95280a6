// SPDX-License-Identifier: MIT
#pragma once
// The underside of a ceiling: one plane, level or sloping.

#include "shape/polygon.h"
#include "shape/solid.h"

namespace bw::shape {

/// Height above the floor over every place of the plan, metres.
struct Ceiling {
    double origin = 0;              ///< over x = y = 0
    double rise_x = 0, rise_y = 0;  ///< metres a metre

    [[nodiscard]] bool level() const { return rise_x == 0 && rise_y == 0; }
    [[nodiscard]] double at(double x, double y) const { return origin + rise_x * x + rise_y * y; }
    [[nodiscard]] double at(Point p) const { return at(p.x, p.y); }
    [[nodiscard]] double at(Vec p) const { return at(p.x, p.y); }
    /// Over a box's rectangle in plan.
    [[nodiscard]] double lowest(const Box& box) const;
    [[nodiscard]] double highest(const Box& box) const;
    /// The same ceiling where the room is turned about the vertical through its origin and then moved.
    [[nodiscard]] Ceiling placed(const Placement& placement) const;
};

/// Square to one side of a plan that goes counter-clockwise: `low` along that side's line, `high` over the corner
/// farthest from it.
[[nodiscard]] Ceiling sloping(const Polygon& plan, std::size_t side, double low, double high);

/// By how much the part of a solid that comes nearest to the ceiling, or reaches farthest through it, stands above it,
/// metres, plumb; below zero where all of it stands under.
[[nodiscard]] double reaches_above(const Ceiling& ceiling, const Solid& solid);

/// Between floor and ceiling, m3: exact for every simple polygon the ceiling stands above.
[[nodiscard]] double volume_under(const Ceiling& ceiling, const Polygon& plan);

}  // namespace bw::shape
