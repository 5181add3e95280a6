// SPDX-License-Identifier: MIT
#pragma once
// What an idle heater's damper must hold, by how many of the others fire.

#include <vector>

#include "network/vent_network.h"

namespace bw::network {

struct FiringPressure {
    int firing = 0;
    units::Pressure pressure{};  ///< at the worst idle heater's collar, dampers shut
    int idle = 0;                ///< that heater
    std::vector<int> burning;    ///< the heaters that burn then, at full fire
};

/// For 1 to all but one firing, the worst of every choice of burning heaters. Empty for air, for a vent of one heater,
/// for more than ten heaters (too many choices), or where a choice has no solution.
[[nodiscard]] std::vector<FiringPressure> vent_by_number(const VentNetwork& network, const VentFeed& feed);

}  // namespace bw::network
