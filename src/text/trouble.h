// SPDX-License-Identifier: MIT
#pragma once
// What the TOML parser must not be given, since it breaks down on it instead of refusing.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace bw::text {

inline constexpr int deepest = 64;  ///< levels that tables and arrays may nest

struct Trouble {
    std::size_t at = 0;  ///< byte
    std::string what, expected;
};

[[nodiscard]] Trouble nested_too_deeply(std::size_t at);

/// The first place where brackets or a dotted key nest too deeply, before the parser recurses into them, or where a
/// letter beyond ASCII stands outside of texts and comments, which TOML 1.0 has no use for.
[[nodiscard]] std::optional<Trouble> first_trouble(std::string_view text);

}  // namespace bw::text
