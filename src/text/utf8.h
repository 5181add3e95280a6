// SPDX-License-Identifier: MIT
#pragma once
// Where a text stops being UTF-8.

#include <cstddef>
#include <optional>
#include <string_view>

namespace bw::text {

/// Byte offset of the first byte that is not part of well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates,
/// nothing above U+10FFFF); nothing for a good text.
[[nodiscard]] std::optional<std::size_t> first_bad_byte(std::string_view text);

struct LineColumn {
    int line = 1, column = 1;
};
/// Line and column (counted in characters) of a byte offset.
[[nodiscard]] LineColumn line_column(std::string_view text, std::size_t offset);

}  // namespace bw::text
