// SPDX-License-Identifier: MIT
#pragma once
// Signs of valves, fittings and instruments on diagrams, after the shapes of ISO 14617 and ISA-5.1: a valve is a
// bow-tie, what it is shown by what is added to it.

#include <string>

#include "draw/canvas.h"
#include "text/vocabulary.h"

namespace bw::draw {

/// Where a sign stands and which way its line runs there: a unit vector on the page.
struct Spot {
    At at;
    double dx = 1, dy = 0;
    [[nodiscard]] At operator()(double along, double across) const {
        return {at.x + along * dx - across * dy, at.y + along * dy + across * dx};
    }
};

/// Half of a sign's length on its line, points.
inline constexpr double sign_half = 7;

void draw_sign(Canvas& canvas, const Spot& spot, text::Part part, Colour colour);
/// A side outlet's pocket with a cap, hanging from the line.
void draw_pocket(Canvas& canvas, At at, Colour colour);
/// What the legend calls it.
[[nodiscard]] std::string sign_name(text::Part part);

/// A circle with a letter: where the building's own pipe begins.
void draw_connection(Canvas& canvas, At at, const std::string& letter, Colour colour);
/// A flag with a name: where a line goes on elsewhere.
void draw_flag(Canvas& canvas, At at, const std::string& name, Colour colour);

}  // namespace bw::draw
