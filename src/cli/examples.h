// SPDX-License-Identifier: MIT
#pragma once

#include <span>

#include "text/embedded.h"

namespace bw::cli {

/// The surveys of examples/.
[[nodiscard]] std::span<const text::EmbeddedFile> embedded_examples();
/// The page of web/, packed.
[[nodiscard]] std::span<const text::EmbeddedFile> embedded_page();

}  // namespace bw::cli
