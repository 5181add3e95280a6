// SPDX-License-Identifier: MIT
#pragma once
// A request's head, judged byte by byte before anybody reads it: what two readers might take for two different requests
// is refused.

#include <optional>
#include <string_view>

#include "serve/answer.h"

namespace bw::serve {

inline constexpr std::size_t longest_head = 16u << 10, longest_target = 4u << 10;

/// The refusal of a head as it came, up to its empty line and with it; nothing where it is sound by RFC 9112 (HTTP/1.1,
/// June 2022) and leaves no doubt where the body ends.
[[nodiscard]] std::optional<Answer> malformed(std::string_view head);
/// The same of one that has not come whole, whose first bytes were `seen` before.
[[nodiscard]] std::optional<Answer> malformed_so_far(std::string_view begin, std::size_t seen = 0);

}  // namespace bw::serve
