// SPDX-License-Identifier: MIT
#pragma once
// Candidates: every way the heaters stand in this room, and what is short where they do not.

#include "catalogue/catalogue.h"
#include "plant/layout.h"
#include "survey/survey.h"

namespace bw::layout {

/// All arrangements of `count` heaters of one model that fit the room, honouring walls, door swings, obstacles, working
/// space, ceiling and vents above; and the shortfall of each that does not. Never fails: no fit is an empty list with
/// at least one shortfall. Deterministic order.
[[nodiscard]] plant::Layouts candidates(const survey::Survey& survey, const catalogue::Heater& heater, int count);

}  // namespace bw::layout
