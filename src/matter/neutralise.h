// SPDX-License-Identifier: MIT
#pragma once
// What acid condensate does to a bed of marble, and what the bed does to it.

#include "reason/reason.h"
#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

using namespace bw::units;  // NOLINT: quantity names

struct Neutralised {
    double acidity = 0;    ///< pH where water, marble and carbon dioxide are in balance
    double dissolved = 0;  ///< kg of marble a m3 of water
    double least = 0;      ///< kg of marble a m3 that the strong acid alone takes
    reason::Derivation derivation;
    reason::Sources sources;
};

/// Water of a pH made by strong acids, under carbon dioxide of a partial pressure, left with calcite until nothing more
/// dissolves: the most a bed can do and the most of it that goes. A real bed, with less time, gives a lower pH and
/// lasts longer. At 25 degC; marble as pure calcite. Range: pH 2 to 7, 1e-5 to 1 atmosphere of carbon dioxide; else
/// refused. Source: equilibrium constants of Plummer and Busenberg 1982, activities by Davies 1962; from memory.
[[nodiscard]] Result<Neutralised> neutralise_by_marble(double acidity, Pressure carbon_dioxide);

}  // namespace bw::matter
