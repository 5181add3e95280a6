// SPDX-License-Identifier: MIT
#pragma once
// The nominal sizes a plant is laid in.

#include <utility>
#include <vector>

#include "text/vocabulary.h"
#include "units/nominal.h"

namespace bw::piping {

/// Headers by length, from the feed end; what feeds a header alone has its first length's size.
struct BankSizes {
    std::vector<units::Nominal> gas, cold, hot;
    bool operator==(const BankSizes&) const = default;

    [[nodiscard]] const std::vector<units::Nominal>& of(text::Service service) const {
        return service == text::Service::gas ? gas : service == text::Service::hot ? hot : cold;
    }
    [[nodiscard]] std::vector<units::Nominal>& of(text::Service service) {
        return const_cast<std::vector<units::Nominal>&>(std::as_const(*this).of(service));
    }
};

struct Sizes {
    units::Nominal gas_main, cold_main, hot_main, recirculation;
    units::Nominal gas_branch, water_branch;  ///< from a header to a heater
    units::Nominal gas_service;               ///< upstream of regulators, where gas_main is what is behind one
    std::vector<BankSizes> banks;             ///< by bank number - 1
    bool operator==(const Sizes&) const = default;
};

}  // namespace bw::piping
