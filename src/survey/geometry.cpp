// SPDX-License-Identifier: MIT
#include "survey/geometry.h"

#include <algorithm>
#include <cmath>

#include "survey/survey.h"

namespace bw::survey {

using shape::Point;
using shape::Polygon;
using shape::Vec;

double snapped(double metres) {
    const double steps = std::round(metres / grid);
    return steps == 0 ? 0.0 : steps * grid;
}

double snapped_down(double metres) { return std::floor(metres / grid + 1e-3) * grid; }

double wall_length(const Polygon& plan, std::size_t wall) {
    const Point a = plan[wall], b = plan[(wall + 1) % plan.size()];
    return std::hypot(b.x - a.x, b.y - a.y);
}

Point on_wall(const Polygon& plan, std::size_t wall, double along) {
    const Point a = plan[wall], b = plan[(wall + 1) % plan.size()];
    const double t = along / wall_length(plan, wall);
    return {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
}

Vec inward(const Polygon& plan, std::size_t wall) {
    const Point a = plan[wall], b = plan[(wall + 1) % plan.size()];
    const double length = wall_length(plan, wall);
    const double x = (a.y - b.y) / length, y = (b.x - a.x) / length;
    return {x == 0 ? 0.0 : x, y == 0 ? 0.0 : y, 0};
}

namespace {

/// How far the plan reaches from a wall's line along a way square to it.
double reach(const Polygon& plan, std::size_t wall, Vec way) {
    double most = 0;
    for (const Point& p : plan) most = std::max(most, (p.x - plan[wall].x) * way.x + (p.y - plan[wall].y) * way.y);
    return most;
}

}  // namespace

double depth_before(const Polygon& plan, std::size_t wall) { return reach(plan, wall, inward(plan, wall)); }
double behind(const Polygon& plan, std::size_t wall) { return reach(plan, wall, -inward(plan, wall)); }

NearWall nearest_wall(const Polygon& plan, Point p) {
    NearWall best{0, 1e300};
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const Point a = plan[i], b = plan[(i + 1) % plan.size()];
        const double dx = b.x - a.x, dy = b.y - a.y;
        const double t = std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / (dx * dx + dy * dy), 0.0, 1.0);
        const double d = std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
        if (d < best.distance - 1e-9) best = {i, d};
    }
    return best;
}

shape::Ceiling Room::overhead() const {
    if (!slope) return {ceiling->value()};
    return shape::sloping(plan, static_cast<std::size_t>(slope->wall), slope->low.value(), ceiling->value());
}

Vec facing_of(const Polygon& plan, double ceiling, Vec at) {
    const auto wall = nearest_wall(plan, {at.x, at.y});
    const double floor = std::abs(at.z), top = std::abs(ceiling - at.z);
    if (floor <= wall.distance && floor <= top) return shape::up;
    if (top <= wall.distance) return shape::down;
    return inward(plan, wall.wall);
}

}  // namespace bw::survey
