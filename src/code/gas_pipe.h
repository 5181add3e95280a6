// SPDX-License-Identifier: MIT
#pragma once
// The fuel gas code's two pipe equations. IFGC 2018 402.4 is NFPA 54 2018 6.4.

#include "code/clause.h"

namespace bw::code {

/// Air at 60 degF and one atmosphere, the gas code's base: 0.0764 lb/ft3, from memory.
inline constexpr units::Density gas_base_air = units::Density::from_value(1.2238);

/// What enters a length of gas pipe.
struct GasFeed {
    Gas gas = Gas::natural;
    Ratio specific_gravity = 0.60;  ///< of air; the code's tables take 0.60 natural and 1.50 propane
    Pressure inlet{};               ///< gauge, at the upstream end
};

enum class GasEquation { low_pressure, high_pressure };

/// Cr and Y of the equations, at the code's specific gravity for the gas.
struct GasConstants {
    Ratio specific_gravity = 0;  ///< 0.60 natural, 1.50 propane
    double cr = 0, y = 0;
    Source source;
};
[[nodiscard]] GasConstants gas_constants(Gas gas);

/// Low below 1.5 psi, high from 1.5 psi. Source: IFGC 2018 402.4.1, 402.4.2.
[[nodiscard]] GasEquation gas_equation(Pressure inlet);

/// Capacity for another specific gravity over that at the code's own: sqrt(code's / given). Refused outside 0.35 to
/// 2.10, where the code's list ends. Source: IFGC 2018 Table A.2.4.
[[nodiscard]] Result<Ruled<Ratio>> specific_gravity_multiplier(Gas gas, Ratio specific_gravity);

/// Whether a pipe material may carry fuel gas, with its clause. Refuses cpvc, copper-m, vent plastics; copper K and L
/// unless the gas holds no more than 0.3 grain of hydrogen sulphide per 100 ft3.
[[nodiscard]] Result<Clause<bool>> gas_material(Material material, bool low_sulphide);

/// Greatest flow through a pipe of one inside diameter for an allowed drop over its whole length.
/// Fails on a length, diameter or drop that is not positive, or a drop that is not below the inlet pressure.
[[nodiscard]] Result<Ruled<VolumeFlow>> gas_capacity(const GasFeed& feed, Pressure drop, Length inside, Length length);

/// Least inside diameter that carries a load within an allowed drop.
[[nodiscard]] Result<Ruled<Length>> gas_diameter(const GasFeed& feed, Pressure drop, VolumeFlow load, Length length);

/// Drop along a pipe at a flow: the same equation solved for it. Fails where the flow needs more than the inlet
/// pressure. `feed.inlet` chooses the equation, so follow a run with one choice: see gas_drop_by.
[[nodiscard]] Result<Ruled<Pressure>> gas_drop(const GasFeed& feed, Length inside, Length length, VolumeFlow flow);

/// As gas_drop with the equation named and no working kept: for walking a network piece by piece.
[[nodiscard]] Result<Pressure> gas_drop_by(GasEquation equation, const GasFeed& feed, Length inside, Length length,
                                           VolumeFlow flow);

}  // namespace bw::code
