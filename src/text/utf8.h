// SPDX-License-Identifier: MIT
#pragma once
// Where a text stops being UTF-8, or being a line of plain text.

#include <cstddef>
#include <optional>
#include <string_view>

#include "units/error.h"

namespace bw::text {

/// Byte offset of the first byte that is not part of well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates,
/// nothing above U+10FFFF); nothing for a good text.
[[nodiscard]] std::optional<std::size_t> first_bad_byte(std::string_view text);

/// Refuses, at the place it stands at, a text that holds a character not to be seen (see units::first_control).
[[nodiscard]] Result<void> judge_line(std::string_view text, const Place& place);

struct LineColumn {
    int line = 1, column = 1;
};
/// Line and column (counted in characters) of a byte offset.
[[nodiscard]] LineColumn line_column(std::string_view text, std::size_t offset);

}  // namespace bw::text
