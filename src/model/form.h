// SPDX-License-Identifier: MIT
#pragma once
// What a piece looks like: its solids, each in a frame of the piece's own, so that equal pieces share one shape.

#include <numbers>
#include <string>
#include <variant>
#include <vector>

#include "model/look.h"
#include "plant/plant.h"

namespace bw::model {

/// Bars of one thickness that follow one another, mitred where they turn: as much volume as the bars.
struct Rod {
    std::vector<shape::Vec> line;  ///< at least two points, metres
    double radius = 0;
};

using Form = std::variant<shape::Box, Rod>;

/// A piece's solids in the room. Bars that meet end to end become one rod where the mitre has room in both; everything
/// else stays as it is. As much volume as the solids.
[[nodiscard]] std::vector<Form> forms(const std::vector<shape::Solid>& solids);
/// m3. In the header, since a module has no more of this room.
[[nodiscard]] inline double volume(const Form& form) {
    if (const auto* box = std::get_if<shape::Box>(&form)) {
        const auto side = box->max - box->min;
        return side.x * side.y * side.z;
    }
    const auto& rod = std::get<Rod>(form);
    double length = 0;
    for (std::size_t i = 1; i < rod.line.size(); ++i) length += shape::distance(rod.line[i - 1], rod.line[i]);
    return std::numbers::pi * rod.radius * rod.radius * length;
}
[[nodiscard]] shape::Box bounds(const Form& form);  ///< of its bars with flat ends

/// Right-handed, orthonormal; where it stands in the room.
struct Frame {
    shape::Vec origin, x{1, 0, 0}, y{0, 1, 0}, z{0, 0, 1};
    [[nodiscard]] shape::Vec in(shape::Vec room) const;    ///< a point of the room in this frame
    [[nodiscard]] shape::Vec out(shape::Vec local) const;  ///< and back
};

/// Forms in a frame of their own, of one look.
struct Shape {
    std::vector<Form> forms;
    Look look;
    std::string item;  ///< catalogue key of the first piece with it
    int used = 0;      ///< by how many pieces
};

struct Placed {
    int piece = -1, shape = -1;
    Frame frame;
};

/// Every piece with a solid, once, in the plant's order; shapes in the order they are met. Points of connection are the
/// building's, and left out.
struct Scene {
    std::vector<Shape> shapes;
    std::vector<Placed> placed;
};

[[nodiscard]] Scene scene(const plant::Plant& plant);

}  // namespace bw::model
