// SPDX-License-Identifier: MIT
#include "serve/request.h"

#include <charconv>

namespace bw::serve {
namespace {

/// Percent-encoding undone (RFC 3986, 2.1); in a query a plus stands for a blank.
std::optional<std::string> decoded(std::string_view text, bool query) {
    std::string out;
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '+' && query) {
            out += ' ';
        } else if (text[at] == '%') {
            unsigned char byte = 0;
            const auto* digits = text.data() + at + 1;
            if (at + 2 >= text.size() || std::from_chars(digits, digits + 2, byte, 16).ptr != digits + 2)
                return std::nullopt;
            out += static_cast<char>(byte);
            at += 2;
        } else {
            out += text[at];
        }
    }
    return out;
}

}  // namespace

bool read_target(std::string_view target, Request& request) {
    const auto mark = target.find('?');
    auto path = decoded(target.substr(0, mark), false);
    if (!path) return false;
    request.path = std::move(*path);
    auto rest = mark == std::string_view::npos ? std::string_view() : target.substr(mark + 1);
    while (!rest.empty()) {
        const auto pair = rest.substr(0, rest.find('&'));
        rest.remove_prefix(std::min(pair.size() + 1, rest.size()));
        const auto equals = std::min(pair.find('='), pair.size());
        auto name = decoded(pair.substr(0, equals), true);
        auto value = decoded(pair.substr(std::min(equals + 1, pair.size())), true);
        if (!name || !value) return false;
        request.query.emplace(std::move(*name), std::move(*value));
    }
    return true;
}

}  // namespace bw::serve
