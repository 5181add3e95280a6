// SPDX-License-Identifier: MIT
#pragma once
// One function a file: each adds the checks of its subject, unsettled (policy.h settles them afterwards).

#include "proof/base/new_check.h"
#include "proof/view.h"

namespace bw::proof {

void check_capacity(const View& view, Checks& checks);       ///< flow, spare, group, altitude
void check_water_quality(const View& view, Checks& checks);  ///< hardness, temperatures, scald
void check_water_supply(const View& view, Checks& checks);   ///< static pressure, reducer, expansion, backflow
void check_water_pieces(const View& view, Checks& checks);   ///< service valves, listed parts, copper from steel
void check_water_flow(const View& view, Checks& checks);     ///< velocity, pressure, flow at each heater
void check_water_taps(const View& view, Checks& checks);     ///< one tap, hot beside cold at mixing valves
void check_relief(const View& view, Checks& checks);         ///< relief valves and their discharges
void check_recirculation(const View& view, Checks& checks);  ///< pump, check valve, open path
void check_gas_pressure(const View& view, Checks& checks);   ///< running and static pressure at each heater, drop
void check_gas_network(const View& view, Checks& checks);    ///< lowest pressure solved, a sudden stop
void check_gas_size(const View& view, Checks& checks);       ///< longest-length method, by table or equation
void check_gas_trim(const View& view, Checks& checks);       ///< valve, union, sediment trap, connector
void check_gas_supply(const View& view, Checks& checks);     ///< indoor limit, meter, materials, bond, test
void check_regulators(const View& view, Checks& checks);     ///< shut-off, vent, lock-up, capacity, test ports
void check_vent(const View& view, Checks& checks);           ///< length, number in common, dampers, materials
/// Pressures solved: fans, idle heaters; called by `check_vent` with the check of idle heaters and whether any share.
void check_vent_backflow(const View& view, Check idle_check, bool shared, Checks& checks);
void check_terminals(const View& view, Checks& checks);   ///< surroundings, walkway, separation
void check_air(const View& view, Checks& checks);         ///< intake paths or room volume and openings, clean air
void check_condensate(const View& view, Checks& checks);  ///< traps, neutraliser, where it goes
/// How long a neutraliser's medium lasts; `flow` is the most condensate of the heaters it serves.
void check_condensate_bed(const View& view, int piece, units::VolumeFlow flow, Checks& checks);
void check_drain_pump(const View& view, Checks& checks);     ///< flow, lift, check valve of a condensate pump, if any
void check_overflow(const View& view, Checks& checks);       ///< and what stops the heaters when its tank overfills
void check_electric(const View& view, Checks& checks);       ///< circuits, split, disconnects, link
void check_hanging(const View& view, Checks& checks);        ///< load on each support, rods, supports near turns
void check_movement(const View& view, Checks& checks);       ///< growth of warm runs and what takes it up
void check_fall(const View& view, Checks& checks);           ///< vents and drains hung with their fall: heights, room
void check_room(const View& view, Checks& checks);           ///< working space, clearances
void check_under_ceiling(const View& view, Checks& checks);  ///< no piece in a sloping ceiling; called by `check_room`
void check_lift_off(const View& view, Checks& checks);    ///< heaters come off their brackets; called by `check_room`
void check_room_rules(const View& view, Checks& checks);  ///< rules by input, firestops
void check_structure(const View& view, Checks& checks);   ///< weights, anchors, seismic
void check_seismic(const View& view, Checks& checks);     ///< earthquake; called by `check_structure`
void check_hangers(const View& view, Checks& checks);     ///< support spacing
void check_safety(const View& view, Checks& checks);      ///< emergency stop, CO, codes and amendments
void check_lawful(const View& view, Checks& checks);      ///< the laws every plant keeps
void check_clash(const View& view, Checks& checks);       ///< solids of unjoined pieces

}  // namespace bw::proof
