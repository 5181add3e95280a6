// SPDX-License-Identifier: MIT
#pragma once
// The level runs of one service, for the checks of what holds them and how they grow.

#include "network/run/level_runs.h"
#include "proof/view.h"

namespace bw::proof {

using network::Hold;
using network::LevelRun;
using network::port_along;

/// From each pipe and vent pipe of a service.
[[nodiscard]] std::vector<LevelRun> level_runs(const View& view, Service service);

/// The longest stretch without support: between two, or from an end to the nearest, metres. An end is held by what it
/// turns into, so a run without any support of its own counts whole.
[[nodiscard]] double longest_gap(const LevelRun& run);

}  // namespace bw::proof
