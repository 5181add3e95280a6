// SPDX-License-Identifier: MIT
#pragma once
// Plane geometry of the room: the grid, walls, and which way a place on a boundary looks.

#include <optional>

#include "shape/polygon.h"
#include "shape/vec.h"
#include "units/constants.h"

namespace bw::survey {

using units::grid;

/// The nearest multiple of the grid.
[[nodiscard]] double snapped(double metres);
/// The greatest multiple of the grid that is not above, forgiving a thousandth of a step of rounding.
[[nodiscard]] double snapped_down(double metres);

[[nodiscard]] double wall_length(const shape::Polygon& plan, std::size_t wall);
/// A place on a wall, `along` metres from its first corner.
[[nodiscard]] shape::Point on_wall(const shape::Polygon& plan, std::size_t wall, double along);
/// Unit normal into the room; the plan goes counter-clockwise.
[[nodiscard]] shape::Vec inward(const shape::Polygon& plan, std::size_t wall);

/// How far the plan reaches before a wall's line, square to it, and how far behind it, metres.
[[nodiscard]] double depth_before(const shape::Polygon& plan, std::size_t wall);
[[nodiscard]] double behind(const shape::Polygon& plan, std::size_t wall);

struct NearWall {
    std::size_t wall = 0;
    double distance = 0;  ///< metres
};
[[nodiscard]] NearWall nearest_wall(const shape::Polygon& plan, shape::Point p);

/// Out of the nearest of walls, floor and ceiling into the room; a floor or ceiling wins a tie. `ceiling` is the height
/// over the place, metres.
[[nodiscard]] shape::Vec facing_of(const shape::Polygon& plan, double ceiling, shape::Vec at);

}  // namespace bw::survey
