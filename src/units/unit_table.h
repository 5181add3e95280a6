// SPDX-License-Identifier: MIT
#pragma once
// Which units each kind of quantity is read and printed in.

#include <span>
#include <string_view>

#include "units/amount.h"

namespace bw::units {

/// A unit that may be read: value_si = (value + offset) * factor.
struct UnitRead {
    std::string_view spelling;  ///< without blanks, dots, carets and multiplication signs
    double factor = 1;
    double offset = 0;
    bool any_case = false;  ///< US units are often typed in capitals; SI prefixes must not be
};

/// A unit that is printed, and to how many places.
struct UnitPrinted {
    std::string_view label;
    double factor = 1;
    double offset = 0;
    int decimals = 1;
};

struct KindTable {
    std::string_view name;  ///< "a length"
    std::span<const UnitRead> read;
    UnitPrinted us, si;
    bool bare = false;              ///< a number without a unit is understood
    std::string_view choices = {};  ///< "in, ft, mm, cm or m"
};

[[nodiscard]] const KindTable& table_of(Kind kind);

}  // namespace bw::units
