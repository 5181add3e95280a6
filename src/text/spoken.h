// SPDX-License-Identifier: MIT
#pragma once
// Materials as the trade says them; `name` gives the words of files.

#include <string_view>

#include "text/vocabulary.h"

namespace bw::text {

/// "type L copper", "schedule 40 steel".
[[nodiscard]] std::string_view spoken(Material material);

}  // namespace bw::text
