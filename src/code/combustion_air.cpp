// SPDX-License-Identifier: MIT
#include "code/combustion_air.h"

#include <algorithm>
#include <cmath>

#include "code/sources.h"

namespace bw::code {

namespace {

constexpr double greatest_air_changes = 0.60;
constexpr Standing read = Standing::published;
constexpr Standing memory = Standing::memory;

reason::Term input_term(Power input) { return {"I", "input of all appliances in the space", amount(input)}; }

struct Rule {
    int number;
    double kbtu_per_square_inch;  ///< input served by a square inch of each opening
    double least_square_inches;
    const char* says;
    const char* formula;
    const char* clause;
    Standing standing;
};

Rule rule_of(Openings method) {
    switch (method) {
        case Openings::indoors_same_storey:
            return {2,
                    1,
                    100,
                    "Two openings to indoor space on the same storey, each 1 in2 per 1,000 Btu/h, at least 100 in2",
                    "A = max(100 in2, I / 1000)",
                    "304.5.3.1",
                    memory};
        case Openings::indoors_other_storey:
            return {1,
                    0.5,
                    0,
                    "Openings to indoor space on another storey, together 2 in2 per 1,000 Btu/h",
                    "A = 2 I / 1000",
                    "304.5.3.2",
                    memory};
        case Openings::outdoors_two_direct:
            return {2,
                    4,
                    0,
                    "Two openings straight to outdoors or by vertical ducts, each 1 in2 per 4,000 Btu/h",
                    "A = I / 4000",
                    "304.6.1",
                    memory};
        case Openings::outdoors_two_horizontal:
            return {2,
                    2,
                    0,
                    "Two openings to outdoors by horizontal ducts, each 1 in2 per 2,000 Btu/h",
                    "A = I / 2000",
                    "304.6.1",
                    read};
        case Openings::outdoors_one:
            return {1,
                    3,
                    0,
                    "One opening to outdoors, 1 in2 per 3,000 Btu/h and not less than the areas of all vent connectors "
                    "together",
                    "A = I / 3000",
                    "304.6.2",
                    memory};
    }
    return {};
}

}  // namespace

Ruled<Volume> indoor_air_volume(Power input) {
    Ruled<Volume> out;
    out.value = 50 * (input / kbtu_per_hour) * cubic_foot;
    out.derivation.push_back({"Standard method: 50 ft3 of room for every 1,000 Btu/h",
                              "V = 50 ft3 I / 1000",
                              {input_term(input)},
                              reason::Term{"V", "room volume needed", amount(out.value, Kind::room_volume)}});
    out.sources = {ifgc("304.5.1", read)};
    return out;
}

Result<Ruled<Volume>> indoor_air_volume(Power input, double air_changes, Draft draft) {
    if (!(air_changes > 0) || !std::isfinite(air_changes))
        return fail(fmt::format("an infiltration rate of {:.4g} air changes an hour", air_changes),
                    "a rate above zero");
    double rate = std::min(air_changes, greatest_air_changes);
    double each = draft == Draft::fan_assisted ? 15 : 21;
    Ruled<Volume> out;
    out.value = each / rate * (input / kbtu_per_hour) * cubic_foot;
    reason::Step step{draft == Draft::fan_assisted ? "Known infiltration, fan-assisted appliances"
                                                   : "Known infiltration, appliances other than fan-assisted",
                      draft == Draft::fan_assisted ? "V = (15 ft3 / ACH) I / 1000" : "V = (21 ft3 / ACH) I / 1000"};
    step.given = {input_term(input), {"ACH", "air changes an hour, not taken above 0.60", units::number(rate)}};
    step.result = reason::Term{"V", "room volume needed", amount(out.value, Kind::room_volume)};
    out.derivation.push_back(std::move(step));
    out.sources = {ifgc("304.5.2", read)};
    return out;
}

Ruled<AirOpening> air_opening(Power input, Openings method) {
    Rule rule = rule_of(method);
    Ruled<AirOpening> out;
    double square_inches =
        std::max(rule.least_square_inches, double(input / kbtu_per_hour) / rule.kbtu_per_square_inch);
    out.value = {rule.number, square_inches * square_inch};
    out.derivation.push_back(
        {rule.says,
         rule.formula,
         {input_term(input)},
         reason::Term{"A", rule.number > 1 ? "free area of each opening" : "free area of the opening",
                      amount(out.value.each)}});
    out.sources = {ifgc(rule.clause, rule.standing)};
    return out;
}

Result<Ruled<Area>> louver_area(Area free, std::optional<Ratio> free_share, bool wood) {
    double share = free_share.value_or(wood ? 0.25 : 0.75);
    if (!(share > 0 && share <= 1))
        return fail(fmt::format("a louver's free share of {:.4g}", share), "above 0 and at most 1");
    Ruled<Area> out;
    out.value = free / share;
    const char* says = free_share ? "The louver's own free area"
                       : wood     ? "Free area of the louver not known: wood passes 25 %"
                                  : "Free area of the louver not known: metal passes 75 %";
    out.derivation.push_back({says,
                              "G = A / s",
                              {{"A", "free area", amount(free)}, {"s", "free share", units::percent(share)}},
                              reason::Term{"G", "gross louver area", amount(out.value)}});
    out.sources = {ifgc("304.10", wood ? memory : read)};
    return out;
}

Clause<Length> air_opening_least_side() {
    return {3.0 * inch, "no side of an air opening or duct is less than 3 in", ifgc("304.5.3, 304.6", read)};
}

Clause<Length> air_opening_reach() {
    return {12.0 * inch, "high and low openings begin within 12 in of the ceiling and of the floor",
            ifgc("304.5.3, 304.6", memory)};
}

Ruled<VolumeFlow> mechanical_air(Power input) {
    Ruled<VolumeFlow> out;
    out.value = 0.35 * (input / kbtu_per_hour) * cubic_foot_per_minute;
    out.derivation.push_back(
        {"Mechanical supply from outdoors: 0.35 cfm for every 1,000 Btu/h, interlocked with the burners",
         "q = 0.35 cfm I / 1000",
         {input_term(input)},
         reason::Term{"q", "outdoor air", amount(out.value, Kind::air_flow)}});
    out.sources = {ifgc("304.9", memory)};
    return out;
}

Clause<bool> clean_air() {
    return {
        true,
        "combustion air is free of chemistry that corrodes heaters (laundry, pool, salon), or is taken from outdoors",
        ifgc("303.5", memory)};
}

}  // namespace bw::code
