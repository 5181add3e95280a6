// SPDX-License-Identifier: MIT
#pragma once
// Constants of nature and of this house, each once, in SI.

#include <numbers>

namespace bw::units {

inline constexpr double pi = std::numbers::pi;
inline constexpr double standard_gravity = 9.80665;  ///< m/s2
inline constexpr double atmosphere_pascal = 101325;  ///< one atmosphere
inline constexpr double grid = 0.0254 / 16;          ///< metres: everything rigid stands on sixteenths of an inch
/// Metres: places closer than this are one place.
inline constexpr double tolerance = 1e-6;

}  // namespace bw::units
