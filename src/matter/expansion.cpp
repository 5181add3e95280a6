// SPDX-License-Identifier: MIT
#include "matter/expansion.h"

#include <fmt/format.h>

#include <algorithm>

#include "matter/water.h"

namespace bw::matter {

namespace {

/// Water is heaviest near 4 degC: between a colder start and a warmer end the least volume counts.
constexpr double heaviest = 277.13;

reason::Derivation working(const Expansion& found, Volume water, Density start, Density end, Pressure p1, Pressure p2) {
    return {
        {"What the water swells by, from its densities",
         "e = rho1 / rho2 - 1",
         {{"rho1", "density cold", amount(start)}, {"rho2", "density hot", amount(end)}},
         reason::Term{"e", "share", percent(found.share)}},
        {"The vessel must take in",
         "Ve = e V",
         {{"V", "volume of water", amount(water)}},
         reason::Term{"Ve", "expansion", amount(found.expansion)}},
        {"Share of the vessel that fills between the two pressures, absolute",
         "a = 1 - p1 / p2",
         {{"p1", "charge and fill pressure, absolute", amount(p1)}, {"p2", "greatest pressure, absolute", amount(p2)}},
         reason::Term{"a", "acceptance", percent(found.acceptance)}},
        {"Least vessel", "Vt = Ve / a", {}, reason::Term{"Vt", "vessel", amount(found.vessel)}}};
}

}  // namespace

Result<Expansion> expansion_vessel(Volume volume, Temperature cold, Temperature hot, Pressure fill, Pressure greatest,
                                   Pressure atmosphere) {
    if (!(volume.value() > 0)) return fail("no water to expand", "a volume above 0");
    if (!(hot > cold)) return fail("the hot water is not warmer than the cold", "hot above cold");
    if (!(greatest > fill) || !(fill.value() >= 0))
        return fail("the greatest pressure is not above the fill pressure", "0 or more, and greatest above fill");
    const auto end = water(hot);
    if (!end) return tl::unexpected(end.error());
    // what is colder than the heaviest water shrinks first: count from the least volume on the way
    const auto from = cold.value() < heaviest ? kelvin(std::min(heaviest, hot.value())) : cold;
    const auto start = water(from);
    if (!start) return tl::unexpected(start.error());
    if (const auto first = water(cold); !first) return tl::unexpected(first.error());
    Expansion out;
    out.share = start->density / end->density - 1;
    out.expansion = out.share * volume;
    const Pressure p1 = fill + atmosphere, p2 = greatest + atmosphere;
    out.acceptance = 1 - p1 / p2;
    out.vessel = out.expansion / out.acceptance;
    out.derivation = working(out, volume, start->density, end->density, p1, p2);
    out.sources = {{"ASHRAE Handbook, HVAC Systems and Equipment", "2016", "hydronic chapter, diaphragm tanks",
                    reason::Standing::memory}};
    const auto more = water_sources();
    out.sources.insert(out.sources.end(), more.begin(), more.end());
    return out;
}

}  // namespace bw::matter
