// SPDX-License-Identifier: MIT
#include "text/utf8.h"

namespace bw::text {

namespace {

/// Length of the well-formed character at `at`, or 0.
std::size_t character_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(at);
    if (lead < 0x80) return 1;
    std::size_t length = 0;
    unsigned char least = 0x80, greatest = 0xbf;  // of the second byte
    if (lead >= 0xc2 && lead <= 0xdf)
        length = 2;
    else if (lead >= 0xe0 && lead <= 0xef)
        length = 3;
    else if (lead >= 0xf0 && lead <= 0xf4)
        length = 4;
    else
        return 0;
    if (lead == 0xe0) least = 0xa0;
    if (lead == 0xed) greatest = 0x9f;
    if (lead == 0xf0) least = 0x90;
    if (lead == 0xf4) greatest = 0x8f;
    if (at + length > text.size() || byte(at + 1) < least || byte(at + 1) > greatest) return 0;
    for (std::size_t i = at + 2; i < at + length; ++i) {
        if ((byte(i) & 0xc0) != 0x80) return 0;
    }
    return length;
}

}  // namespace

std::optional<std::size_t> first_bad_byte(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = character_length(text, at);
        if (length == 0) return at;
        at += length;
    }
    return std::nullopt;
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
