// SPDX-License-Identifier: MIT
#pragma once
// A room under a low ceiling: the least ceiling under which a plant was tried and stands.

#include <string>
#include <vector>

#include "design/design.h"

namespace bw::design {

/// What binds in a room where no plant could be built, where that is its ceiling: a sentence with the least ceiling, of
/// a few tried, under which a plant without a failing check stands; empty where the ceiling is not low or no such
/// ceiling was found. Holes in the ceiling rise with it, all else stays. Slow: whole searches.
[[nodiscard]] std::string low_ceiling(const Result& none, const catalogue::Catalogue& catalogue,
                                      const std::vector<demand::Capacity>& capacities, const Effort& effort);

}  // namespace bw::design
