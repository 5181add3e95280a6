// SPDX-License-Identifier: MIT
#include "draw/view.h"

#include <algorithm>
#include <array>

namespace bw::draw {

namespace {

constexpr double points_per_inch = 72, inches_per_metre = 1 / 0.0254;

struct Usual {
    double ratio;
    const char* name;
};
constexpr std::array<Usual, 9> us_scales{{{4, "3 in = 1 ft"},
                                          {8, "1-1/2 in = 1 ft"},
                                          {12, "1 in = 1 ft"},
                                          {16, "3/4 in = 1 ft"},
                                          {24, "1/2 in = 1 ft"},
                                          {32, "3/8 in = 1 ft"},
                                          {48, "1/4 in = 1 ft"},
                                          {64, "3/16 in = 1 ft"},
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

}  // namespace bw::draw
