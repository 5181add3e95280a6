// SPDX-License-Identifier: MIT
#include "model/part21.h"

#include <cmath>

#include "units/printable.h"

namespace bw::model {
namespace {

/// Adds characters as the file may hold them: ASCII as `ascii` puts it, the rest as hexadecimals.
template <class Ascii>
void encode(std::string& out, std::string_view utf8, Ascii ascii) {
    while (!utf8.empty()) {
        const auto character = units::first_character(utf8);
        utf8.remove_prefix(character ? character->size : 1);
        const char32_t c = character ? character->code : '?';
        if (c < 0x80 && ascii(static_cast<char>(c))) continue;
        out += c < 0x10000 ? fmt::format("\\X2\\{:04X}\\X0\\", static_cast<unsigned>(c))
                           : fmt::format("\\X4\\{:08X}\\X0\\", static_cast<unsigned>(c));
    }
}

/// What strings may hold as it is: ISO 10303-21's basic alphabet.
bool is_graphic(char c) { return c >= 0x20 && c < 0x7F; }

}  // namespace

std::string quoted21(std::string_view utf8) {
    std::string out = "'";
    encode(out, utf8, [&](char c) {
        if (c == '\'' || c == '\\') out += c;
        if (is_graphic(c)) out += c;
        return is_graphic(c);
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
    within = false;
    encode(out, whole, [&](char c) {
        if (c == '\'') within = !within;
        if (within && !is_graphic(c)) return false;
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
