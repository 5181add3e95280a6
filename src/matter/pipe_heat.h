// SPDX-License-Identifier: MIT
#pragma once
// Heat a horizontal pipe, bare or insulated, gives to still air in a room.

#include "reason/reason.h"
#include "text/vocabulary.h"
#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

using namespace bw::units;  // NOLINT

enum class Insulation { none, mineral_fibre, elastomeric };
[[nodiscard]] const char* name(Insulation insulation);

/// W/(m K) at the insulation's mean temperature, by a straight line. Mineral fibre: 0.23 Btu in/(h ft2 degF) at 75
/// degF, 0.29 at 200 (ASTM C547, from memory); elastomeric: 0.25 at 75, 0.28 at 150 (ASTM C534, from memory). Fails for
/// none.
[[nodiscard]] Result<double> conductivity(Insulation insulation, Temperature mean);
/// W/(m K): copper 390, carbon steel 50, stainless 15, CPVC 0.137. From memory; only the plastic's counts.
[[nodiscard]] double wall_conductivity(text::Material material);
/// Of the outside: 0.9 for insulation's jackets, steel and plastic, 0.6 for copper that has tarnished. Common practice.
[[nodiscard]] Ratio emissivity(text::Material material, Insulation insulation);

struct PipeHeat {
    Power loss{};             ///< over the length
    double per_metre = 0;     ///< W/m
    double convection = 0;    ///< W/(m2 K) at the outside
    double radiation = 0;     ///< W/(m2 K)
    double conductivity = 0;  ///< of the insulation at its mean temperature, W/(m K); 0 where there is none
    Temperature surface{};    ///< outside
};

struct Pipework {
    text::Material material{};
    Length outside{}, inside{};
    Insulation insulation{};
    Length thickness{};  ///< zero where there is no insulation
    Ratio emissivity = 0.9;
};

/// The fluid's own film is left out: the pipe's inside is as warm as the fluid, which is near enough for flowing water.
/// Outside, natural convection from a horizontal cylinder and radiation to walls as warm as the air. Range: fluid 0 to
/// 200 degC, warmer than the air; air from -20 to 60 degC; else refused.
/// Source: Churchill and Chu 1975 (convection); ASTM C680 (the balance); both from memory.
[[nodiscard]] Result<PipeHeat> pipe_heat(const Pipework& pipe, Temperature fluid, Temperature air, Length length);

[[nodiscard]] reason::Sources pipe_heat_sources();

}  // namespace bw::matter
