// SPDX-License-Identifier: MIT
#include "units/number.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace bw::units {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t digits_at(std::string_view text, std::size_t from) {
    std::size_t n = 0;
    while (from + n < text.size() && is_digit(text[from + n])) ++n;
    return n;
}

std::optional<double> whole(std::string_view digits) {
    double value = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), value);
    if (error != std::errc() || end != digits.data() + digits.size()) return std::nullopt;
    return value;
}

/// "199,000": groups of three after the first. Length of the run, or 0 where the commas do not group so.
std::size_t grouped_length(std::string_view text) {
    std::size_t length = digits_at(text, 0);
    if (length == 0 || length > 3) return 0;
    std::size_t groups = 0;
    while (length < text.size() && text[length] == ',' && digits_at(text, length + 1) == 3) {
        length += 4;
        ++groups;
    }
    return groups > 0 ? length : 0;
}

/// "3/4" at `from`: the value and the length of its text.
struct Fraction {
    double value = 0;
    std::size_t length = 0;
};
std::optional<Fraction> fraction_at(std::string_view text, std::size_t from) {
    const std::size_t top = digits_at(text, from);
    if (top == 0 || from + top >= text.size() || text[from + top] != '/') return std::nullopt;
    const std::size_t bottom = digits_at(text, from + top + 1);
    if (bottom == 0) return std::nullopt;
    const auto a = whole(text.substr(from, top));
    const auto b = whole(text.substr(from + top + 1, bottom));
    if (!a || !b || *b == 0) return std::nullopt;
    return Fraction{*a / *b, top + 1 + bottom};
}

/// A whole number followed by a fraction, or a bare fraction.
std::optional<double> take_mixed(std::string_view& text) {
    if (const auto bare = fraction_at(text, 0)) {
        text.remove_prefix(bare->length);
        return bare->value;
    }
    const std::size_t n = digits_at(text, 0);
    if (n == 0 || n >= text.size() || (text[n] != '-' && text[n] != ' ')) return std::nullopt;
    const auto part = fraction_at(text, n + 1);
    const auto inches = whole(text.substr(0, n));
    if (!part || !inches || part->value >= 1) return std::nullopt;
    text.remove_prefix(n + 1 + part->length);
    return *inches + part->value;
}

std::optional<double> take_decimal(std::string_view& text) {
    std::string digits;
    std::size_t length = grouped_length(text);
    if (length > 0) {
        for (const char c : text.substr(0, length)) {
            if (c != ',') digits += c;
        }
        if (length < text.size() && text[length] == '.') {
            const std::size_t decimals = digits_at(text, length + 1);
            digits.append(text.substr(length, decimals + 1));
            length += decimals + 1;
        }
        text.remove_prefix(length);
        return whole(digits);
    }
    if (text.empty() || !(is_digit(text[0]) || (text[0] == '.' && digits_at(text, 1) > 0))) return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc() || !std::isfinite(value)) return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return value;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
    const auto blank = [](char c) { return c == ' ' || c == '\t' || c == '\r' || c == '\n'; };
    while (!text.empty() && blank(text.front())) text.remove_prefix(1);
    while (!text.empty() && blank(text.back())) text.remove_suffix(1);
    return text;
}

std::string shortened(std::string_view text) {
    std::string out;
    for (const char c : text.substr(0, 60)) out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
    // an ellipsis never splits a character
    while (text.size() > 60 && !out.empty() && (static_cast<unsigned char>(out.back()) & 0x80) != 0) out.pop_back();
    return text.size() > 60 ? out + "..." : out;
}

std::optional<double> take_number(std::string_view& text) {
    std::string_view rest = trimmed(text);
    double sign = 1;
    if (!rest.empty() && (rest.front() == '-' || rest.front() == '+')) {
        sign = rest.front() == '-' ? -1 : 1;
        rest.remove_prefix(1);
    }
    auto value = take_mixed(rest);
    if (!value) value = take_decimal(rest);
    if (!value) return std::nullopt;
    text = rest;
    return sign * *value;
}

std::string print_number(double value, int decimals) {
    const double size = std::fabs(value);
    if (value == 0 || !std::isfinite(value))
        return fmt::format("{:.{}f}", std::isfinite(value) ? 0.0 : value, decimals);
    if (size < 1e-6) return fmt::format("{:.2e}", value);
    if (size >= 1e15) return fmt::format("{:.6e}", value);
    const int for_three_digits = 2 - static_cast<int>(std::floor(std::log10(size)));
    std::string text = fmt::format("{:.{}f}", value, std::max(decimals, for_three_digits));
    const auto point = text.find('.');
    if (point == std::string::npos) return text;
    const std::size_t kept = point + 1 + static_cast<std::size_t>(decimals);
    while (text.size() > kept && text.back() == '0') text.pop_back();
    if (text.back() == '.') text.pop_back();
    return text;
}

}  // namespace bw::units
