// SPDX-License-Identifier: MIT
#pragma once
// Rules for the water side.

#include <optional>
#include <vector>

#include "code/clause.h"

namespace bw::code {

/// Static pressure above which a reducing valve is required: 80 psi. IPC 2018 604.8.
[[nodiscard]] Clause<Pressure> water_pressure_limit();

/// Least pressure at tub and shower valves of the mixing kinds: 20 psi. IPC 2018 Table 604.3 (from memory).
[[nodiscard]] Clause<Pressure> mixing_valve_pressure();

/// Design velocity limit. Copper: 8 ft/s cold, 5 ft/s hot to 140 degF, 3 ft/s above (Copper Tube Handbook; 2 to 3 ft/s
/// printed); steel and stainless 10 ft/s, CPVC 8 ft/s (common practice). Fails for materials that carry no water here.
[[nodiscard]] Result<Clause<Velocity>> water_velocity_limit(Material material, Temperature water);

/// Design velocity limit of a loop, where water never rests: copper 2 to 3 ft/s (Copper Tube Handbook, from memory), 3
/// is taken; other materials as `water_velocity_limit`.
[[nodiscard]] Result<Clause<Velocity>> loop_velocity_limit(Material material, Temperature water);

/// Means to control expansion where the supply is closed. IPC 607.3.
[[nodiscard]] Clause<bool> expansion_control();
/// Supply protected against backflow; equipment connections by their hazard. IPC 608.
[[nodiscard]] Clause<bool> backflow_protection();
/// Wetted parts listed for drinking water: NSF/ANSI/CAN 61, lead content 372. IPC 605.2, 605.3.
[[nodiscard]] Clause<bool> drinking_water_materials();
/// Copper and steel joined through a dielectric fitting or brass. IPC 605.23 (2018).
[[nodiscard]] Clause<bool> dissimilar_metals();
/// Greatest temperature at the tap. Showers 120 degF (IPC 412.3), public lavatories 110 degF (IPC 419.5).
[[nodiscard]] Clause<Temperature> shower_temperature_limit();
[[nodiscard]] Clause<Temperature> public_lavatory_temperature_limit();
/// Full-open valve on the cold supply at each water heater. IPC 503.1, 606.1.
[[nodiscard]] Clause<bool> heater_isolation();
/// Hot and return pipe insulated; least thickness by fluid temperature and nominal size. ASHRAE 90.1-2016 Table
/// 6.8.3-1. Fails below 105 degF.
[[nodiscard]] Result<Clause<Length>> insulation_thickness(Temperature fluid, Nominal size);
/// Condensate: trap, neutraliser before copper, iron or concrete; never to a drain that freezes. IFGC 2018 307.
[[nodiscard]] Clause<bool> condensate_disposal();
/// Least pH discharged after neutralising: 5 (common practice; local sewer rules win).
[[nodiscard]] Clause<double> condensate_acidity_limit();

}  // namespace bw::code
