// SPDX-License-Identifier: MIT
#include "shape/ceiling.h"

#include <algorithm>
#include <cmath>

namespace bw::shape {

double Ceiling::lowest(const Box& box) const {
    return at(rise_x > 0 ? box.min.x : box.max.x, rise_y > 0 ? box.min.y : box.max.y);
}

double Ceiling::highest(const Box& box) const {
    return at(rise_x > 0 ? box.max.x : box.min.x, rise_y > 0 ? box.max.y : box.min.y);
}

Ceiling Ceiling::placed(const Placement& placement) const {
    const Vec rise = placement.turn({rise_x, rise_y, 0});
    return {origin - rise.x * placement.origin.x - rise.y * placement.origin.y, rise.x, rise.y};
}

Ceiling sloping(const Polygon& plan, std::size_t side, double low, double high) {
    const Point a = plan[side], b = plan[(side + 1) % plan.size()];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const double x = (a.y - b.y) / length, y = (b.x - a.x) / length;
    double farthest = 0;
    for (const Point& p : plan) farthest = std::max(farthest, (p.x - a.x) * x + (p.y - a.y) * y);
    const double rise = (high - low) / farthest;
    return {low - rise * (a.x * x + a.y * y), rise * x, rise * y};
}

double reaches_above(const Ceiling& ceiling, const Solid& solid) {
    const auto* bar = std::get_if<Cylinder>(&solid);
    if (!bar || ceiling.level()) {
        const Box box = bounds(solid);
        return box.max.z - ceiling.lowest(box);
    }
    // the farthest point of either flat end along the way out of the ceiling
    const Vec out{-ceiling.rise_x, -ceiling.rise_y, 1}, way = bar->b - bar->a;
    const double length = shape::length(way), along = length > 0 ? dot(out, way) / length : 0;
    const double rim = bar->radius * std::sqrt(std::max(0.0, dot(out, out) - along * along));
    return std::max(bar->a.z - ceiling.at(bar->a), bar->b.z - ceiling.at(bar->b)) + rim;
}

double volume_under(const Ceiling& ceiling, const Polygon& plan) {
    // by triangles from the first corner: a plane's mean over a triangle is that of its corners
    double volume = 0;
    const Point o = plan.front();
    for (std::size_t i = 1; i + 1 < plan.size(); ++i) {
        const Point a = plan[i], b = plan[i + 1];
        const double area = ((a.x - o.x) * (b.y - o.y) - (b.x - o.x) * (a.y - o.y)) / 2;
        volume += area * (ceiling.at(o) + ceiling.at(a) + ceiling.at(b)) / 3;
    }
    return std::fabs(volume);
}

}  // namespace bw::shape
