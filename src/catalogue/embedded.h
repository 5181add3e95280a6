// SPDX-License-Identifier: MIT
#pragma once
// The catalogue files that travel inside the program; defined by the build from data/*.toml.

#include "text/embedded.h"

namespace bw::catalogue {

/// Every file of data/, in name order.
[[nodiscard]] std::span<const text::EmbeddedFile> embedded();

}  // namespace bw::catalogue
