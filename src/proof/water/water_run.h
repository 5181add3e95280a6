// SPDX-License-Identifier: MIT
#pragma once
// What flows through the cold and hot trees at the peak, and what is lost on the way.

#include <vector>

#include "matter/water.h"
#include "proof/view.h"

namespace bw::proof {

struct WaterPassage {
    units::VolumeFlow flow{};
    units::Velocity velocity{};
    units::Pressure lost{};    ///< in this passage
    units::Pressure so_far{};  ///< from the point of connection through this passage
};

struct WaterRun {
    std::vector<WaterPassage> at;  ///< beside the tree's traversals
    matter::Water water;
};

/// One heater's share of the peak with the spare down, never more than it delivers.
[[nodiscard]] units::VolumeFlow water_flow_each(const View& view);
/// Cold or hot. A passage that feeds k heaters carries k shares, never more than the peak. Fails where the tree could
/// not be read, or a bore or roughness is not known.
[[nodiscard]] Result<WaterRun> water_run(const View& view, Service service);

/// The solved split of the peak among the heaters.
void check_water_balance(const View& view, std::vector<reason::Check>& checks);

}  // namespace bw::proof
