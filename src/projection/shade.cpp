// SPDX-License-Identifier: MIT
#include "projection/shade.h"

#include <array>
#include <cmath>

namespace bw::projection {
namespace {

// A point p + v t of the line is hidden when p + v t + s d lies in the solid for some s > 0. A convex solid bounds s
// from below and above; s goes out by asking every lower bound to be below every upper one, which leaves conditions on
// t.

struct Linear {
    double a = 0, b = 0;
    [[nodiscard]] double operator()(double t) const { return a + b * t; }
    friend Linear operator-(Linear x, Linear y) { return {x.a - y.a, x.b - y.b}; }
    friend Linear operator+(Linear x, Linear y) { return {x.a + y.a, x.b + y.b}; }
    friend Linear operator*(double k, Linear x) { return {k * x.a, k * x.b}; }
};

/// c + b t + a t2, with a not positive.
struct Arch {
    double c = 0, b = 0, a = 0;
    void take_square(Linear x) { c -= x.a * x.a, b -= 2 * x.a * x.b, a -= x.b * x.b; }
    [[nodiscard]] double operator()(double t) const { return c + t * (b + t * a); }
};

constexpr double flat = 1e-15;

void keep(Span& span, Linear above) { span.keep(above.a, above.b); }

/// Keeps where the arch is positive.
void keep(Span& span, const Arch& g) {
    if (g.a > -flat) return span.keep(g.c, g.b);
    const double square = g.b * g.b - 4 * g.a * g.c;
    if (square <= 0) {
        span.to = span.from;
        return;
    }
    const double root = std::sqrt(square);
    span.from = std::max(span.from, (-g.b + root) / (2 * g.a));
    span.to = std::min(span.to, (-g.b - root) / (2 * g.a));
}

/// Keeps where a linear function is below an arch's root. The arch is positive throughout the span; its root is
/// concave, so what stays is one stretch.
void keep_below(Span& span, Linear f, const Arch& g) {
    if (span.empty()) return;
    const double a = f.b * f.b - g.a, b = 2 * f.a * f.b - g.b, c = f.a * f.a - g.c;
    if (a < flat) {
        if (f.a >= 0 && c >= 0) span.to = span.from;
        return;
    }
    const double square = b * b - 4 * a * c;
    if (square <= 0) return keep(span, -1 * f);
    const double root = std::sqrt(square), low = (-b - root) / (2 * a), high = (-b + root) / (2 * a);
    const bool at_low = f(low) >= 0, at_high = f(high) >= 0;
    if (at_low) span.from = std::max(span.from, low);
    if (at_high) span.to = std::min(span.to, high);
    if (at_low || at_high || span.empty()) return;
    const double middle = (span.from + span.to) / 2;
    if (f(middle) >= std::sqrt(std::max(0.0, g(middle)))) span.to = span.from;
}

Span of(const shape::Box& box, Vec p, Vec v, Vec d) {
    Span span;
    std::array<Linear, 4> least{};  // the first: s > 0
    std::array<Linear, 3> most;
    std::size_t lows = 1, highs = 0;
    const auto slab = [&](double low, double high, Linear x, double dx) {
        if (std::abs(dx) < 1e-9) {
            keep(span, x - Linear{low, 0});
            keep(span, Linear{high, 0} - x);
            return;
        }
        const Linear to_low = (1 / dx) * (Linear{low, 0} - x), to_high = (1 / dx) * (Linear{high, 0} - x);
        least[lows++] = dx > 0 ? to_low : to_high;
        most[highs++] = dx > 0 ? to_high : to_low;
    };
    slab(box.min.x + skin, box.max.x - skin, {p.x, v.x}, d.x);
    slab(box.min.y + skin, box.max.y - skin, {p.y, v.y}, d.y);
    slab(box.min.z + skin, box.max.z - skin, {p.z, v.z}, d.z);
    for (std::size_t i = 0; i < lows && !span.empty(); ++i)
        for (std::size_t k = 0; k < highs; ++k) keep(span, most[k] - least[i]);
    return span;
}

Span of(const Ball& ball, Vec p, Vec v, Vec d) {
    const Vec from = p - ball.centre;
    const Linear depth{dot(from, d), dot(v, d)};
    const Vec e0 = from - depth.a * d, e1 = v - depth.b * d;
    const double r = ball.radius - skin;
    Arch g{r * r, 0, 0};
    g.c -= dot(e0, e0), g.b -= 2 * dot(e0, e1), g.a -= dot(e1, e1);
    Span span;
    if (r <= 0) return {0, 0};
    keep(span, g);
    keep_below(span, depth, g);
    return span;
}

Span of(const shape::Cylinder& bar, Vec p, Vec v, Vec d) {
    const double whole = distance(bar.a, bar.b), r = bar.radius - skin, length = whole - 2 * skin;
    if (r <= 0 || length <= 0) return {0, 0};
    const Vec u = (1 / whole) * (bar.b - bar.a), from = p - bar.a - skin * u;
    const double du = dot(d, u);
    const Vec rest = d - du * u;
    const double dm = shape::length(rest);
    const Linear h{dot(from, u), dot(v, u)};
    Span span;
    Arch g{r * r, 0, 0};
    // along the axis: how far until the farther end is reached, and the nearer
    const Linear until = std::abs(du) < 1e-9 ? Linear{} : (1 / du) * (du > 0 ? Linear{length, 0} - h : Linear{} - h);
    const Linear since = std::abs(du) < 1e-9 ? Linear{} : (1 / du) * (du > 0 ? Linear{} - h : Linear{length, 0} - h);
    if (dm < 1e-6) {
        const Vec e0 = from - h.a * u, e1 = v - h.b * u;
        g.c -= dot(e0, e0), g.b -= 2 * dot(e0, e1), g.a -= dot(e1, e1);
        keep(span, until);
        keep(span, g);
        return span;
    }
    const Vec m = (1 / dm) * rest, n = cross(u, m);
    const Linear x{dot(from, n), dot(v, n)}, y{dot(from, m), dot(v, m)};
    g.take_square(x);
    keep(span, g);
    keep_below(span, y, g);
    if (std::abs(du) < 1e-9) {
        keep(span, h);
        keep(span, Linear{length, 0} - h);
        return span;
    }
    keep(span, until);
    keep_below(span, Linear{} - y - dm * until, g);
    keep_below(span, y + dm * since, g);
    return span;
}

}  // namespace

Span shade(const Item& item, Vec a, Vec b, Vec towards) {
    return std::visit([&](const auto& solid) { return of(solid, a, b - a, towards); }, item.solid);
}

}  // namespace bw::projection
