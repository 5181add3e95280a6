// SPDX-License-Identifier: MIT
#pragma once
// Laws of round pipes in the potentials that fluids are solved by. All values SI.

#include "flow/law.h"

namespace bw::flow {

/// A straight run and what stands in it.
struct Stretch {
    double length = 0;     ///< m
    double bore = 0;       ///< m
    double roughness = 0;  ///< m
    double local = 0;      ///< velocity heads lost in fittings
};

/// Head in m, flow in m3/s; kinematic viscosity in m2/s.
[[nodiscard]] Pipe by_head(const Stretch& run, double viscosity, Friction form = Friction::colebrook);
/// Pressure in Pa, flow in m3/s; density in kg/m3, dynamic viscosity in Pa s.
[[nodiscard]] Pipe by_pressure(const Stretch& run, double density, double viscosity);
/// Pressure in Pa, flow in kg/s, for a gas whose density hardly changes along the run.
[[nodiscard]] Pipe by_mass(const Stretch& run, double density, double viscosity);
/// Squared absolute pressure in Pa2, flow in kg/s: isothermal flow of a gas, p1^2 - p2^2 = Z R T G^2 (f L/D + K) with G
/// the flow an area. `zrt` is Z R T in J/kg. Left out is 2 ln(p1/p2) beside f L/D, the gas's own acceleration: below
/// 1 % of the drop while the run is longer than 200 ln(p1/p2)/f bores.
[[nodiscard]] Pipe by_squared_pressure(const Stretch& run, double zrt, double viscosity);

/// A local loss alone, in the same three potentials; linear below a Reynolds number of 1.
[[nodiscard]] Power local_by_head(double bore, double local, double viscosity);
[[nodiscard]] Power local_by_pressure(double bore, double local, double density, double viscosity);
[[nodiscard]] Power local_by_mass(double bore, double local, double density, double viscosity);
[[nodiscard]] Power local_by_squared_pressure(double bore, double local, double zrt, double viscosity);

/// Hazen-Williams by head in m and m3/s: h = 10.667 L Q^1.852 / (C^1.852 D^4.871), linear below 0.01 mm/s.
[[nodiscard]] Power hazen_williams(double length, double bore, double c);

/// Pressure in Pa that a column of one density gains by rising through another's: (outside - inside) g rise. A link's
/// gain. Densities in kg/m3, rise in m.
[[nodiscard]] double buoyancy(double outside, double inside, double rise);
/// Density in kg/m3 of an ideal gas: p / (R T), R in J/(kg K), T in K.
[[nodiscard]] double gas_density(double pressure, double gas_constant, double temperature);

}  // namespace bw::flow
