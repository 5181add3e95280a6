// SPDX-License-Identifier: MIT
#pragma once

#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

/// Where racks' posts and rails will stand: behind the heaters of a side, from end to end, to `above` their tops,
/// metres. Lines that are laid before the racks keep off it.
[[nodiscard]] std::vector<KeepOff> rack_rooms(const Builder& b, double above);

}  // namespace bw::piping
