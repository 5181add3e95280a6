// SPDX-License-Identifier: MIT
#pragma once
// Times of the day as they are written: "06:00-07:30, 22:00-01:00".

#include <string_view>
#include <vector>

#include "survey/survey.h"

namespace bw::survey {

/// Fails on anything that is not a list of times of the day, on an empty stretch and on two that overlap.
[[nodiscard]] Result<std::vector<Hours>> hours_of(std::string_view text);

}  // namespace bw::survey
