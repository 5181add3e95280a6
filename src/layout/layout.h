// SPDX-License-Identifier: MIT
#pragma once
// Candidates: every way the heaters stand in this room, and what is short where they do not.

#include <optional>
#include <string>

#include "catalogue/catalogue.h"
#include "plant/layout.h"
#include "survey/survey.h"

namespace bw::layout {

/// Arrangements of `count` heaters of one model that fit the room, honouring walls, door swings, obstacles, working
/// space, ceiling and vents above: every wall and combination of walls, one- and two-sided racks, banks in line, round
/// a corner or facing, fed from either end or the middle, at every place worth telling apart. All are weighed by their
/// run of pipe; the `most` worth building first are given, the shortest of each family before the second of any. And
/// the shortfall of each arrangement that does not fit. Never fails: no fit is an empty list with at least one
/// shortfall. Deterministic order.
/// Parts of the catalogue, where given, tell how much height vents take.
/// With `under`, metres, the heaters' bottoms hang no higher than that.
/// With `place`, a family or one layout's id, only that, or why it does not fit; without, the survey's own preference
/// counts.
[[nodiscard]] plant::Layouts candidates(const survey::Survey& survey, const catalogue::Heater& heater, int count,
                                        std::size_t most = 24, const std::string& place = {},
                                        const catalogue::Catalogue* parts = nullptr,
                                        std::optional<double> under = std::nullopt);

}  // namespace bw::layout
