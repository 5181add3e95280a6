// SPDX-License-Identifier: MIT
#pragma once
// Layouts of the models built, proved, priced and compared.

#include "design/design.h"

namespace bw::design {

/// Tries layouts of every model (of those that would stand in more linked groups than others need only where no plant
/// of the others passes) and keeps the best plant so far in `result`; goes on to further ones where none passes.
/// False when told to stop.
[[nodiscard]] bool consider(Result& result, const catalogue::Catalogue& catalogue,
                            const std::vector<demand::Capacity>& capacities, const Effort& effort);

/// Builds the one layout of that id or family, and no other.
[[nodiscard]] bw::Result<void> take_only(Result& result, const catalogue::Catalogue& catalogue,
                                         const demand::Capacity& capacity, const std::string& layout, int threads,
                                         piping::PlantCache* before);

}  // namespace bw::design
