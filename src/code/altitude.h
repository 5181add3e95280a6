// SPDX-License-Identifier: MIT
#pragma once
// Input left at altitude.

#include <optional>

#include "code/clause.h"

namespace bw::code {

/// Share of the sea-level input. The code's: 4 % for every 1,000 ft of the whole altitude once above 2,000 ft (5,300 ft
/// loses 21 %). Fails where nothing would be left, or below -2,000 ft. Source: NFPA 54 2018 11.1.2.
[[nodiscard]] Result<Ruled<Ratio>> altitude_factor(Length altitude);
/// A maker's rule: a share for every 1,000 ft above `above`.
[[nodiscard]] Result<Ruled<Ratio>> altitude_factor(Length altitude, double share_per_1000ft, Length above);

}  // namespace bw::code
