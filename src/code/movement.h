// SPDX-License-Identifier: MIT
#pragma once
// How much pipe grows when it warms, and the leg that bends to let it.

#include "code/clause.h"

namespace bw::code {

/// What a pipe material does when it warms and bends.
struct Movement {
    double expansion = 0;  ///< metres a metre a kelvin
    Pressure modulus{};    ///< of elasticity, at the temperature of hot water
    Pressure bending{};    ///< stress that a leg may bend to
};
/// Copper: Copper Tube Handbook. Steel: ASME B31.9 values rounded. CPVC: the makers' common tables. All from memory.
/// Fails for materials that carry no hot water here.
[[nodiscard]] Result<Clause<Movement>> movement(Material material);

/// Growth of a straight length. L = length, alpha = expansion, dT = rise.
[[nodiscard]] Length growth(const Movement& pipe, Length length, TemperatureDifference rise);

/// Leg square to the growth that bends no harder than allowed, guided at its far end: l = sqrt(3 E D d / S), with D the
/// outside diameter and d the movement it takes.
[[nodiscard]] Length cantilever_leg(const Movement& pipe, Length outside, Length taken);

/// Most a leg can take: d = S l^2 / (3 E D).
[[nodiscard]] Length cantilever_takes(const Movement& pipe, Length outside, Length leg);

}  // namespace bw::code
