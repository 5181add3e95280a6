// SPDX-License-Identifier: MIT
#pragma once
// Nominal pipe and tube sizes ("1-1/4"), names rather than measures: a 2 in pipe is nowhere 2 inches.

#include <compare>
#include <string>
#include <string_view>

#include "units/error.h"

namespace bw::units {

struct Nominal {
    int eighths = 0;  ///< nominal inches times eight: 3/4 is 6, 1-1/4 is 10
    auto operator<=>(const Nominal&) const = default;
};

/// "1-1/4" or "1-1/4 in"; fails on anything that is not a positive multiple of 1/8.
[[nodiscard]] Result<Nominal> parse_nominal(std::string_view text);
/// "1-1/4", without a unit.
[[nodiscard]] std::string print(Nominal size);

}  // namespace bw::units
