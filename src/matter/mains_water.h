// SPDX-License-Identifier: MIT
#pragma once
// How cold the water comes in, from the air above it.

#include "reason/reason.h"
#include "units/error.h"
#include "units/quantity.h"

namespace bw::matter {

using namespace bw::units;  // NOLINT: quantity names are the language of this header

struct MainsClimate {
    Temperature annual_mean{};      ///< of the outdoor air
    TemperatureDifference swing{};  ///< between the warmest and the coldest month's mean air
    bool southern = false;          ///< hemisphere: the year turned by half
};

/// Mains water on a day, 1 to 365. Refused for an annual mean outside 20 to 90 degF or a swing outside 0 to 100 degF,
/// where nobody measured; never below freezing: there the mains would be ice, and 32 degF is given.
/// Source: Burch and Christensen, "Towards development of an algorithm for mains water temperature", NREL, 2007.
[[nodiscard]] Result<Temperature> mains_temperature(const MainsClimate& climate, double day);

struct ColdestDay {
    Temperature temperature{};
    int day = 1;
};
/// The coldest of the year's 365 days.
[[nodiscard]] Result<ColdestDay> coldest_mains(const MainsClimate& climate);

/// The working for one day.
[[nodiscard]] Result<reason::Derivation> mains_derivation(const MainsClimate& climate, double day);
[[nodiscard]] reason::Sources mains_sources();

}  // namespace bw::matter
