// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "paper/paper.h"

namespace bw::paper {

namespace {

/// A field as RFC 4180 wants it; a leading = + - @ is kept from being read as a formula by a spreadsheet.
std::string field(std::string text) {
    if (!text.empty() && (text[0] == '=' || text[0] == '+' || text[0] == '-' || text[0] == '@')) text.insert(0, "'");
    if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
    std::string out = "\"";
    for (char c : text) {
        if (c == '"') out += '"';
        out += c;
    }
    return out + "\"";
}

std::string number(const units::Amount& amount, units::System system) {
    return fmt::format("{:.2f}", units::spell(amount, system).value);
}

}  // namespace

std::string parts_csv(const make::Estimate& estimate, units::System system) {
    const auto length_unit = units::spell(units::amount(units::metre, units::Kind::long_length), system).unit;
    const auto mass_unit = units::spell(units::amount(units::kilogram), system).unit;
    std::string out =
        fmt::format("item,title,material,size,service,count,length {0},price USD,labour min,mass {1},source\r\n",
                    length_unit, mass_unit);
    for (const auto& line : estimate.lines) {
        const auto length = units::amount(line.length * units::metre, units::Kind::long_length);
        out += fmt::format("{},{},{},{},{},{},{},{:.2f},{:.1f},{},{}\r\n", field(line.item), field(line.title),
                           field(line.material), field(line.size), field(line.service), line.count,
                           line.length > 0 ? number(length, system) : "", line.price, line.minutes,
                           number(units::amount(line.mass * units::kilogram), system), field(line.source));
    }
    return out;
}

}  // namespace bw::paper
