// SPDX-License-Identifier: MIT
#pragma once
// Pictures of demand: what each method says, how the day runs, what each heater does to the chance of falling short.

#include "design/design.h"
#include "paper/flow.h"

namespace bw::paper {

/// Bars of flow, one a method, with the peak and the plant's flow as lines.
void plot_methods(Flow& flow, const design::Result& result, units::System system);
/// Hot water by the hour.
void plot_day(Flow& flow, const design::Result& result, units::System system);
/// Chance of falling short against the number of heaters, on a scale of powers of ten.
void plot_risk(Flow& flow, const design::Result& result, units::System system);

}  // namespace bw::paper
