// SPDX-License-Identifier: MIT
#pragma once
// The air a plant stands in.

#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

using namespace bw::units;  // NOLINT

/// Mean air pressure at an altitude, absolute. Range -500 to 5,000 m. Source: U.S. Standard Atmosphere, 1976, equation
/// 33a, from memory.
[[nodiscard]] Result<Pressure> atmosphere(Length altitude);
/// Dry air as an ideal gas, -40 to 300 degC. Source: molar mass 28.964 kg/kmol, U.S. Standard Atmosphere, 1976.
[[nodiscard]] Result<Density> air_density(Temperature temperature, Pressure absolute);

}  // namespace bw::matter
