// SPDX-License-Identifier: MIT
#pragma once
// Quantities as the trade writes them.

#include <string_view>

#include "units/amount.h"
#include "units/error.h"

namespace bw::units {

/// Reads `1-1/4 in`, `6 ft 3-1/2 in`, `6'3-1/2"`, `0.5 psi`, `7 inH2O`, `199 kBtu/h`, `42 degF`, `96`, `15 %`, US or SI.
/// A number without a unit is accepted only for kinds that have none. NaN, infinity and trailing text are refused.
/// Fails with the units that would have been understood for this kind.
[[nodiscard]] Result<Amount> parse(std::string_view text, Kind kind);

/// What such a quantity looks like: "a length (in, ft, mm, cm or m)".
[[nodiscard]] std::string expected_of(Kind kind);

[[nodiscard]] Result<Length> parse_length(std::string_view text);

}  // namespace bw::units
