// SPDX-License-Identifier: MIT
#pragma once
// What a piece weighs when the plant is full.

#include "plant/plant.h"
#include "units/constants.h"

namespace bw::proof {

inline constexpr double gravity = units::standard_gravity;  ///< m/s2

/// Kilograms, full of cold water at 1,000 kg/m3: never understated.
[[nodiscard]] inline double filled(const plant::Piece& piece) { return piece.mass_dry + 1000 * piece.water; }

}  // namespace bw::proof
