// SPDX-License-Identifier: MIT
#pragma once
// The nominal sizes a plant is laid in.

#include <vector>

#include "text/vocabulary.h"
#include "units/nominal.h"

namespace bw::piping {

struct BankSizes {
    units::Nominal gas, cold, hot;  ///< headers and what feeds them alone
    auto operator<=>(const BankSizes&) const = default;
};

struct Sizes {
    units::Nominal gas_main, cold_main, hot_main, recirculation;
    units::Nominal gas_branch, water_branch;  ///< from a header to a heater
    units::Nominal gas_service;               ///< upstream of the regulator; gas_main where there is none
    std::vector<BankSizes> banks;             ///< by bank number - 1
    bool operator==(const Sizes&) const = default;
};

}  // namespace bw::piping
