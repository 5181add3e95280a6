// SPDX-License-Identifier: MIT
#pragma once
// The solids that pieces are made of, and how far apart they are.

#include <variant>
#include <vector>

#include "shape/vec.h"

namespace bw::shape {

/// Axis-aligned, min <= max in each coordinate.
struct Box {
    Vec min, max;
    bool operator==(const Box&) const = default;
};

/// A round bar from a to b with flat ends.
struct Cylinder {
    Vec a, b;
    double radius = 0;
    bool operator==(const Cylinder&) const = default;
};

using Solid = std::variant<Box, Cylinder>;

[[nodiscard]] Box bounds(const Solid& solid);
/// Of one solid or more together.
[[nodiscard]] Box bounds(const std::vector<Solid>& solids);
[[nodiscard]] Box grown(Box box, double by);
[[nodiscard]] Box joined(Box a, Box b);
[[nodiscard]] Box box_of(Vec corner, Vec opposite);  ///< any two opposite corners
[[nodiscard]] bool overlap(const Box& a, const Box& b,
                           double tolerance = 0);      ///< share more than `tolerance` in every axis
[[nodiscard]] double gap(const Box& a, const Box& b);  ///< distance, 0 when they touch or overlap
/// Distance between two solids with their flat ends, metres, 0 when they touch or overlap. In closed form where they
/// stand along the room's axes or pass one another between their ends, else by `convex_gap`, to 1e-9 m.
[[nodiscard]] double gap(const Solid& a, const Solid& b);
[[nodiscard]] double volume(const Solid& solid);  ///< m3

}  // namespace bw::shape
