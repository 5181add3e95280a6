// SPDX-License-Identifier: MIT
#include "projection/lines.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace bw::projection {
namespace {

constexpr double pi = std::numbers::pi;
constexpr double grazing = 1e-6;  // sine of the angle below which a face is seen on edge

/// Chords for an arc of this many radians.
int chords(double radius, double angle, double chord) {
    const double ratio = std::min(1.0, chord / std::max(radius, 1e-9));
    const double step = 2 * std::acos(1 - ratio);
    return std::clamp(static_cast<int>(std::ceil(angle / step)), static_cast<int>(std::ceil(angle / (pi / 4))), 64);
}

/// centre + radius (cos x + sin y), from an angle to another.
std::vector<Vec> arc(Vec centre, double radius, Vec x, Vec y, double from, double to, double chord) {
    const int n = chords(radius, std::abs(to - from), chord);
    std::vector<Vec> line;
    for (int i = 0; i <= n; ++i) {
        const double angle = from + (to - from) * i / n;
        line.push_back(centre + radius * std::cos(angle) * x + radius * std::sin(angle) * y);
    }
    return line;
}

/// A bar's axes: along it, across the view, and the side that faces the reader.
struct BarAxes {
    Vec u, n, m;
    double du = 0, dm = 0;  ///< parts of the direction to the reader along u and m
};
BarAxes axes_of(const shape::Cylinder& bar, const Eye& eye) {
    BarAxes axes;
    axes.u = (1 / distance(bar.a, bar.b)) * (bar.b - bar.a);
    axes.du = dot(eye.towards, axes.u);
    const Vec rest = eye.towards - axes.du * axes.u;
    axes.dm = length(rest);
    if (axes.dm < grazing) return axes;
    axes.m = (1 / axes.dm) * rest;
    axes.n = cross(axes.u, axes.m);
    return axes;
}

struct Lines {
    std::vector<Curve>& curves;
    int item;
    int owner;
    const Eye& eye;
    double chord;

    void put(Kind kind, std::vector<Vec> line) const { curves.push_back({item, owner, kind, std::move(line), 0, {}}); }
    void circle(Vec centre, double radius) const {
        auto line = arc(centre, radius, eye.right, eye.up, 0, 2 * pi, chord);
        curves.push_back({item, owner, Kind::outline, std::move(line), radius, centre});
    }

    void operator()(const Ball& ball) const { circle(ball.centre, ball.radius); }

    void operator()(const shape::Cylinder& bar, bool joined_a, bool joined_b) const {
        const auto [u, n, m, du, dm] = axes_of(bar, eye);
        if (dm < grazing) {
            if (!(du > 0 ? joined_b : joined_a)) circle(du > 0 ? bar.b : bar.a, bar.radius);
            return;
        }
        for (const double side : {-bar.radius, bar.radius}) put(Kind::outline, {bar.a + side * n, bar.b + side * n});
        const auto rim = [&](Vec centre, double facing) {
            const bool seen = facing > grazing;
            put(seen ? Kind::crease : Kind::outline, arc(centre, bar.radius, n, m, 0, pi, chord));
            if (seen) put(Kind::outline, arc(centre, bar.radius, n, m, pi, 2 * pi, chord));
        };
        if (!joined_a) rim(bar.a, -du);
        if (!joined_b) rim(bar.b, du);
    }

    void operator()(const shape::Box& box) const {
        const Vec size = box.max - box.min;
        const std::array<Vec, 3> side{Vec{size.x, 0, 0}, Vec{0, size.y, 0}, Vec{0, 0, size.z}};
        const std::array<double, 3> d{eye.towards.x, eye.towards.y, eye.towards.z};
        for (std::size_t i = 0; i < 3; ++i) {
            if (1 - std::abs(d[i]) < 1e-9) continue;  // seen on end
            const std::size_t j = (i + 1) % 3, k = (i + 2) % 3;
            for (const int at_j : {0, 1})
                for (const int at_k : {0, 1}) {
                    const bool j_seen = (at_j ? d[j] : -d[j]) > grazing, k_seen = (at_k ? d[k] : -d[k]) > grazing;
                    if (!j_seen && !k_seen) continue;
                    const Vec from = box.min + double(at_j) * side[j] + double(at_k) * side[k];
                    put(j_seen && k_seen ? Kind::crease : Kind::outline, {from, from + side[i]});
                }
        }
    }
};

double light_of(Vec normal, const Eye& eye) {
    return 0.5 + 0.35 * dot(normal, eye.up) - 0.25 * dot(normal, eye.right) + 0.1 * dot(normal, eye.towards);
}

struct Sides {
    std::vector<Face>& faces;
    int owner;
    const Eye& eye;
    double chord;

    void put(Vec normal, const std::vector<Vec>& outline) const {
        Face face{owner, std::clamp(light_of(normal, eye), 0.0, 1.0), {}};
        for (const Vec v : outline) face.outline.push_back(eye(v));
        faces.push_back(std::move(face));
    }
    void operator()(const Ball& ball) const {
        put(eye.towards, arc(ball.centre, ball.radius, eye.right, eye.up, 0, 2 * pi, chord));
    }
    void operator()(const shape::Cylinder& bar) const {
        const auto [u, n, m, du, dm] = axes_of(bar, eye);
        const Vec near = du > 0 ? bar.b : bar.a, far = du > 0 ? bar.a : bar.b;
        if (dm < grazing) return put(eye.towards, arc(near, bar.radius, eye.right, eye.up, 0, 2 * pi, chord));
        auto body = arc(far, bar.radius, n, m, 0, pi, chord);
        if (std::abs(du) < grazing) {
            body = {far + bar.radius * n, far - bar.radius * n, near - bar.radius * n, near + bar.radius * n};
        } else {
            const auto edge = arc(near, bar.radius, n, m, pi, 0, chord);
            body.insert(body.end(), edge.begin(), edge.end());
        }
        put(m, body);
        if (std::abs(du) > grazing) put(du > 0 ? u : -u, arc(near, bar.radius, n, m, 0, 2 * pi, chord));
    }
    void operator()(const shape::Box& box) const {
        const Vec size = box.max - box.min;
        const std::array<Vec, 3> side{Vec{size.x, 0, 0}, Vec{0, size.y, 0}, Vec{0, 0, size.z}};
        const std::array<double, 3> d{eye.towards.x, eye.towards.y, eye.towards.z};
        for (std::size_t i = 0; i < 3; ++i) {
            if (std::abs(d[i]) < grazing) continue;
            const std::size_t j = (i + 1) % 3, k = (i + 2) % 3;
            const Vec from = d[i] > 0 ? box.min + side[i] : box.min;
            const double sign = d[i] > 0 ? 1 : -1;
            put((sign / std::max(length(side[i]), 1e-12)) * side[i],
                {from, from + side[j], from + side[j] + side[k], from + side[k]});
        }
    }
};

}  // namespace

void add_curves(std::vector<Curve>& curves, const std::vector<Item>& items, int item, const Eye& eye, double chord) {
    const auto& it = items[static_cast<std::size_t>(item)];
    const Lines lines{curves, item, it.owner, eye, chord};
    if (const auto* bar = std::get_if<shape::Cylinder>(&it.solid)) return lines(*bar, it.joined_a, it.joined_b);
    if (const auto* box = std::get_if<shape::Box>(&it.solid)) return lines(*box);
    lines(std::get<Ball>(it.solid));
}

void add_faces(std::vector<Face>& faces, const Item& item, const Eye& eye, double chord) {
    std::visit(Sides{faces, item.owner, eye, chord}, item.solid);
}

}  // namespace bw::projection
