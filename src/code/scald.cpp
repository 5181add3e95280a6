// SPDX-License-Identifier: MIT
#include "code/scald.h"

#include <array>
#include <cmath>

namespace bw::code {

namespace {

struct Point {
    double degF, seconds;
};
// Second-degree burns at 116.6, 124 and 140 degF: table after Moritz and Henriques 1947; at 125 (the shorter of 1.5 to
// 2 minutes), 130 and 135 degF: a hospital's burn-prevention table.
constexpr std::array<Point, 6> points{{{116.6, 1200}, {124, 120}, {125, 90}, {130, 30}, {135, 10}, {140, 3}}};

std::string spoken(double seconds) {
    if (seconds >= 120) return fmt::format("about {:.0f} min", seconds / 60);
    return fmt::format("about {:.0f} s", seconds);
}

}  // namespace

Result<Ruled<ScaldTime>> scald_time(Temperature temperature) {
    const double t = temperature.value() * 1.8 - 459.67;
    if (!(t >= points.front().degF - 1e-6))
        return fail(fmt::format("no burn time is published for {:.1f} degF", t), "116.6 degF and above");
    Ruled<ScaldTime> out;
    const auto above = std::find_if(points.begin(), points.end(), [&](const Point& p) { return p.degF >= t - 1e-6; });
    double seconds = points.back().seconds;
    if (above == points.begin()) {
        seconds = points.front().seconds;
    } else if (above != points.end()) {
        const auto& low = *(above - 1);
        const double share = (t - low.degF) / (above->degF - low.degF);
        seconds = std::exp(std::log(low.seconds) + share * (std::log(above->seconds) - std::log(low.seconds)));
    }
    const bool beyond = above == points.end();
    out.value = {seconds * second, beyond ? "less than 3 s" : spoken(seconds)};
    out.derivation = {{beyond ? "Hotter than the last published point, 140 degF and 3 s"
                              : "Published burn times, a straight line of the logarithm between points",
                       "",
                       {{"t", "temperature", amount(temperature)}},
                       reason::Term{"s", "time to a burn of the second degree, adults", amount(out.value.time)}}};
    out.sources = {{"burn time table after Moritz and Henriques", "1947", "second degree", Standing::published},
                   {"a hospital's burn-prevention table", "", "125 to 135 degF, adults", Standing::published}};
    return out;
}

}  // namespace bw::code
