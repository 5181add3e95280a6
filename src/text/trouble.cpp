// SPDX-License-Identifier: MIT
#include "text/trouble.h"

#include <fmt/format.h>

namespace bw::text {
namespace {

/// Past the text in quotes that begins at a byte.
std::size_t past_quotes(std::string_view text, std::size_t at) {
    const char c = text[at];
    const std::string_view three = text.substr(at, 3);
    const bool long_form = three.size() == 3 && three[1] == c && three[2] == c;
    const std::string_view quote = long_form ? three : three.substr(0, 1);
    at += quote.size();
    while (at < text.size() && text.substr(at, quote.size()) != quote && (long_form || text[at] != '\n'))
        at += c == '"' && text[at] == '\\' ? 2 : 1;
    at += quote.size();
    // a long text may end in two quotes of its own
    for (int own = 0; long_form && own < 2 && at < text.size() && text[at] == c; ++own) ++at;
    return at;
}

/// Whether a name or value may begin behind this, spaces aside.
bool begins_behind(char c) { return std::string_view("\n=[,{.").find(c) != std::string_view::npos; }

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

}  // namespace

Trouble nested_too_deeply(std::size_t at) {
    return {at, "nested too deeply", fmt::format("at most {} levels", deepest)};
}

std::optional<Trouble> first_trouble(std::string_view text) {
    int depth = 0, dots = 0;
    char before = '\n';  // what is neither space nor comment
    for (std::size_t i = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0; i < text.size();) {
        const char c = text[i];
        if (c == '#') {
            i = text.find('\n', i);
            if (i == std::string_view::npos) break;
            continue;
        }
        if (c == '"' || c == '\'') {
            if (!begins_behind(before)) return Trouble{i, "a quote in the midst of something", "a text by itself"};
            i = past_quotes(text, i);
            before = c;
            continue;
        }
        if (c != ' ' && c != '\t' && c != '\r') before = c;
        if (static_cast<unsigned char>(c) >= 0x80)
            return Trouble{i, "a letter beyond ASCII outside of quotes", "such letters in quotes or comments alone"};
        if (c == '.' && ++dots > deepest) return nested_too_deeply(i);
        if (std::string_view("\n=,[]{}").find(c) != std::string_view::npos) dots = 0;
        if ((c == '[' || c == '{') && ++depth > deepest) return nested_too_deeply(i);
        if ((c == ']' || c == '}') && depth > 0) --depth;
        ++i;
    }
    return std::nullopt;
}

}  // namespace bw::text
