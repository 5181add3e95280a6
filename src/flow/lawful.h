// SPDX-License-Identifier: MIT
#pragma once
// What a network must be before it can be solved.

#include "flow/network.h"
#include "units/error.h"

namespace bw::flow {

/// Numbers finite, resistances above zero, tables that rise. The error names the link.
[[nodiscard]] Result<void> lawful(const Link& link);
/// Every link, its ends, and the network as a whole. The error names the link or node.
[[nodiscard]] Result<void> lawful(const Network& network);

}  // namespace bw::flow
