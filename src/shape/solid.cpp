// SPDX-License-Identifier: MIT
#include "shape/solid.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "shape/convex.h"

namespace bw::shape {
namespace {

using Triple = std::array<double, 3>;

Triple triple(Vec v) { return {v.x, v.y, v.z}; }

Vec least(Vec a, Vec b) { return {std::min(a.x, b.x), std::min(a.y, b.y), std::min(a.z, b.z)}; }
Vec greatest(Vec a, Vec b) { return {std::max(a.x, b.x), std::max(a.y, b.y), std::max(a.z, b.z)}; }

double outside(double value, double low, double high) { return std::max({low - value, value - high, 0.0}); }

/// Where two axes pass one another between their ends, their distance; else nullopt.
std::optional<double> passing(const Cylinder& one, const Cylinder& two) {
    const Vec u = one.b - one.a, v = two.b - two.a, w = one.a - two.a;
    const double uu = dot(u, u), uv = dot(u, v), vv = dot(v, v);
    const double det = uu * vv - uv * uv;
    if (det <= 1e-12 * uu * vv) return std::nullopt;
    const double s = (uv * dot(v, w) - vv * dot(u, w)) / det;
    const double t = (uu * dot(v, w) - uv * dot(u, w)) / det;
    if (s < 0 || s > 1 || t < 0 || t > 1) return std::nullopt;
    return distance(one.a + s * u, two.a + t * v);
}

/// 0, 1, 2 for a bar along x, y, z; -1 for any other.
int axis_of(const Cylinder& bar) {
    const Triple way = triple(bar.b - bar.a);
    int found = -1;
    for (int i = 0; i < 3; ++i) {
        if (std::abs(way[static_cast<std::size_t>(i)]) <= 1e-12) continue;  // metres: rounding
        if (found >= 0) return -1;
        found = i;
    }
    return found;
}

double between(double low, double high, double other_low, double other_high) {
    return std::max({other_low - high, low - other_high, 0.0});
}

double exact(const Box& a, const Box& b) { return gap(a, b); }

/// A bar along an axis is an interval along it times a disc across it, and a box an interval times a rectangle: the
/// two distances stand square to one another.
double exact(const Box& box, const Cylinder& bar) {
    const int axis = axis_of(bar);
    if (axis < 0) return convex_gap(box, bar);
    const Triple low = triple(box.min), high = triple(box.max), a = triple(bar.a), b = triple(bar.b);
    double across = 0, along = 0;
    for (int i = 0; i < 3; ++i) {
        const auto k = static_cast<std::size_t>(i);
        if (i == axis) {
            along = between(std::min(a[k], b[k]), std::max(a[k], b[k]), low[k], high[k]);
        } else {
            const double past = outside(a[k], low[k], high[k]);
            across += past * past;
        }
    }
    return std::hypot(along, std::max(0.0, std::sqrt(across) - bar.radius));
}
double exact(const Cylinder& bar, const Box& box) { return exact(box, bar); }

double exact(const Cylinder& one, const Cylinder& two) {
    if (const auto apart = passing(one, two)) return std::max(0.0, *apart - one.radius - two.radius);
    const int axis = axis_of(one);
    if (axis < 0 || axis != axis_of(two)) return convex_gap(one, two);
    const auto k = static_cast<std::size_t>(axis);
    const Triple a = triple(one.a), b = triple(one.b), c = triple(two.a), d = triple(two.b);
    double square = 0;
    for (std::size_t i = 0; i < 3; ++i)
        if (i != k) square += (a[i] - c[i]) * (a[i] - c[i]);
    const double along =
        between(std::min(a[k], b[k]), std::max(a[k], b[k]), std::min(c[k], d[k]), std::max(c[k], d[k]));
    return std::hypot(along, std::max(0.0, std::sqrt(square) - one.radius - two.radius));
}

/// How far a bar's flat end reaches along one axis: nothing along its own axis, the radius across it.
double reach(double radius, double along, double whole) {
    if (whole == 0) return radius;
    const double cosine = along / whole;
    return radius * std::sqrt(std::max(0.0, 1 - cosine * cosine));
}

Box bounds_of(const Box& box) { return box; }
Box bounds_of(const Cylinder& bar) {
    const Vec way = bar.b - bar.a;
    const double whole = length(way);
    const Vec by{reach(bar.radius, way.x, whole), reach(bar.radius, way.y, whole), reach(bar.radius, way.z, whole)};
    return {least(bar.a, bar.b) - by, greatest(bar.a, bar.b) + by};
}

}  // namespace

Box bounds(const Solid& solid) {
    return std::visit([](const auto& s) { return bounds_of(s); }, solid);
}

Box bounds(const std::vector<Solid>& solids) {
    Box all = bounds(solids.front());
    for (const auto& solid : solids) all = joined(all, bounds(solid));
    return all;
}

Box grown(Box box, double by) {
    const Vec all{by, by, by};
    return {box.min - all, box.max + all};
}

Box joined(Box a, Box b) { return {least(a.min, b.min), greatest(a.max, b.max)}; }

Box box_of(Vec corner, Vec opposite) { return {least(corner, opposite), greatest(corner, opposite)}; }

bool overlap(const Box& a, const Box& b, double tolerance) {
    return std::min(a.max.x, b.max.x) - std::max(a.min.x, b.min.x) > tolerance &&
           std::min(a.max.y, b.max.y) - std::max(a.min.y, b.min.y) > tolerance &&
           std::min(a.max.z, b.max.z) - std::max(a.min.z, b.min.z) > tolerance;
}

double gap(const Box& a, const Box& b) {
    const Vec apart = greatest(greatest(a.min - b.max, b.min - a.max), {});
    return length(apart);
}

double gap(const Solid& a, const Solid& b) {
    return std::visit([](const auto& s, const auto& t) { return exact(s, t); }, a, b);
}

double volume(const Solid& solid) {
    if (const auto* bar = std::get_if<Cylinder>(&solid))
        return std::numbers::pi * bar->radius * bar->radius * distance(bar->a, bar->b);
    const Vec size = std::get<Box>(solid).max - std::get<Box>(solid).min;
    return size.x * size.y * size.z;
}

}  // namespace bw::shape
