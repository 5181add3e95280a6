// SPDX-License-Identifier: MIT
#pragma once
// Points of the grid that everything rigid stands on, `units::grid` apart.

#include <cmath>

#include "shape/vec.h"
#include "units/constants.h"

namespace bw::shape {

/// The nearest point of the grid, metres.
[[nodiscard]] inline double snap(double metres) { return std::round(metres / units::grid) * units::grid; }
/// The next point of the grid that is not less.
[[nodiscard]] inline double snap_up(double metres) { return std::ceil(metres / units::grid - 1e-6) * units::grid; }
/// The last point of the grid that is not greater.
[[nodiscard]] inline double snap_down(double metres) { return std::floor(metres / units::grid + 1e-6) * units::grid; }
[[nodiscard]] inline Vec snap(Vec at) { return {snap(at.x), snap(at.y), snap(at.z)}; }

}  // namespace bw::shape
