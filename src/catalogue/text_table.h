// SPDX-License-Identifier: MIT
#pragma once
// A table written as text inside a TOML string: a heading line, then a line a row, cells parted by blanks.

#include <string>
#include <string_view>
#include <vector>

#include "units/error.h"

namespace bw::catalogue {

/// One cell with the place it was read at.
struct Cell {
    std::string_view text;
    int line = 0, column = 0;
};

/// Views into the text they were split from.
struct TextTable {
    std::vector<Cell> heading;
    std::vector<std::vector<Cell>> rows;  ///< each as long as the heading
};

/// Splits a table. `at` is where the string starts in its file: its first line is the one after, as it follows the
/// opening quotes. Empty lines and what follows a `#` are skipped. Fails on no heading, no row, or a row with more or
/// fewer cells than the heading.
[[nodiscard]] Result<TextTable> split_table(std::string_view text, const Place& at);

}  // namespace bw::catalogue
