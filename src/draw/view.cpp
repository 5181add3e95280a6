// SPDX-License-Identifier: MIT
#include "draw/view.h"

#include <algorithm>
#include <array>
#include <functional>

#include "draw/palette.h"

namespace bw::draw {

namespace {

constexpr double points_per_inch = 72, inches_per_metre = 1 / 0.0254;

struct Usual {
    double ratio;
    const char* name;
};
constexpr std::array<Usual, 8> us_scales{{{4, "3 in = 1 ft"},
                                          {8, "1-1/2 in = 1 ft"},
                                          {12, "1 in = 1 ft"},
                                          {16, "3/4 in = 1 ft"},
                                          {24, "1/2 in = 1 ft"},
                                          {32, "3/8 in = 1 ft"},
                                          {48, "1/4 in = 1 ft"},
                                          {96, "1/8 in = 1 ft"}}};
constexpr std::array<Usual, 7> si_scales{
    {{5, "1:5"}, {10, "1:10"}, {20, "1:20"}, {25, "1:25"}, {50, "1:50"}, {100, "1:100"}, {200, "1:200"}}};

template <class Scales>
Scale pick(const Scales& scales, double width, double height, const Area& area) {
    for (const auto& s : scales) {
        const double k = points_per_inch * inches_per_metre / s.ratio;
        if (width * k <= area.width && height * k <= area.height) return {k, s.name};
    }
    // nothing usual is small enough: fit, and say that it is not to scale
    return {std::min(area.width / width, area.height / height), "not to scale"};
}

/// One solid of a piece as seen: its outline, or a circle when looked at end on.
struct Seen {
    const plant::Piece* piece;
    std::vector<At> outline;
    At centre{};
    double radius = 0;
    double nearest = 0;
};

std::vector<At> bar_outline(At a, At b, double radius) {
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const double nx = -(b.y - a.y) / length * radius, ny = (b.x - a.x) / length * radius;
    return {{a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, {b.x - nx, b.y - ny}, {a.x - nx, a.y - ny}};
}

Seen seen(const View& view, const plant::Piece& piece, const shape::Solid& solid) {
    Seen out{&piece, {}, {}, 0, 0};
    if (const auto* bar = std::get_if<shape::Cylinder>(&solid)) {
        const At a = view(bar->a), b = view(bar->b);
        out.nearest = std::max(view.nearness(bar->a), view.nearness(bar->b)) + bar->radius;
        if (std::hypot(b.x - a.x, b.y - a.y) < 0.5) {
            out.centre = a;
            out.radius = view.points(bar->radius);
        } else {
            out.outline = bar_outline(a, b, view.points(bar->radius));
        }
        return out;
    }
    const auto& box = std::get<shape::Box>(solid);
    const At a = view(box.min), b = view(box.max);
    out.outline = {a, {b.x, a.y}, b, {a.x, b.y}};
    out.nearest = std::max(view.nearness(box.min), view.nearness(box.max));
    return out;
}

void draw(Canvas& canvas, const Seen& s) {
    const bool heater = s.piece->part == text::Part::heater;
    const Pen pen{.width = heater ? 0.9 : 0.35, .colour = heater ? black : ink(s.piece->service)};
    const auto fill = heater ? Colour{0.97, 0.97, 0.97} : tint(s.piece->service);
    if (s.radius > 0)
        canvas.circle(s.centre, s.radius, pen, fill);
    else
        canvas.polygon(s.outline, pen, fill);
}

}  // namespace

Scale fitting_scale(double width, double height, const Area& area, units::System system) {
    return system == units::System::us ? pick(us_scales, width, height, area) : pick(si_scales, width, height, area);
}

View::View(Canvas& canvas, Axes axes, Scale scale, Area area, At low, At high)
    : canvas_(&canvas), axes_(axes), scale_(std::move(scale)) {
    const double k = scale_.points_per_metre;
    origin_ = {area.x + area.width / 2 - (low.x + high.x) / 2 * k, area.y + area.height / 2 + (low.y + high.y) / 2 * k};
}

At View::at(double right, double up) const { return {origin_.x + points(right), origin_.y - points(up)}; }
At View::operator()(shape::Vec v) const { return at(right(v), above(v)); }

void draw_pieces(const View& view, const plant::Plant& plant, const std::function<bool(const plant::Piece&)>& shown) {
    std::vector<Seen> all;
    for (const auto& piece : plant.pieces)
        if (shown(piece))
            for (const auto& solid : piece.solids) all.push_back(seen(view, piece, solid));
    std::stable_sort(all.begin(), all.end(), [](const Seen& a, const Seen& b) { return a.nearest < b.nearest; });
    for (const auto& s : all) draw(view.canvas(), s);
}

}  // namespace bw::draw
