// SPDX-License-Identifier: MIT
#pragma once
// What is seen of solids from afar: their outlines with the hidden parts told apart, and in which order they cover one
// another. Exact, since every solid is convex: what it hides of a straight line is one stretch with ends in closed
// form.

#include <variant>
#include <vector>

#include "shape/polygon.h"
#include "shape/solid.h"

namespace bw::projection {

using shape::Point;
using shape::Vec;

/// Axes of a view: what lies to the right, up, and towards the reader. Orthonormal.
struct Eye {
    Vec right, up, towards;
    [[nodiscard]] Point operator()(Vec v) const { return {dot(v, right), dot(v, up)}; }
};

/// The eye that looks down on the room from a corner, all three axes of the room equally foreshortened. `x` and `y` are
/// 1 or -1: on which side of the plant the reader stands.
[[nodiscard]] Eye isometric(int x, int y);

struct Ball {
    Vec centre;
    double radius = 0;
};

/// A convex solid. An end of a bar that another bar goes on from has no rim.
struct Item {
    std::variant<shape::Box, shape::Cylinder, Ball> solid;
    int owner = 0;
    bool joined_a = false, joined_b = false;
};

/// Adds solids of one owner: bars that meet end to end, equally thick, are joined by a ball.
void add(std::vector<Item>& items, const std::vector<shape::Solid>& solids, int owner);

/// A line in space that hides nothing.
struct Wire {
    Vec a, b;
    int owner = 0;
};

enum class Kind {
    outline,  ///< beyond it lies something farther away
    crease,   ///< between two faces that are both seen
    wire
};

/// A piece of a line on the view's plane, metres along right and up.
struct Stroke {
    int owner = 0;
    Kind kind{};
    bool hidden = false;
    std::vector<Point> line;  ///< at least two points
    double radius = 0;        ///< positive: the whole circle about `line[0]` instead
};

/// One side of a solid, to be filled.
struct Face {
    int owner = 0;
    double light = 0;  ///< 0 to 1: how much it faces up and the reader's left
    std::vector<Point> outline;
};

struct Seen {
    std::vector<Stroke> strokes;
    std::vector<Face> faces;  ///< farthest first; of items of which something is seen
};

struct Wanted {
    double chord = 5e-4;  ///< metres: how far a chord may lie from its arc
    bool hidden = false;  ///< also the hidden parts of lines
    bool faces = true;
};

[[nodiscard]] Seen look(const std::vector<Item>& items, const std::vector<Wire>& wires, const Eye& eye,
                        const Wanted& wanted = {});

}  // namespace bw::projection
