// SPDX-License-Identifier: MIT
#pragma once
// Liquid water from 0 to 100 degC, and where water vapour condenses.

#include "reason/reason.h"
#include "units/constants.h"
#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

using namespace bw::units;  // NOLINT: quantity names are the language of this header

inline constexpr Pressure one_atmosphere = Pressure::from_value(units::atmosphere_pascal);

struct Water {
    Density density{};
    Viscosity viscosity{};         ///< dynamic
    SpecificHeat heat_capacity{};  ///< at constant pressure
    Pressure vapour_pressure{};    ///< absolute
};

/// Liquid water at a temperature and absolute pressure. Range 0 to 100 degC and up to 100 MPa, else refused; a pressure
/// below the vapour pressure is taken as the vapour pressure, so boiling water at one atmosphere is answered.
/// Source: IAPWS R7-97(2012), equation 7 (region 1) and 30 (saturation); IAPWS R12-08 (viscosity, without the critical
/// enhancement, which is nothing here).
[[nodiscard]] Result<Water> water(Temperature temperature, Pressure absolute = one_atmosphere);

/// Vapour pressure, absolute, 0 to 100 degC. Source: IAPWS R7-97(2012), equation 30.
[[nodiscard]] Result<Pressure> vapour_pressure(Temperature temperature);
/// The temperature at which water condenses from vapour of that partial pressure; fails outside 0 to 100 degC.
/// Source: IAPWS R7-97(2012), equation 31.
[[nodiscard]] Result<Temperature> condensing_temperature(Pressure partial);

/// Heat to warm a flow of water, by the heat capacity at the mean of the two temperatures. The flow is
/// measured at the hot end, as a tap is. Fails outside 0 to 100 degC or where `hot` is not above `cold`.
[[nodiscard]] Result<Power> heat_to_warm(VolumeFlow flow, Temperature cold, Temperature hot);

[[nodiscard]] reason::Sources water_sources();

}  // namespace bw::matter
