// SPDX-License-Identifier: MIT
#pragma once
// Pictures of the solved networks: gas at every heater, common vents by number firing.

#include "design/solved.h"
#include "paper/flow.h"

namespace bw::paper {

/// Gas pressure at every heater with all firing, beside the least it needs.
void plot_gas(Flow& flow, const design::Result& result, units::System system);
/// What an idle heater's damper must hold, by number firing, a line a common vent; with its table.
void set_vents_by_number(Flow& flow, const std::vector<design::CommonVent>& vents, units::System system);

}  // namespace bw::paper
