// SPDX-License-Identifier: MIT
#pragma once
// The two halves of `decide_sizes`.

#include "piping/size/sizing.h"

namespace bw::piping {

Result<void> size_gas(const SizingInputs& brief, const Builder& bare, const GasLengths& lengths, Sized& sized);
Result<void> size_water(const SizingInputs& brief, const Builder& bare, Sized& sized);

}  // namespace bw::piping
