// SPDX-License-Identifier: MIT
#pragma once
// The two fuel gases of the trade.

#include "reason/reason.h"
#include "text/vocabulary.h"
#include "units/quantity.h"

namespace bw::matter {

using text::Gas;
using namespace bw::units;  // NOLINT

/// A fuel gas as delivered where nothing better is known, and the hydrocarbon that stands for it in combustion.
struct Fuel {
    Gas gas{};
    HeatingValue higher{};         ///< gross, per volume at 60 degF and one atmosphere
    Ratio specific_gravity = 0;    ///< of air
    int carbon = 0, hydrogen = 0;  ///< atoms in one molecule: natural gas burns as methane here, propane as propane
    reason::Sources sources;
};

/// Natural gas: 1,000 Btu/ft3 and 0.60; propane: 2,516 Btu/ft3 and 1.50. A utility's own figures go before these.
[[nodiscard]] const Fuel& fuel(Gas gas);

/// Volume of gas at 60 degF and one atmosphere that brings a heat input.
[[nodiscard]] inline VolumeFlow gas_flow(Power input, HeatingValue higher) { return input / higher; }

}  // namespace bw::matter
