// SPDX-License-Identifier: MIT
#pragma once
// The few planes a route may turn in: the ends and what they need to turn, the walls, the levels a service likes, and
// at fine detail the sides of what stands in the room.

#include <array>
#include <vector>

#include "route/clearance_map.h"

namespace bw::route {

/// Sorted coordinates by axis, metres, on the grid of a sixteenth of an inch.
struct Planes {
    std::array<std::vector<double>, 3> at;

    [[nodiscard]] int count(int axis) const { return static_cast<int>(at[static_cast<std::size_t>(axis)].size()); }
    /// Of the first plane that is not before `where`.
    [[nodiscard]] int index(int axis, double where) const;
};

[[nodiscard]] Planes planes_of(const ClearanceMap& space, const RouteRequest& ask, Detail detail);

/// Directions are 2 * axis, plus 1 towards smaller coordinates.
[[nodiscard]] int direction_of(const shape::Vec& facing);

[[nodiscard]] inline double part(const shape::Vec& v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }
inline void set(shape::Vec& v, int axis, double to) { (axis == 0 ? v.x : axis == 1 ? v.y : v.z) = to; }

}  // namespace bw::route
