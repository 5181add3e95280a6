// SPDX-License-Identifier: MIT
#include "catalogue/text_table.h"

#include <fmt/format.h>

namespace bw::catalogue {

namespace {

bool blank(char c) { return c == ' ' || c == '\t' || c == '\r'; }

std::vector<Cell> split_line(std::string_view line, int number) {
    std::vector<Cell> cells;
    line = line.substr(0, line.find('#'));
    for (std::size_t i = 0; i < line.size();) {
        if (blank(line[i])) {
            ++i;
            continue;
        }
        std::size_t end = i;
        while (end < line.size() && !blank(line[end])) ++end;
        cells.push_back({line.substr(i, end - i), number, static_cast<int>(i) + 1});
        i = end;
    }
    return cells;
}

}  // namespace

Result<TextTable> split_table(std::string_view text, const Place& at) {
    TextTable table;
    int number = at.line;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        auto cells = split_line(text.substr(0, end), ++number);
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
        if (cells.empty()) continue;
        if (table.heading.empty()) {
            table.heading = std::move(cells);
        } else if (cells.size() != table.heading.size()) {
            return fail(fmt::format("a row of {} cells under {} headings", cells.size(), table.heading.size()),
                        "as many as headings, '-' for none", {at.file, number, cells.front().column});
        } else {
            table.rows.push_back(std::move(cells));
        }
    }
    if (table.rows.empty()) return fail("a table without rows", "a line of headings, then a line for each row", at);
    return table;
}

}  // namespace bw::catalogue
