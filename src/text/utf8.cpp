// SPDX-License-Identifier: MIT
#include "text/utf8.h"

#include <fmt/format.h>

#include "units/printable.h"

namespace bw::text {

std::optional<std::size_t> first_bad_byte(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto character = units::first_character(text.substr(at));
        if (!character) return at;
        at += character->size;
    }
    return std::nullopt;
}

Result<void> judge_line(std::string_view text, const Place& place) {
    const auto control = units::first_control(text);
    if (!control) return {};
    return fail(fmt::format("holds the control character U+{:04X}", static_cast<unsigned>(*control)),
                "a text on one line, without control characters", place);
}

LineColumn line_column(std::string_view text, std::size_t offset) {
    LineColumn place;
    for (const char c : text.substr(0, offset)) {
        if (c == '\n') {
            ++place.line;
            place.column = 1;
        } else if ((static_cast<unsigned char>(c) & 0xc0) != 0x80) {
            ++place.column;
        }
    }
    return place;
}

}  // namespace bw::text
