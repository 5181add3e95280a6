// SPDX-License-Identifier: MIT
#pragma once
// The vents hung with their fall.

#include <vector>

#include "reason/reason.h"

namespace bw::proof {

class PlantIndex;

/// A check of each vent, and how much higher than drawn each piece of theirs is set out, metres by piece, 0 where a
/// vent finds no room to fall.
struct HungVents {
    std::vector<reason::Check> checks;
    std::vector<double> higher;
};
[[nodiscard]] HungVents hang_vents(const PlantIndex& view);

}  // namespace bw::proof
