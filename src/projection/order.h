// SPDX-License-Identifier: MIT
#pragma once
// In which order solids are painted so that each covers what lies behind it.

#include "projection/field.h"

namespace bw::projection {

/// Items of `shown` from the farthest on. Exact for solids whose bounds do not overlap; those that do follow the depth
/// of their middles, as do rings of three and more that cover one another in turn.
[[nodiscard]] std::vector<int> painted(const std::vector<Item>& items, const std::vector<bool>& shown,
                                       const Field& field, const Eye& eye);

}  // namespace bw::projection
