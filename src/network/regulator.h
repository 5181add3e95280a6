// SPDX-License-Identifier: MIT
#pragma once
// What a line gas regulator passes.

#include "catalogue/catalogue.h"

namespace bw::network {

/// Gas a regulator passes at an inlet pressure (gauge): never more than the catalogue states, and less where the inlet
/// is lower than the one it is stated for, as what a wide-open orifice passes goes with the root of the pressure across
/// it. Nothing where the inlet is no higher than the outlet, or the row states no capacity.
[[nodiscard]] units::VolumeFlow regulator_passes(const catalogue::Item& regulator, units::Pressure inlet);

}  // namespace bw::network
