// SPDX-License-Identifier: MIT
#include "network/gas_loss.h"

#include <cmath>

#include "code/gas_pipe.h"
#include "code/gas_tables.h"
#include "units/constants.h"

namespace bw::network {

GasFitting gas_fitting(const plant::Piece& piece, const Traversal& passage, units::Length bore) {
    using text::Part;
    if (piece.part == Part::pipe || piece.part == Part::nipple || passage.in < 0 || passage.out < 0) return {};
    const double diameters = code::gas_equivalent_diameters(piece.part, straight_on(piece, passage));
    if (diameters > 0) return {diameters * bore, 0};
    return {{}, velocity_heads(piece, passage)};
}

units::Pressure lost_by_heads(double velocity_heads, double specific_gravity, units::Length bore,
                              units::VolumeFlow flow) {
    const units::Velocity speed = flow / (0.25 * units::pi * bore * bore);
    return 0.5 * velocity_heads * specific_gravity * code::gas_base_air * speed * speed;
}

}  // namespace bw::network
