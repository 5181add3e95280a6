// SPDX-License-Identifier: MIT
#pragma once
// Characters of UTF-8 texts, and which of them may be shown.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace bw::units {

struct Character {
    char32_t code = 0;
    std::size_t size = 1;  ///< bytes
};

/// The character a text begins with; nothing where it is empty or its first bytes are not well-formed UTF-8 (RFC 3629: no
/// overlong forms, no surrogates, nothing above U+10FFFF).
[[nodiscard]] std::optional<Character> first_character(std::string_view text);

/// The first character that steers a screen or turns the order of writing instead of being seen: C0, DEL and C1 (ISO/IEC
/// 6429), line and paragraph separators, and the embeddings, overrides and isolates of Unicode Standard Annex 9.
[[nodiscard]] std::optional<char32_t> first_control(std::string_view text);

/// The text on one line that may be shown on any screen: such characters, and bytes that are not UTF-8, as "\n", "\x1b"
/// or "\u202e".
[[nodiscard]] std::string printable(std::string_view text);

}  // namespace bw::units
