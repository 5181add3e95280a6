// SPDX-License-Identifier: MIT
#include "shape/convex.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace bw::shape {
namespace {

constexpr double fine = 1e-10;  // metres
constexpr int most_steps = 200;

/// The farthest point of a body in a direction.
class Body {
public:
    Body(const Solid& solid, Vec origin) {
        if (const auto* box = std::get_if<Box>(&solid)) {
            low_ = box->min - origin;
            high_ = box->max - origin;
            return;
        }
        const auto& bar = std::get<Cylinder>(solid);
        low_ = bar.a - origin;
        high_ = bar.b - origin;
        radius_ = bar.radius;
        const double whole = distance(bar.a, bar.b);
        axis_ = whole > 0 ? (1 / whole) * (bar.b - bar.a) : Vec{};
        round_ = true;
    }

    [[nodiscard]] Vec farthest(Vec way) const {
        if (!round_) return {way.x > 0 ? high_.x : low_.x, way.y > 0 ? high_.y : low_.y, way.z > 0 ? high_.z : low_.z};
        const double along = dot(way, axis_);
        const Vec across = way - along * axis_;
        const double size = length(across);
        const Vec end = along > 0 ? high_ : low_;
        return size > 1e-14 * length(way) ? end + (radius_ / size) * across : end;
    }

private:
    Vec low_, high_, axis_;
    double radius_ = 0;
    bool round_ = false;
};

/// Up to four points of the difference of two bodies; the nearest point to the origin lies among them.
struct Simplex {
    std::array<Vec, 4> at{};
    int count = 0;
};

struct Nearest {
    Vec point;
    Simplex held;  ///< only the corners it lies between
};

Nearest of_point(Vec a) { return {a, {{a}, 1}}; }

Nearest of_segment(Vec a, Vec b) {
    const Vec way = b - a;
    const double whole = dot(way, way), t = -dot(a, way);
    if (t <= 0 || whole == 0) return of_point(a);
    if (t >= whole) return of_point(b);
    return {a + (t / whole) * way, {{a, b}, 2}};
}

Nearest nearer(const Nearest& one, const Nearest& two) {
    return dot(two.point, two.point) < dot(one.point, one.point) ? two : one;
}

Nearest of_triangle(Vec a, Vec b, Vec c) {
    const Nearest edges = nearer(nearer(of_segment(a, b), of_segment(b, c)), of_segment(a, c));
    const Vec normal = cross(b - a, c - a);
    const double square = dot(normal, normal);
    const double scale = std::max({dot(b - a, b - a), dot(c - a, c - a), dot(c - b, c - b)});
    if (square <= 1e-24 * scale * scale) return edges;
    const Vec foot = (dot(a, normal) / square) * normal;
    // inside when the foot lies on the inner side of each edge
    if (dot(cross(b - a, foot - a), normal) < 0 || dot(cross(c - b, foot - b), normal) < 0 ||
        dot(cross(a - c, foot - c), normal) < 0)
        return edges;
    return nearer(edges, {foot, {{a, b, c}, 3}});
}

/// Whether the origin lies beyond the face a b c, seen from d; also where the four points are flat.
bool beyond(Vec a, Vec b, Vec c, Vec d) {
    const Vec normal = cross(b - a, c - a);
    const double of_origin = -dot(a, normal), of_d = dot(d - a, normal);
    return of_origin * of_d <= 0 || std::abs(of_d) <= 1e-12 * length(normal);
}

/// nullopt-like: a held count of 4 says that the origin is inside.
Nearest of_tetrahedron(Vec a, Vec b, Vec c, Vec d) {
    Nearest best{{}, {{a, b, c, d}, 4}};
    const auto face = [&best](Vec p, Vec q, Vec r, Vec opposite) {
        if (!beyond(p, q, r, opposite)) return;
        const Nearest here = of_triangle(p, q, r);
        best = best.held.count == 4 ? here : nearer(best, here);
    };
    face(a, b, c, d);
    face(a, b, d, c);
    face(a, c, d, b);
    face(b, c, d, a);
    return best;
}

Nearest nearest(const Simplex& s) {
    switch (s.count) {
        case 1: return of_point(s.at[0]);
        case 2: return of_segment(s.at[0], s.at[1]);
        case 3: return of_triangle(s.at[0], s.at[1], s.at[2]);
        default: return of_tetrahedron(s.at[0], s.at[1], s.at[2], s.at[3]);
    }
}

}  // namespace

double convex_gap(const Solid& a, const Solid& b) {
    const Box box = bounds(a);
    const Vec origin = 0.5 * (box.min + box.max);  // near numbers are exact numbers
    const Body one(a, origin), two(b, origin);
    const Box other = bounds(b);
    Vec v = -1.0 * (0.5 * (other.min + other.max) - origin);
    if (length(v) < fine) return 0;
    v = one.farthest(-v) - two.farthest(v);
    Nearest now = of_point(v);
    double below = 0;  // no point of the difference is nearer than this
    for (int step = 0; step < most_steps; ++step) {
        const double reached = length(now.point);
        if (reached < fine) return 0;
        const Vec w = one.farthest(-now.point) - two.farthest(now.point);
        below = std::max(below, dot(w, now.point) / reached);
        if (reached - below <= fine) break;
        Simplex grown = now.held;
        grown.at[static_cast<std::size_t>(grown.count++)] = w;
        const Nearest next = nearest(grown);
        if (next.held.count == 4) return 0;
        if (length(next.point) >= reached) break;  // numbers are no finer
        now = next;
    }
    return std::max(0.0, length(now.point));
}

}  // namespace bw::shape
