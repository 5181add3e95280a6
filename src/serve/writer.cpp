// SPDX-License-Identifier: MIT
#include "serve/writer.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace bw::serve {

std::string one_line(const reason::Json& json) {
    return json.dump(-1, ' ', false, reason::Json::error_handler_t::replace);
}

Writer& Writer::text(std::string_view value) {
    comma();
    out_ += '"';
    for (const char c : value) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            out_ += '\\', out_ += c;
        else if (byte < 0x20 || byte == 0x7F)
            fmt::format_to(std::back_inserter(out_), "\\u{:04x}", byte);
        else
            out_ += c;
    }
    out_ += '"';
    return *this;
}

Writer& Writer::whole(std::int64_t value) {
    comma();
    char digits[24];
    out_.append(digits, std::to_chars(digits, digits + sizeof digits, value).ptr);
    return *this;
}

Writer& Writer::place(double metres) {
    comma();
    // sixteenths of an inch lie on the half: what is the same place but for its last bit is written alike
    auto tenths = static_cast<std::int64_t>(std::floor(metres * 1e4 + 0.5 + 1e-6));
    if (tenths < 0) out_ += '-', tenths = -tenths;
    char digits[24];
    out_.append(digits, std::to_chars(digits, digits + sizeof digits, tenths / 10000).ptr);
    if (auto rest = tenths % 10000; rest != 0) {
        char decimals[] = {'.', '0', '0', '0', '0'};
        for (int i = 4; i > 0; --i, rest /= 10) decimals[i] = static_cast<char>('0' + rest % 10);
        std::size_t length = 5;
        while (decimals[length - 1] == '0') --length;
        out_.append(decimals, length);
    }
    return *this;
}

Writer& Writer::number(double value) {
    comma();
    fmt::format_to(std::back_inserter(out_), "{}", reason::rounded(value));
    return *this;
}

}  // namespace bw::serve
