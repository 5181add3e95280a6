// SPDX-License-Identifier: MIT
#pragma once
// The two halves of `decide_sizes`.

#include "piping/sizing.h"

namespace bw::piping {

Result<void> size_gas(const Brief& brief, const Builder& bare, const GasLengths& lengths, Sized& sized);
Result<void> size_water(const Brief& brief, const Builder& bare, Sized& sized);

}  // namespace bw::piping
