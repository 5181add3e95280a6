// SPDX-License-Identifier: MIT
#pragma once
// What a convex solid hides of a straight line, in closed form.

#include <algorithm>

#include "projection/projection.h"

namespace bw::projection {

/// Parameters from..to along a line; empty when from >= to.
struct Span {
    double from = 0, to = 1;
    [[nodiscard]] bool empty() const { return !(from < to); }
    /// Keeps where a + b t > 0.
    void keep(double a, double b) {
        if (b > 0)
            from = std::max(from, -a / b);
        else if (b < 0)
            to = std::min(to, -a / b);
        else if (a <= 0)
            to = from;
    }
};

/// Solids hide what lies behind them by more than this, metres; so those that touch do not hide one another's edges.
inline constexpr double skin = 2e-4;

/// The part of the line from `a` to `b` from which the way to the reader leads through the solid.
[[nodiscard]] Span shade(const Item& item, Vec a, Vec b, Vec towards);

}  // namespace bw::projection
