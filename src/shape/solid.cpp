// SPDX-License-Identifier: MIT
#include "shape/solid.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace bw::shape {
namespace {

using Triple = std::array<double, 3>;

Triple triple(Vec v) { return {v.x, v.y, v.z}; }

Vec least(Vec a, Vec b) { return {std::min(a.x, b.x), std::min(a.y, b.y), std::min(a.z, b.z)}; }
Vec greatest(Vec a, Vec b) { return {std::max(a.x, b.x), std::max(a.y, b.y), std::max(a.z, b.z)}; }

double outside(double value, double low, double high) { return std::max({low - value, value - high, 0.0}); }

double distance_to_box(Vec p, const Box& box) {
    return length(
        {outside(p.x, box.min.x, box.max.x), outside(p.y, box.min.y, box.max.y), outside(p.z, box.min.z, box.max.z)});
}

/// Between two stretches of the line, the squared distance to a box is one parabola, so its least value on a segment
/// lies at a crossing of a face plane, at an end, or at a parabola's foot.
double segment_to_box(Vec a, Vec b, const Box& box) {
    const Vec way = b - a;
    const Triple start = triple(a), step = triple(way), low = triple(box.min), high = triple(box.max);
    std::array<double, 8> cuts{0.0, 1.0};
    std::size_t n = 2;
    for (std::size_t i = 0; i < 3; ++i) {
        if (step[i] == 0) continue;
        for (double face : {low[i], high[i]}) {
            const double t = (face - start[i]) / step[i];
            if (t > 0 && t < 1) cuts[n++] = t;
        }
    }
    std::sort(cuts.begin(), cuts.begin() + static_cast<std::ptrdiff_t>(n));
    double best = std::min(distance_to_box(a, box), distance_to_box(b, box));
    for (std::size_t k = 0; k + 1 < n; ++k) {
        const double middle = (cuts[k] + cuts[k + 1]) / 2;
        double slope = 0, curve = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            const double at = start[i] + middle * step[i];
            const double past = at < low[i] ? at - low[i] : at > high[i] ? at - high[i] : 0.0;
            if (past == 0) continue;
            slope += past * step[i];
            curve += step[i] * step[i];
        }
        const double foot = curve > 0 ? std::clamp(middle - slope / curve, cuts[k], cuts[k + 1]) : middle;
        best = std::min(best, distance_to_box(a + foot * way, box));
    }
    return best;
}

double point_to_segment(Vec p, Vec a, Vec b) {
    const Vec way = b - a;
    const double whole = dot(way, way);
    const double t = whole > 0 ? std::clamp(dot(p - a, way) / whole, 0.0, 1.0) : 0.0;
    return distance(p, a + t * way);
}

double segment_to_segment(Vec a, Vec b, Vec c, Vec d) {
    double best = std::min(
        {point_to_segment(a, c, d), point_to_segment(b, c, d), point_to_segment(c, a, b), point_to_segment(d, a, b)});
    const Vec u = b - a, v = d - c, w = a - c;
    const double uu = dot(u, u), uv = dot(u, v), vv = dot(v, v);
    const double det = uu * vv - uv * uv;
    if (det <= 1e-12 * uu * vv) return best;  // parallel: an end is nearest
    const double s = (uv * dot(v, w) - vv * dot(u, w)) / det;
    const double t = (uu * dot(v, w) - uv * dot(u, w)) / det;
    if (s > 0 && s < 1 && t > 0 && t < 1) best = std::min(best, distance(a + s * u, c + t * v));
    return best;
}

double round_gap(const Box& a, const Box& b) { return gap(a, b); }
double round_gap(const Box& box, const Cylinder& bar) { return segment_to_box(bar.a, bar.b, box) - bar.radius; }
double round_gap(const Cylinder& bar, const Box& box) { return round_gap(box, bar); }
double round_gap(const Cylinder& one, const Cylinder& two) {
    return segment_to_segment(one.a, one.b, two.a, two.b) - one.radius - two.radius;
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
    // A bar lies within its capsule and within its bounds, so either gap is at most the true one.
    const double round = std::visit([](const auto& s, const auto& t) { return round_gap(s, t); }, a, b);
    return std::max({0.0, round, gap(bounds(a), bounds(b))});
}

double volume(const Solid& solid) {
    if (const auto* bar = std::get_if<Cylinder>(&solid))
        return std::numbers::pi * bar->radius * bar->radius * distance(bar->a, bar->b);
    const Vec size = std::get<Box>(solid).max - std::get<Box>(solid).min;
    return size.x * size.y * size.z;
}

}  // namespace bw::shape
