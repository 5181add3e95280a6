// SPDX-License-Identifier: MIT
#pragma once
// An answer's head as it goes over the wire.

#include <string>
#include <string_view>

#include "serve/answer.h"

namespace bw::serve {

enum class After { keep, close };  ///< what becomes of the connection

/// Status line and headers with the empty line; the body's length is told, whether it is sent or not. `reason`: what
/// the status is called.
[[nodiscard]] std::string head_of(const Answer& answer, std::string_view reason, After after);
/// The same for events, which end with their connection.
[[nodiscard]] std::string head_of_events();

}  // namespace bw::serve
