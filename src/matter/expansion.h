// SPDX-License-Identifier: MIT
#pragma once
// How much a closed body of water swells when warmed, and the vessel that takes it in.

#include "reason/reason.h"
#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

using namespace bw::units;  // NOLINT

struct Expansion {
    Ratio share = 0;       ///< of the cold volume
    Volume expansion{};    ///< that the vessel must take in
    Ratio acceptance = 0;  ///< of the vessel's volume: 1 - p1/p2, absolute
    Volume vessel{};       ///< least, with a membrane and charged to the fill pressure
    reason::Derivation derivation;
    reason::Sources sources;
};

/// Water by IAPWS at one atmosphere; the pipe's and tank's own growth is left out, which errs to a larger vessel. The
/// vessel's gas keeps its temperature (Boyle). Pressures are gauge at the vessel; `atmosphere` is absolute. Fails
/// where `hot` is not above `cold` or `greatest` not above `fill`, and outside 0 to 100 degC.
/// Source: ASHRAE Handbook, HVAC Systems and Equipment, hydronic chapter, diaphragm tanks; from memory.
[[nodiscard]] Result<Expansion> expansion_vessel(Volume water, Temperature cold, Temperature hot, Pressure fill,
                                                 Pressure greatest, Pressure atmosphere);

}  // namespace bw::matter
