// SPDX-License-Identifier: MIT
#pragma once
// What gas loses in the things it passes: straight pipe the code counts them as, else velocity heads.

#include "network/service_tree.h"

namespace bw::network {

struct GasFitting {
    units::Length as_pipe{};    ///< by the code's list, of the bore it stands in
    double velocity_heads = 0;  ///< of what the list does not name, by the catalogue
};
/// Nothing for pipe itself and for an end.
[[nodiscard]] GasFitting gas_fitting(const plant::Piece& piece, const Traversal& passage, units::Length bore);

/// K rho v^2 / 2 at the code's base density.
[[nodiscard]] units::Pressure lost_by_heads(double velocity_heads, double specific_gravity, units::Length bore,
                                            units::VolumeFlow flow);

}  // namespace bw::network
