// SPDX-License-Identifier: MIT
#pragma once
// Power: circuits that leave half the plant when one trips, a disconnect in sight of each heater, the link chain, the
// emergency stop, the bond of the gas pipe and the carbon monoxide alarm.

#include <vector>

#include "piping/kit/builder_extra.h"

namespace bw::piping {

struct CircuitPlan {
    std::vector<int> sizes;  ///< heaters on each circuit, in the heaters' order
    const Item* breaker = nullptr;
    double each = 0;    ///< A, a heater's greatest steady current
    double rating = 0;  ///< A
    Nominal cable;      ///< trade size of the cable row
};

/// How many circuits of which breaker: the cheapest set where no circuit is loaded past 80 % of its breaker and, with
/// two heaters or more, none holds more than half of them. Fails where no breaker of the catalogue carries one heater.
[[nodiscard]] Result<CircuitPlan> plan_circuits(const catalogue::Catalogue& catalogue, const catalogue::Heater& heater,
                                                int heaters);

/// Share of a breaker's rating a load that runs for three hours or more may take. Source: NEC 210.20(A), from memory.
inline constexpr double continuous_share = 0.8;

/// The emergency stop's place beside the door's latch, its middle 48 in above the floor, and the way it looks.
struct AtDoor {
    Vec at, facing;
};
/// Clear of what is taken in the room, where a place is.
[[nodiscard]] AtDoor beside_door(const survey::Room& room, const ClearanceMap& space);
/// Middle of the carbon monoxide alarm above that of the emergency stop.
inline constexpr double alarm_above = 24 * inch_m;

/// Corners of a cable between two ports: straight where they look at one another, else out by a lead at either end, up
/// to its lane, along it and down. Keeps inside the room's plan where one of the two corners does.
[[nodiscard]] std::vector<Vec> cable_way(const survey::Room& room, const Port& from, double from_lead, const Port& to,
                                         double to_lead, const shape::Ceiling& lane);

/// A cable cut to its way between two open ports; it need not keep to the grid.
void lay_cable(Builder& b, const Line& line, PortRef from, PortRef to, const std::vector<Vec>& way,
               std::string_view name);

/// A circuit's lane below the ceiling, which it follows where that slopes.
[[nodiscard]] shape::Ceiling lane(const Builder& b, int circuit);

void lay_links(Builder& b);  ///< link cables from heater to heater, plugs at open ends
void lay_bond(Builder& b);   ///< gas pipe to the building's earth
/// Above the emergency stop's place, where the survey requires one.
void lay_co_alarm(Builder& b, const AtDoor& door);

}  // namespace bw::piping
