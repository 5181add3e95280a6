// SPDX-License-Identifier: MIT
#pragma once
// What would bring a heater that has too little gas pressure up to what it needs.

#include <string>

#include "units/quantity.h"

namespace bw::proof {

class View;

/// What would bring the lowest heater up to a pressure with all firing, and by how much: a delivery pressure, pipe of
/// which lines and sizes. Empty where nothing is amiss or the pieces cannot be read.
[[nodiscard]] std::string gas_mend(const View& view, units::Pressure least);

}  // namespace bw::proof
