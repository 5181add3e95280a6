// SPDX-License-Identifier: MIT
#pragma once
// The loop's pump: its curve, the catalogue's pumps by a duty, and the heaters that stand open to it.

#include <vector>

#include "catalogue/catalogue.h"
#include "demand/demand.h"

namespace bw::network {

/// A pump's head by straight lines between the points of its curve; nothing past its last.
struct PumpCurve {
    std::vector<units::VolumeFlow> flow;
    std::vector<units::Length> head;
    [[nodiscard]] units::Length at(units::VolumeFlow wanted) const;
};
[[nodiscard]] PumpCurve pump_curve(const catalogue::Item& pump);

/// Heaters that must stand open for the loop: as many as carry its flow and its heat; all, where idle ones stay open.
[[nodiscard]] int heaters_open_to_loop(const demand::Demand& demand, const demand::Capacity& capacity,
                                       const catalogue::Heater& heater);

/// The cheapest pump of the catalogue that gives at least `head` at a flow within the middle of its range, else
/// anywhere on its curve; nullptr where none does.
[[nodiscard]] const catalogue::Item* pump_for(const catalogue::Catalogue& catalogue, units::VolumeFlow flow,
                                              units::Length head);

}  // namespace bw::network
