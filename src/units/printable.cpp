// SPDX-License-Identifier: MIT
#include "units/printable.h"

#include <fmt/format.h>

namespace bw::units {

namespace {

bool is_control(char32_t c) {
    return c < 0x20 || (c >= 0x7f && c < 0xa0) || c == 0x2028 || c == 0x2029 || (c >= 0x202a && c <= 0x202e) ||
           (c >= 0x2066 && c <= 0x2069);
}

/// Bytes a character has by its first one, or 0.
std::size_t size_by(unsigned char lead) {
    if (lead < 0x80) return 1;
    if (lead < 0xc2 || lead > 0xf4) return 0;
    return lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
}

std::string escaped(char32_t c) {
    if (c == '\n') return "\\n";
    if (c == '\t') return "\\t";
    return c < 0x100 ? fmt::format("\\x{:02x}", static_cast<unsigned>(c))
                     : fmt::format("\\u{:04x}", static_cast<unsigned>(c));
}

}  // namespace

std::optional<Character> first_character(std::string_view text) {
    if (text.empty()) return std::nullopt;
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    const std::size_t size = size_by(lead);
    if (size == 0 || size > text.size()) return std::nullopt;
    if (size == 1) return Character{lead, 1};
    const unsigned char least = lead == 0xe0 ? 0xa0 : lead == 0xf0 ? 0x90 : 0x80;
    const unsigned char greatest = lead == 0xed ? 0x9f : lead == 0xf4 ? 0x8f : 0xbf;
    if (byte(1) < least || byte(1) > greatest) return std::nullopt;
    char32_t code = lead & (0xffu >> (size + 1));
    for (std::size_t i = 1; i < size; ++i) {
        if ((byte(i) & 0xc0) != 0x80) return std::nullopt;
        code = code << 6 | (byte(i) & 0x3fu);
    }
    return Character{code, size};
}

std::optional<char32_t> first_control(std::string_view text) {
    while (const auto c = first_character(text)) {
        if (is_control(c->code)) return c->code;
        text.remove_prefix(c->size);
    }
    return std::nullopt;
}

std::string printable(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const auto c = first_character(text);
        if (!c)
            out += escaped(static_cast<unsigned char>(text.front()));
        else if (is_control(c->code))
            out += escaped(c->code);
        else
            out += text.substr(0, c->size);
        text.remove_prefix(c ? c->size : 1);
    }
    return out;
}

}  // namespace bw::units
