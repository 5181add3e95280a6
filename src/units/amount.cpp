// SPDX-License-Identifier: MIT
#include "units/amount.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "units/number.h"
#include "units/unit_table.h"

namespace bw::units {

namespace {

const UnitPrinted& unit_of(Kind kind, System system) {
    const auto& table = table_of(kind);
    return system == System::us ? table.us : table.si;
}

std::string print_time(double seconds) {
    const double size = std::fabs(seconds);
    if (size >= 2 * 3600) return print_number(seconds / 3600, 1) + " h";
    if (size >= 2 * 60) return print_number(seconds / 60, 1) + " min";
    return print_number(seconds, 0) + " s";
}

std::string print_money(double dollars) {
    std::string text = fmt::format("{:.2f}", std::fabs(dollars));
    for (auto at = static_cast<std::ptrdiff_t>(text.find('.')) - 3; at > 0; at -= 3)
        text.insert(static_cast<std::size_t>(at), ",");
    const bool negative = dollars < 0 && text != "0.00";
    return (negative ? "-$" : "$") + text;
}

/// Five digits at most, without zeros at the end.
std::string print_pure(double value) {
    if (value == std::round(value) && std::fabs(value) < 1e15) return fmt::format("{:.0f}", value == 0 ? 0.0 : value);
    const double size = std::fabs(value);
    if (!(size >= 1e-6 && size < 1e15)) return fmt::format("{:.4e}", value);
    std::string text = fmt::format("{:.{}f}", value, std::max(0, 4 - static_cast<int>(std::floor(std::log10(size)))));
    if (text.find('.') == std::string::npos) return text;
    while (text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

}  // namespace

Spelled spell(const Amount& amount, System system) {
    const auto& unit = unit_of(amount.kind, system);
    return {amount.si / unit.factor - unit.offset, std::string(unit.label)};
}

std::string print_feet_inches(Length length) {
    const double inches = length / inch;
    if (!(std::fabs(inches) < 1e12)) return print_number(inches, 0) + " in";
    const long long sixteenths = std::llround(std::fabs(inches) * 16);
    const long long feet = sixteenths / 192, whole = sixteenths % 192 / 16;
    long long part = sixteenths % 16, base = 16;
    while (part != 0 && part % 2 == 0) {
        part /= 2;
        base /= 2;
    }
    std::string text = inches < 0 && sixteenths != 0 ? "-" : "";
    if (feet > 0) text += fmt::format("{} ft", feet);
    if (whole == 0 && part == 0) return feet > 0 ? text : "0 in";
    if (feet > 0) text += ' ';
    if (whole > 0) text += fmt::format("{}", whole);
    if (whole > 0 && part > 0) text += '-';
    if (part > 0) text += fmt::format("{}/{}", part, base);
    return text + " in";
}

std::string print(const Amount& amount, System system) {
    switch (amount.kind) {
        case Kind::length:
            if (system == System::us) return print_feet_inches(Length::from_value(amount.si));
            break;
        case Kind::number: return print_pure(amount.si);
        case Kind::count: return fmt::format("{:.0f}", std::round(amount.si) == 0 ? 0.0 : amount.si);
        case Kind::time: return print_time(amount.si);
        case Kind::money: return print_money(amount.si);
        case Kind::acidity: return "pH " + print_number(amount.si, 1);
        default: break;
    }
    const auto [value, label] = spell(amount, system);
    const int decimals = unit_of(amount.kind, system).decimals;
    return print_number(value, decimals) + (label == "%" ? "" : " ") + label;
}

}  // namespace bw::units
