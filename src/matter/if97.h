// SPDX-License-Identifier: MIT
#pragma once
// The IAPWS industrial formulation, as far as a hot-water plant needs it. Bare SI numbers; ranges are the caller's to
// keep (see water.h).

namespace bw::matter::if97 {

struct Liquid {
    double specific_volume = 0;  ///< m3/kg
    double heat_capacity = 0;    ///< J/(kg K), isobaric
    double enthalpy = 0;         ///< J/kg
};

/// Region 1: 273.15 to 623.15 K, up to 100 MPa. Source: IAPWS R7-97(2012), equation 7 and Table 2.
[[nodiscard]] Liquid liquid(double kelvin, double pascal);
/// Pa. Source: IAPWS R7-97(2012), equation 30 and Table 34.
[[nodiscard]] double saturation_pressure(double kelvin);
/// K. Source: IAPWS R7-97(2012), equation 31.
[[nodiscard]] double saturation_temperature(double pascal);
/// Pa s, without the critical enhancement. Source: IAPWS R12-08, equations 10 to 12 and Tables 1 and 2.
[[nodiscard]] double viscosity(double kelvin, double kilogram_per_cubic_metre);

}  // namespace bw::matter::if97
