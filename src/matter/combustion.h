// SPDX-License-Identifier: MIT
#pragma once
// What burning a gas takes in and gives off, by stoichiometry with dry combustion air of 21 % oxygen.

#include "matter/fuel.h"
#include "matter/water.h"
#include "reason/reason.h"
#include "units/error.h"

namespace bw::matter {

/// Volumes are per volume of fuel, all at one temperature and pressure.
struct Combustion {
    Ratio air = 0;             ///< dry air taken in
    Ratio flue_gas = 0;        ///< wet, nothing condensed yet
    Ratio water_vapour = 0;    ///< made, whole
    Ratio co2_dry = 0;         ///< share of the dry flue gas (0.1173 is 11.73 %)
    Ratio oxygen_dry = 0;      ///< share of the dry flue gas
    Temperature dew_point{};   ///< of the flue gas
    Ratio water_per_fuel = 0;  ///< mass of water made per mass of fuel, whole
    reason::Derivation derivation;
    reason::Sources sources;
};

/// `excess_air` is a ratio (0.25 is 25 %), 0 to 5. Complete combustion; natural gas as methane. `absolute` is the air
/// pressure at the flue, 50 to 120 kPa: the dew point falls with altitude.
[[nodiscard]] Result<Combustion> combustion(Gas gas, Ratio excess_air, Pressure absolute = one_atmosphere);

/// Share of the water made that condenses when flue gas leaves saturated at `leaving`: nothing at or above the dew
/// point. A real heater's flue gas leaves warmer than its return water, so return water gives the most there can be.
[[nodiscard]] Result<Ratio> condensed_share(Gas gas, Ratio excess_air, Temperature leaving,
                                            Pressure absolute = one_atmosphere);

struct Condensate {
    MassFlow mass{};
    VolumeFlow flow{};
    Ratio share = 0;  ///< of the water made
    reason::Derivation derivation;
    reason::Sources sources;
};
/// Condensate of a heat input, with flue gas leaving saturated at `leaving`. `higher` is the gas's heating value.
[[nodiscard]] Result<Condensate> condensate(Gas gas, Power input, HeatingValue higher, Ratio excess_air,
                                            Temperature leaving, Pressure absolute = one_atmosphere);

}  // namespace bw::matter
