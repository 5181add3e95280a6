// SPDX-License-Identifier: MIT
#pragma once
// The expansion vessel: the smallest that takes what the water swells by as it warms.

#include <optional>

#include "piping/piping.h"

namespace bw::piping {

/// Water as the supply is coldest and as it leaves the plant.
struct WaterDensities {
    units::Density cold{}, hot{};
};
/// nullopt where either lies outside 0 to 100 degC.
[[nodiscard]] std::optional<WaterDensities> swell_of(const demand::Demand& demand);

struct Vessel {
    const catalogue::Item* item = nullptr;
    double held = 0;  ///< m3, water in the plant's pieces when it was chosen
    text::Material material{};
    units::Nominal size;  ///< of its connection
};

/// nullptr where the catalogue has none big enough. `held` in m3.
[[nodiscard]] const catalogue::Item* vessel_for(const catalogue::Catalogue& catalogue, const WaterDensities& swell,
                                                double held);
[[nodiscard]] Sizing vessel_sizing(const Vessel& vessel, const WaterDensities& swell);

}  // namespace bw::piping
