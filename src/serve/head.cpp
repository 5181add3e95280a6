// SPDX-License-Identifier: MIT
#include "serve/head.h"

#include <algorithm>
#include <array>
#include <map>

namespace bw::serve {
namespace {

constexpr std::size_t most_fields = 100;

Answer not_understood(const std::string& expected) { return refusal(400, "the request is not understood", expected); }

char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; }
bool digit(char c) { return c >= '0' && c <= '9'; }

/// RFC 9110, 5.6.2.
bool token(std::string_view text) {
    constexpr std::string_view marks = "!#$%&'*+-.^_`|~";
    return !text.empty() && std::all_of(text.begin(), text.end(), [&](char c) {
        return digit(c) || (small(c) >= 'a' && small(c) <= 'z') || marks.find(c) != std::string_view::npos;
    });
}

/// Takes the next line off, without its end.
std::string_view line_of(std::string_view& rest) {
    const auto line = rest.substr(0, rest.find("\r\n"));
    rest.remove_prefix(std::min(line.size() + 2, rest.size()));
    return line;
}

std::string_view trimmed(std::string_view value) {
    const auto first = value.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return value.substr(first, value.find_last_not_of(" \t") - first + 1);
}

std::optional<Answer> bad_first(std::string_view line, bool& is_1_1) {
    const auto method = line.substr(0, line.find(' '));
    const auto rest = line.substr(std::min(method.size() + 1, line.size()));
    const auto target = rest.substr(0, rest.find(' '));
    const auto version = rest.substr(std::min(target.size() + 1, rest.size()));
    if (!token(method) || target.empty()) return not_understood("a method, an address and HTTP/1.1, one blank between");
    if (target.size() > longest_target) return refusal(414, "the address is too long");
    if (version != "HTTP/1.1" && version != "HTTP/1.0")
        return version.starts_with("HTTP/") && version.size() == 8
                   ? refusal(505, "this version of HTTP is not spoken here", "HTTP/1.1")
                   : not_understood("a method, an address and HTTP/1.1, one blank between");
    if (std::any_of(target.begin(), target.end(), [](char c) { return static_cast<unsigned char>(c) <= 0x20; }))
        return not_understood("an address without blanks");
    is_1_1 = version == "HTTP/1.1";
    return std::nullopt;
}

/// How long a body is must be said once, and in one way (RFC 9112, 6.1 to 6.3).
std::optional<Answer> bad_measure(const std::map<std::string, std::string_view>& once, bool is_1_1) {
    const auto length = once.find("content-length"), encoding = once.find("transfer-encoding");
    if (length != once.end() && encoding != once.end()) return not_understood("a length or chunks, not both");
    if (length != once.end()) {
        const auto value = length->second;
        const bool plain = !value.empty() && value.size() < 19 && std::all_of(value.begin(), value.end(), digit);
        if (!plain || (value.front() == '0' && value.size() > 1)) return not_understood("a length in plain digits");
    }
    if (encoding != once.end()) {
        std::string value(encoding->second);
        std::transform(value.begin(), value.end(), value.begin(), small);
        if (value != "chunked" || !is_1_1) return not_understood("a body of a known length, or in chunks by HTTP/1.1");
    }
    return std::nullopt;
}

}  // namespace

std::optional<Answer> malformed_so_far(std::string_view begin, std::size_t seen) {
    if (begin.size() > longest_head) return refusal(431, "the request's head is too long");
    const auto first = begin.substr(0, begin.find("\r\n"));
    if (std::count(first.begin(), first.end(), ' ') < 2 && first.size() > longest_target + 32)
        return refusal(414, "the address is too long");
    for (std::size_t at = seen == 0 ? 0 : seen - 1; at < begin.size(); ++at) {
        const auto c = static_cast<unsigned char>(begin[at]);
        const bool pair = c == '\r' && (at + 1 == begin.size() || begin[at + 1] == '\n');
        const bool end = c == '\n' && at > 0 && begin[at - 1] == '\r';
        if ((c < 0x20 && c != '\t' && !pair && !end) || c == 0x7F)
            return not_understood("lines of text, each ended by carriage return and line feed");
    }
    return std::nullopt;
}

std::optional<Answer> malformed(std::string_view head) {
    if (auto no = malformed_so_far(head)) return no;
    bool is_1_1 = false;
    if (auto no = bad_first(line_of(head), is_1_1)) return no;
    constexpr std::array<std::string_view, 8> single{"content-length", "transfer-encoding", "content-type",
                                                     "origin",         "sec-fetch-site",    "expect",
                                                     "range",          "if-none-match"};
    std::map<std::string, std::string_view> once;
    std::size_t fields = 0;
    for (auto line = line_of(head); !line.empty(); line = line_of(head)) {
        if (++fields > most_fields) return refusal(431, "the request has too many headers");
        const auto colon = std::min(line.find(':'), line.size());
        // a line that begins with a blank would carry on the one before; a blank before the colon makes another name
        if (colon == line.size() || !token(line.substr(0, colon)))
            return not_understood("headers of a name, a colon and a value, each on one line");
        std::string name(line.substr(0, colon));
        std::transform(name.begin(), name.end(), name.begin(), small);
        const bool counted = std::find(single.begin(), single.end(), name) != single.end();
        if (counted && !once.emplace(name, trimmed(line.substr(colon + 1))).second)
            return not_understood("the header " + name + " once");
    }
    return bad_measure(once, is_1_1);
}

}  // namespace bw::serve
