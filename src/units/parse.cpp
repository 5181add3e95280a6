// SPDX-License-Identifier: MIT
#include "units/parse.h"

#include <fmt/format.h>

#include <cmath>

#include "units/number.h"
#include "units/unit_table.h"

namespace bw::units {

namespace {

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_letters(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) { return lower(x) == lower(y); });
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// One spelling for `in. w.c.`, `lb/(ft*s)`, `m³/h`, `°F`, `6′`.
std::string plain_unit(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c != ' ' && c != '\t' && c != '.' && c != '^' && c != '*') out += c;
    }
    replace_all(out, "\u00b2", "2");
    replace_all(out, "\u00b3", "3");
    replace_all(out, "\u00b0", "deg");
    replace_all(out, "\u00b7", "");
    replace_all(out, "\u22c5", "");
    replace_all(out, "\u2082", "2");
    replace_all(out, "\u2032", "'");
    replace_all(out, "\u2033", "\"");
    return out;
}

const UnitRead* find_unit(const KindTable& table, std::string_view spelling) {
    for (const auto& unit : table.read) {
        if (unit.spelling == spelling) return &unit;
    }
    for (const auto& unit : table.read) {
        if (unit.any_case && same_letters(unit.spelling, spelling)) return &unit;
    }
    return nullptr;
}

bool measures_length(Kind kind) {
    return kind == Kind::length || kind == Kind::long_length || kind == Kind::small_length || kind == Kind::altitude;
}

/// `6 ft 3-1/2 in` after the feet: the mark of feet, then inches. Nothing where the text is not so made.
std::optional<double> feet_and_inches(double feet, std::string_view rest) {
    std::string unit;
    for (const std::string_view mark : {"feet", "foot", "ft.", "ft", "'", "\u2032"}) {
        if (rest.substr(0, mark.size()) == mark) {
            rest.remove_prefix(mark.size());
            unit = mark;
            break;
        }
    }
    rest = trimmed(rest);
    if (unit.empty() || rest.empty()) return std::nullopt;
    if (rest.front() == '-') rest.remove_prefix(1);  // 6'-3"
    rest = trimmed(rest);
    if (rest.empty() || rest.front() == '-' || rest.front() == '+') return std::nullopt;
    const auto inches = take_number(rest);
    const std::string mark = plain_unit(rest);
    if (!inches || *inches >= 12 || feet != std::trunc(feet)) return std::nullopt;
    if (mark != "in" && mark != "inch" && mark != "inches" && mark != "\"") return std::nullopt;
    const double sign = std::signbit(feet) ? -1 : 1;
    return feet * 0.3048 + sign * *inches * 0.0254;
}

tl::unexpected<Error> refuse(std::string_view text, Kind kind) {
    return fail(fmt::format("'{}' is not {}", shortened(text), table_of(kind).name), expected_of(kind));
}

}  // namespace

Result<Amount> parse(std::string_view text, Kind kind) {
    const auto& table = table_of(kind);
    std::string_view rest = trimmed(text);
    const bool owed = kind == Kind::money && rest.starts_with("-$");
    const bool dollars = owed || (kind == Kind::money && rest.starts_with('$'));
    if (dollars) rest.remove_prefix(owed ? 2 : 1);
    if (kind == Kind::acidity && rest.starts_with("pH ")) rest.remove_prefix(3);
    const auto value = take_number(rest);
    if (!value || (owed && *value < 0)) return refuse(text, kind);
    rest = trimmed(rest);
    if (measures_length(kind)) {
        if (const auto metres = feet_and_inches(*value, rest)) return Amount{*metres, kind};
    }
    double si = owed ? -*value : *value;
    if (!rest.empty()) {
        const auto* unit = find_unit(table, plain_unit(rest));
        if (unit == nullptr || dollars) return refuse(text, kind);
        si = (*value + unit->offset) * unit->factor;
    } else if (!table.bare) {
        return fail(fmt::format("'{}' has no unit", shortened(text)), expected_of(kind));
    }
    if (!std::isfinite(si)) return refuse(text, kind);
    if (kind == Kind::temperature && si < 0)
        return fail(fmt::format("'{}' is below absolute zero", shortened(text)), "a temperature above -459.67 degF");
    if (kind == Kind::count && si != std::floor(si)) return refuse(text, kind);
    return Amount{si, kind};
}

std::string expected_of(Kind kind) {
    const auto& table = table_of(kind);
    return fmt::format("{} ({})", table.name, table.choices);
}

Result<Length> parse_length(std::string_view text) {
    return parse(text, Kind::length).map([](const Amount& a) { return Length::from_value(a.si); });
}

}  // namespace bw::units
