// SPDX-License-Identifier: MIT
#pragma once
// Names of pieces as one says them.

#include <string>
#include <string_view>

namespace bw::plant {

/// "main.gas.regulator" -> "the regulator of the gas main", "heater-3.gas.valve" -> "heater 3's gas valve",
/// "bank-1.hot.header.tee-2" -> "tee 2 of bank 1's hot header". Also of what is no piece but the beginning of its id:
/// "main.hot" -> "the hot main", "bank-1.cold-branch" -> "bank 1's cold branches".
[[nodiscard]] std::string in_words(std::string_view id);

}  // namespace bw::plant
