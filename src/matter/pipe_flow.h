// SPDX-License-Identifier: MIT
#pragma once
// Pressure lost by a liquid in a full round pipe.

#include "matter/water.h"
#include "reason/reason.h"
#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

enum class Regime {
    laminar,     ///< Re up to 2,000: f = 64/Re
    transition,  ///< 2,000 to 4,000: no law holds; f on a straight line between the two, and marked so
    turbulent,   ///< from 4,000: Colebrook
};
[[nodiscard]] const char* name(Regime regime);

struct Friction {
    Ratio factor = 0;  ///< Darcy
    Regime regime{};
};

/// Reynolds number rho v D / mu, never negative.
[[nodiscard]] double reynolds(Density density, Velocity velocity, Length bore, Viscosity viscosity);

/// Darcy friction factor. Range: Re above 0 up to 1e8, relative roughness 0 to 0.05; else refused.
/// Source: Colebrook 1939, solved to convergence.
[[nodiscard]] Result<Friction> darcy_friction(double reynolds, Ratio relative_roughness);

/// What a length of pipe and its fittings take from the flow.
struct PipeDrop {
    Velocity velocity{};
    double reynolds = 0;
    Friction friction;    ///< factor 0 where nothing flows
    Pressure pipe{};      ///< lost in the straight length
    Pressure fittings{};  ///< lost in fittings: K velocity heads
    Pressure drop{};      ///< both; has the sign of the flow
    reason::Sources sources;
};
/// Darcy-Weisbach: dp = (f L/D + K) rho v^2/2. A negative flow gives a negative drop. Fails on a bore of nothing, a
/// negative length or loss, and where `darcy_friction` refuses.
[[nodiscard]] Result<PipeDrop> pipe_drop(VolumeFlow flow, Length bore, Length roughness, Length length,
                                         Ratio fitting_loss, Density density, Viscosity viscosity);
[[nodiscard]] Result<PipeDrop> pipe_drop(VolumeFlow flow, Length bore, Length roughness, Length length,
                                         Ratio fitting_loss, const Water& water);

/// The working of a pipe drop, line by line, for a check or a calculation.
[[nodiscard]] reason::Derivation derive(const PipeDrop& drop, VolumeFlow flow, Length bore, Length roughness,
                                        Length length, Ratio fitting_loss, const Water& water);

}  // namespace bw::matter
