// SPDX-License-Identifier: MIT
#pragma once
// Ways of few turns, tried before the search through the whole room is: most routes are one of these.

#include <optional>
#include <vector>

#include "route/clearance_map.h"

namespace bw::route {

/// The cheapest free way of at most five turns out of a fixed set, or nullopt.
[[nodiscard]] std::optional<std::vector<shape::Vec>> simple_route(const ClearanceMap& space, const RouteRequest& ask);

}  // namespace bw::route
