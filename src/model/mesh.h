// SPDX-License-Identifier: MIT
#pragma once
// Triangles of a shape, with no CAD kernel on the way.

#include <array>
#include <cstdint>
#include <vector>

#include "model/form.h"

namespace bw::model {

struct Vertex {
    std::array<float, 3> at{}, normal{};
};

struct Mesh {
    std::vector<Vertex> vertices;
    std::vector<std::uint16_t> indices;  ///< three a triangle, counter-clockwise from outside
};

/// Sides of a rod: a multiple of four, so that a rod along an axis reaches its true bounds.
inline constexpr int round_sides = 20;

/// Closed; rods have corners on their circle, so a little less volume than the form. A shape of more than
/// 65,535 vertices asserts: no piece comes near.
[[nodiscard]] Mesh mesh(const std::vector<Form>& forms);

}  // namespace bw::model
