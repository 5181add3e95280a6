// SPDX-License-Identifier: MIT
#include "matter/mains_water.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace bw::matter {

namespace {

// The formula is in degF throughout.
struct Parts {
    double mean, ratio, lag, angle, raw;
};

double in_fahrenheit(Temperature t) { return t.value() * 1.8 - 459.67; }

Result<Parts> parts_of(const MainsClimate& climate, double day) {
    const double mean = in_fahrenheit(climate.annual_mean), swing = climate.swing / degF_difference;
    if (!(mean >= 20 - 1e-9 && mean <= 90 + 1e-9))
        return fail("an annual mean air temperature of " + print(amount(climate.annual_mean), System::us),
                    "20 to 90 degF");
    if (!(swing >= 0 && swing <= 100 + 1e-9))
        return fail("a swing of " + print(amount(climate.swing), System::us), "0 to 100 degF");
    if (!(day >= 1 && day <= 365)) return fail(fmt::format("day {:g}", day), "1 to 365");
    Parts out{};
    out.mean = mean;
    out.ratio = 0.4 + 0.01 * (mean - 44);
    out.lag = 35 - 1.0 * (mean - 44);
    out.angle = 0.986 * (day - 15 - out.lag) + (climate.southern ? 90 : -90);
    out.raw = mean + 6 + out.ratio * swing / 2 * std::sin(out.angle * std::numbers::pi / 180);
    return out;
}

}  // namespace

Result<Temperature> mains_temperature(const MainsClimate& climate, double day) {
    auto parts = parts_of(climate, day);
    if (!parts) return tl::unexpected(parts.error());
    return fahrenheit(std::max(32.0, parts->raw));
}

Result<ColdestDay> coldest_mains(const MainsClimate& climate) {
    ColdestDay out;
    for (int day = 1; day <= 365; ++day) {
        auto found = mains_temperature(climate, day);
        if (!found) return tl::unexpected(found.error());
        if (day == 1 || *found < out.temperature) out = {*found, day};
    }
    return out;
}

Result<reason::Derivation> mains_derivation(const MainsClimate& climate, double day) {
    auto parts = parts_of(climate, day);
    if (!parts) return tl::unexpected(parts.error());
    const auto found = fahrenheit(std::max(32.0, parts->raw));
    reason::Derivation out{
        {"How much of the air's swing reaches the water, and how late",
         "r = 0.4 + 0.01 (Ta - 44 degF);  lag = 35 - 1.0 (Ta - 44 degF) days",
         {{"Ta", "annual mean air temperature", amount(climate.annual_mean)}, {"lag", "days", number(parts->lag)}},
         reason::Term{"r", "share", number(parts->ratio)}},
        {climate.southern ? "Mains water on the day, southern hemisphere" : "Mains water on the day",
         fmt::format("T = (Ta + 6 degF) + r (dT / 2) sin(0.986 (day - 15 - lag) {} 90)", climate.southern ? '+' : '-'),
         {{"dT", "swing of monthly mean air", amount(climate.swing)}, {"day", "day of the year", number(day)}},
         reason::Term{"T", "mains water", amount(found)}}};
    if (parts->raw < 32)
        out.push_back({fmt::format("The formula gives {:.1f} degF, which is ice: 32 degF stands instead", parts->raw)});
    return out;
}

reason::Sources mains_sources() {
    return {{"Burch and Christensen, Towards development of an algorithm for mains water temperature, NREL", "2007",
             "equation for the daily mains temperature", reason::Standing::published}};
}

}  // namespace bw::matter
