// SPDX-License-Identifier: MIT
#include "model/part21.h"

#include <cmath>

#include "text/utf8.h"

namespace bw::model {
namespace {

/// One character of good UTF-8; moves past it.
char32_t next_character(std::string_view& text) {
    const auto lead = static_cast<unsigned char>(text.front());
    const std::size_t size = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    char32_t value = size == 1 ? lead : lead & (0xFFu >> (size + 1));
    for (std::size_t i = 1; i < size; ++i) value = value << 6 | (static_cast<unsigned char>(text[i]) & 0x3Fu);
    text.remove_prefix(size);
    return value;
}

/// Adds characters as the file may hold them: ASCII as `ascii` puts it, the rest as hexadecimals.
template <class Ascii>
void encode(std::string& out, std::string_view utf8, Ascii ascii) {
    while (!utf8.empty()) {
        const auto good = text::first_bad_byte(utf8).value_or(utf8.size());
        auto rest = utf8.substr(0, good);
        while (!rest.empty()) {
            const auto c = next_character(rest);
            if (c < 0x80 && ascii(static_cast<char>(c))) continue;
            out += c < 0x10000 ? fmt::format("\\X2\\{:04X}\\X0\\", static_cast<unsigned>(c))
                               : fmt::format("\\X4\\{:08X}\\X0\\", static_cast<unsigned>(c));
        }
        utf8.remove_prefix(good);
        if (!utf8.empty()) out += '?', utf8.remove_prefix(1);
    }
}

}  // namespace

std::string quoted21(std::string_view utf8) {
    std::string out = "'";
    encode(out, utf8, [&](char c) {
        if (c == '\'' || c == '\\') out += c;
        if (c >= 0x20 && c < 0x7F) out += c;
        return c >= 0x20 && c < 0x7F;
    });
    return out + '\'';
}

std::string ascii21(std::string_view file) {
    std::string whole, out;
    whole.reserve(file.size()), out.reserve(file.size());
    bool within = false;
    for (const char c : file) {
        if (c == '\'') within = !within;
        if (!within || c != '\n') whole += c;
    }
    encode(out, whole, [&](char c) {
        out += c;
        return true;
    });
    return out;
}

std::string time_stamp(std::string_view day) {
    constexpr std::string_view form = "dddd-dd-dd";
    if (day.size() != form.size()) return {};
    for (std::size_t i = 0; i < day.size(); ++i)
        if (form[i] == 'd' ? day[i] < '0' || day[i] > '9' : day[i] != form[i]) return {};
    return std::string(day) + "T00:00:00";
}

std::string real(double value) {
    if (std::abs(value) < 1e-12) return "0.";
    auto text = fmt::format("{:.10g}", value);
    const auto exponent = text.find('e');
    const auto mantissa = text.substr(0, exponent);
    auto out = mantissa.find('.') == std::string::npos ? mantissa + '.' : mantissa;
    if (exponent != std::string::npos) out += 'E' + text.substr(exponent + 1);
    return out;
}

std::string list(std::span<const int> instances) {
    std::string out = "(";
    for (const int i : instances) {
        if (out.size() > 1) out += ',';
        out += '#';
        out += std::to_string(i);
    }
    return out + ')';
}

std::string Part21::file(std::string_view schema, std::string_view description, std::string_view name,
                         std::string_view date, std::string_view author) const {
    return fmt::format(
        "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION(({}),'2;1');\n"
        "FILE_NAME({},{},({}),(''),'Bankwright','Bankwright','');\nFILE_SCHEMA(({}));\nENDSEC;\nDATA;\n{}"
        "ENDSEC;\nEND-ISO-10303-21;\n",
        quoted21(description), quoted21(name), quoted21(time_stamp(date)), quoted21(author), quoted21(schema),
        std::string_view(data_.data(), data_.size()));
}

}  // namespace bw::model
