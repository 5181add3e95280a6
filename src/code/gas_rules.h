// SPDX-License-Identifier: MIT
#pragma once
// What the fuel gas code asks of a gas installation besides its pipe sizes.

#include <optional>
#include <vector>

#include "code/clause.h"

namespace bw::code {

/// Greatest gas pressure in pipe inside a building, gauge, without the code's special permission.
[[nodiscard]] Clause<Pressure> gas_indoor_pressure_limit();

/// Asked of a line gas regulator.
struct RegulatorRules {
    bool needed = false;          ///< delivery above the heater's greatest inlet pressure
    bool overprotection = false;  ///< above 2 psi a second device must hold the outlet to 2 psi if the first fails
    Clause<bool> shutoff_upstream, accessible, vent_outdoors_or_limiter, test_ports;
    Derivation derivation;
    Sources sources;
};
[[nodiscard]] RegulatorRules gas_regulator_rules(Pressure delivery, Pressure appliance_greatest);

struct GasTest {
    Pressure pressure{};
    Time duration{};
    Pressure gauge_range{};          ///< greatest reading of the gauge used
    bool hoop_stress_limit = false;  ///< above 125 psi the pipe's stress must be checked
    bool purge_outdoors = false;     ///< inert gas first, discharge outdoors
};
/// Pressure test of new gas piping, and how it is purged. `runs` are the lengths of each nominal size, for the purge
/// rule; `volume` is the pipe's inside volume. Fails on a volume or working pressure that is not positive.
/// Source: IFGC 2018 406.4, 406.7.
struct PurgeRun {
    Nominal size;
    Length length{};
};
[[nodiscard]] Result<Ruled<GasTest>> gas_test(Pressure working, Volume volume, const std::vector<PurgeRun>& runs = {});

/// Length of a nominal size beyond which purging is outdoors after inert gas; nullopt below 2-1/2 in; zero: any length.
[[nodiscard]] std::optional<Clause<Length>> gas_purge_length(Nominal size);

[[nodiscard]] Clause<bool> gas_sediment_trap();       ///< 408.4
[[nodiscard]] Clause<bool> gas_appliance_shutoff();   ///< 409.5, same room, within 6 ft, upstream of union or connector
[[nodiscard]] Clause<Length> gas_shutoff_distance();  ///< 409.5.1: 6 ft
[[nodiscard]] Clause<bool> gas_union();               ///< 409.5: union or listed connector downstream of the valve
[[nodiscard]] Clause<bool> gas_bonding();             ///< 310.1
[[nodiscard]] Clause<bool> gas_connector();           ///< 411: listed connector, as long as needed, not through walls
/// Greatest connector length, 411.1.3.1.
[[nodiscard]] Clause<Length> gas_connector_length();
/// Drop allowed in low-pressure pipe behind a line regulator: half an inch of water (common practice, no source).
inline constexpr Pressure drop_behind_regulator = 0.5 * inch_water;
/// Support spacing of horizontal steel gas pipe. Source: IFGC 2018 Table 415.1.
[[nodiscard]] Clause<Length> gas_support_spacing(Nominal size);
/// Support spacing of horizontal smooth-wall copper tube; size is nominal inside, the table goes by outside diameter.
[[nodiscard]] Clause<Length> gas_tubing_support_spacing(Nominal size);

}  // namespace bw::code
