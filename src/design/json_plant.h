// SPDX-License-Identifier: MIT
#pragma once

#include "design/design.h"
#include "reason/json.h"

namespace bw::design {

/// Every method's answer, the fixtures' chances and the day.
[[nodiscard]] reason::Json demand_json(const demand::Demand& demand, units::System system);
/// The choice, what more or fewer heaters would mean, stores, and advice.
[[nodiscard]] reason::Json capacity_json(const demand::Capacity& capacity, units::System system);
[[nodiscard]] reason::Json layout_json(const plant::Layout& layout, units::System system);
/// Pieces with their ports, solids and masses; coordinates in metres.
[[nodiscard]] reason::Json pieces_json(const plant::Plant& plant, units::System system);
[[nodiscard]] reason::Json joints_json(const plant::Plant& plant);
[[nodiscard]] reason::Json sizes_json(const std::vector<piping::Sizing>& sizes, units::System system);
/// The cheapest sizes that pass beside the handbook's.
[[nodiscard]] reason::Json economy_json(const piping::Economy& economy, units::System system);
[[nodiscard]] reason::Json parts_json(const make::Estimate& estimate, units::System system);

}  // namespace bw::design
