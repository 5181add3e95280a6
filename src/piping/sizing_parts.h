// SPDX-License-Identifier: MIT
#pragma once
// The two halves of `decide_sizes`.

#include "piping/sizing.h"

namespace bw::piping {

Result<void> size_gas(Builder& b, const GasLengths& lengths, Sized& sized);
Result<void> size_water(const Builder& b, Sized& sized);

}  // namespace bw::piping
