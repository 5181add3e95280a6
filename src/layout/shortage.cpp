// SPDX-License-Identifier: MIT
#include "layout/shortage.h"

#include <cmath>

namespace bw::layout {
namespace {

constexpr double least_left = 16 * grid;
constexpr double least_length = 6 * plant::stations::inch;  ///< past the end that is free of heaters

/// Least whole number of grid steps, up to `most`, for which `good` holds; it holds from there on.
std::optional<double> least(double most, const std::function<bool(double)>& good) {
    long high = static_cast<long>(std::floor(most / grid + 1e-3)), low = -1;
    if (high < 0 || !good(static_cast<double>(high) * grid)) return std::nullopt;
    while (high - low > 1) {
        const long middle = low + (high - low) / 2;
        (good(static_cast<double>(middle) * grid) ? high : low) = middle;
    }
    return static_cast<double>(high) * grid;
}

}  // namespace

std::optional<Shortage> shortage(const Fits& fits, double block_length, double block_depth) {
    // a block shrunk to nothing would fit between two walls that touch
    const double length = block_length - least_length, depth = block_depth - least_left;
    const auto along = least(length, [&](double by) { return fits(by, 0); });
    const auto across = least(depth, [&](double by) { return fits(0, by); });
    if (along && (!across || *along <= *across)) return Shortage{*along, 0};
    if (across) return Shortage{0, *across};
    const auto deep = least(depth, [&](double by) { return fits(length, by); });
    if (!deep) return std::nullopt;
    const auto both = least(length, [&](double by) { return fits(by, *deep); });
    if (!both) return std::nullopt;
    return Shortage{*both, *deep};
}

}  // namespace bw::layout
