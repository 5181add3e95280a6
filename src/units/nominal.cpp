// SPDX-License-Identifier: MIT
#include "units/nominal.h"

#include <fmt/format.h>

#include <cmath>

#include "units/number.h"

namespace bw::units {

namespace {

constexpr int greatest_inches = 96;

}  // namespace

Result<Nominal> parse_nominal(std::string_view text) {
    const auto refuse = [&] {
        return fail(fmt::format("'{}' is not a nominal pipe size", shortened(text)),
                    "inches in eighths, such as 1-1/4 or 3/4");
    };
    std::string_view rest = trimmed(text);
    const auto inches = take_number(rest);
    rest = trimmed(rest);
    if (!inches || !(rest.empty() || rest == "in" || rest == "\"")) return refuse();
    const double eighths = *inches * 8;
    if (!(eighths >= 1) || eighths > greatest_inches * 8 || eighths != std::floor(eighths)) return refuse();
    return Nominal{static_cast<int>(eighths)};
}

std::string print(Nominal size) {
    const int whole = size.eighths / 8;
    int part = size.eighths % 8;
    if (part == 0) return std::to_string(whole);
    int base = 8;
    while (part % 2 == 0) {
        part /= 2;
        base /= 2;
    }
    return (whole > 0 ? std::to_string(whole) + "-" : "") + std::to_string(part) + "/" + std::to_string(base);
}

}  // namespace bw::units
