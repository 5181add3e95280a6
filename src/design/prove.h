// SPDX-License-Identifier: MIT
#pragma once
// One layout of one model built, proved and priced.

#include "design/design.h"

namespace bw::design {

/// Where heaters may hang.
enum class Hang {
    as_laid_out,
    lower,  ///< than they are laid out, where their vents want more room under the ceiling
};

/// The error says why it could not be built. Where the loop's pump is found too weak and the catalogue has a stronger
/// one, the plant is laid again with that.
[[nodiscard]] bw::Result<Proved> prove(const survey::Survey& survey, const catalogue::Catalogue& catalogue,
                                       const demand::Demand& demand, const demand::Capacity& capacity,
                                       const plant::Layout& layout, Hang hang, int threads,
                                       piping::PlantCache* before = nullptr);

/// Whether the plant's vents ask for more room under the ceiling.
[[nodiscard]] bool vents_want_room(const Proved& proved);

/// A candidate as far as its layout tells.
[[nodiscard]] Candidate of(const plant::Layout& layout, const demand::Capacity& capacity);
[[nodiscard]] Candidate summary(const Proved& proved);

/// Fewest failures first, then least cost.
[[nodiscard]] bool better(const Proved& a, const Proved& b);

}  // namespace bw::design
