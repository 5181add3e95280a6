// SPDX-License-Identifier: MIT
#include "survey/hours.h"

#include <fmt/format.h>

namespace bw::survey {

namespace {

constexpr int day = 24 * 60;
constexpr std::size_t most_stretches = 24;

std::string_view trimmed(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
    return text;
}

/// "06:30" in minutes; nothing where it is no time of the day.
std::optional<int> minutes_of(std::string_view text) {
    text = trimmed(text);
    const auto digit = [&](std::size_t i) { return text[i] >= '0' && text[i] <= '9'; };
    if (text.size() != 5 || text[2] != ':' || !digit(0) || !digit(1) || !digit(3) || !digit(4)) return std::nullopt;
    const int hours = (text[0] - '0') * 10 + (text[1] - '0'), minutes = (text[3] - '0') * 10 + (text[4] - '0');
    const int all = hours * 60 + minutes;
    if (minutes >= 60 || all > day) return std::nullopt;
    return all;
}

/// "06:00-07:30".
std::optional<Hours> stretch_of(std::string_view part) {
    const auto dash = part.find('-');
    if (dash == std::string_view::npos) return std::nullopt;
    const auto from = minutes_of(part.substr(0, dash)), to = minutes_of(part.substr(dash + 1));
    if (!from || !to || *from == *to) return std::nullopt;
    return Hours{*from, *to > *from ? *to : *to + day};
}

bool meet(const Hours& a, const Hours& b) {
    for (const int turn : {-day, 0, day})
        if (a.from < b.to + turn && b.from + turn < a.to) return true;
    return false;
}

}  // namespace

Result<std::vector<Hours>> hours_of(std::string_view text) {
    const std::string expected = "times of the day such as \"06:00-07:30, 18:00-19:00\"";
    std::vector<Hours> out;
    while (true) {
        const auto comma = text.find(',');
        const auto part = trimmed(text.substr(0, comma));
        const auto stretch = stretch_of(part);
        if (!stretch || out.size() == most_stretches)
            return fail(fmt::format("'{}' is not a stretch of the day", part.substr(0, 40)), expected);
        for (const auto& other : out)
            if (meet(*stretch, other)) return fail(fmt::format("'{}' meets another stretch", part), expected);
        out.push_back(*stretch);
        if (comma == std::string_view::npos) return out;
        text.remove_prefix(comma + 1);
    }
}

}  // namespace bw::survey
