// SPDX-License-Identifier: MIT
#pragma once
// Where a heater's exhaust goes, or its air comes from, read off the pieces.

#include <vector>

#include "proof/view.h"

namespace bw::proof {

struct VentRun {
    int heater = 0;
    int terminal = -1;          ///< vent or intake terminal it ends in; -1 when it ends in none
    int first_tee = -1;         ///< index into `path` of the first tee, the collar; -1 on a pipe of its own
    std::vector<Step> path;     ///< from the heater outwards
    int elbows = 0, bends = 0;  ///< of 90 and of 45 degrees
    units::Length centre_line{}, beyond_tee{};  ///< whole, and from the first tee on
    units::Nominal least, greatest;             ///< pipe sizes on the way
};

/// One run a heater, by number. `port` is "exhaust" or "intake".
[[nodiscard]] std::vector<VentRun> vent_runs(const View& view, std::string_view port);
/// Whether a terminal stands outside the room.
[[nodiscard]] bool outdoors(const View& view, int terminal);

/// Velocity at the terminal; cooling and condensation on the longest exhaust, and what may freeze.
void check_vent_cooling(const View& view, const std::vector<VentRun>& runs, std::vector<reason::Check>& checks);

}  // namespace bw::proof
