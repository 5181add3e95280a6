// SPDX-License-Identifier: MIT
#include "code/water.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::fahrenheit;
using units::Kind;

void hardness(const View& view, Checks& checks) {
    auto check =
        draft("water.hardness", "Hardness of the supply against the heater's limit", "water", view.heater.sources);
    rests_on(check, view.survey, {"supply.hardness"});
    check.says = "Harder water scales the heat exchangers; soften it or flush them more often.";
    check.value = units::Amount{*view.survey.supply.hardness, Kind::hardness};
    check.limit = units::Amount{view.heater.hardness_greatest, Kind::hardness};
    check.sense = Sense::at_most;
    if (!check.assumptions.empty() && check.value->si <= check.limit->si) {
        checks.push_back(reason::referred(std::move(check),
                                          "Hardness was assumed: a water analysis decides, read by the heater's maker "
                                          "or a water treatment specialist."));
        return;
    }
    checks.push_back(reason::judged(std::move(check)));
}

void analysis(const View& view, Checks& checks) {
    auto check = draft("water.analysis", "Rest of the water analysis", "water", view.heater.sources);
    rests_on(check, view.survey, {"supply.hardness"});
    checks.push_back(reason::referred(std::move(check),
                                      "Chloride, pH, iron, dissolved solids and free carbon dioxide were not given. "
                                      "The heater's maker decides from a water analysis."));
}

/// A temperature is a point on a scale, so a share of it means nothing: no margin, only the comparison.
Check at_most_temperature(Check check, units::Temperature value, units::Temperature limit) {
    check.value = amount(value);
    check.limit = amount(limit);
    check.sense = Sense::at_most;
    check.status = value <= limit ? Status::pass : Status::fail;
    return check;
}

void temperatures(const View& view, Checks& checks) {
    auto check = draft("water.temperature", "Distribution temperature within the heater's setting", "water",
                       view.heater.sources);
    rests_on(check, view.survey, {"water.distribution"});
    check.says = "The heater can be set to the temperature the job asks for.";
    checks.push_back(
        at_most_temperature(std::move(check), *view.survey.temperatures.distribution, view.heater.setpoint_greatest));
}

void growth(const View& view, Checks& checks) {
    auto check = draft("water.germs", "Water warm enough to hold germs down", "water",
                       {{"ASHRAE Guideline 12", "", "", Standing::memory},
                        {"ASHRAE 188", "", "asks for a plan, gives no temperatures", Standing::memory}});
    check.value = amount(*view.survey.temperatures.distribution);
    check.limit = amount(fahrenheit(124));
    check.sense = Sense::at_least;
    rests_on(check, view.survey, {"water.distribution"});
    const bool care = view.survey.use.care;
    if (*view.survey.temperatures.distribution < fahrenheit(120)) {
        check.says = "Below 120 degF germs can grow in the pipes.";
        check.status = Status::fail;
        checks.push_back(std::move(check));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        care ? "The building serves people at risk: its water safety team sets the temperatures by the plan ASHRAE 188 "
               "asks for."
             : "The building's owner decides, by a water management plan where the local rules ask for one."));
}

void mixing_at_plant(const View& view, Checks& checks) {
    const auto hot = *view.survey.temperatures.distribution;
    auto check = draft("water.scald", "Scalding: water leaves the plant hotter than a tap may give", "water",
                       {standard("ASSE 1017"), standard("ASSE 1070"), standard("ASSE 1016"), standard("ASSE 1069"),
                        code::shower_temperature_limit().source});
    check.value = amount(hot);
    check.limit = amount(code::shower_temperature_limit().value);
    check.sense = Sense::at_most;
    about(check, view, view.of(Part::mixing_valve));
    step(check,
         "Skin at 140 degF burns to the second degree in about 3 s, at 120 degF to the third in about 10 min (table "
         "after Moritz and Henriques 1947).");
    rests_on(check, view.survey, {"water.distribution"});
    if (hot <= code::shower_temperature_limit().value) {
        check.status = Status::pass;
        check.says =
            "Water leaves no hotter than a shower may give; public lavatories still need their own limit (110 degF).";
        checks.push_back(std::move(check));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("CAUTION: {} can scald. A licensed plumber must confirm a mixing valve before every use: ASSE 1017 "
                    "at the plant ({}), ASSE 1070 at lavatories, "
                    "1016 at single showers, 1069 at gang showers.",
                    us(amount(hot)),
                    view.of(Part::mixing_valve).empty() ? "none is in this plant" : "one is in this plant")));
}

}  // namespace

void check_water_quality(const View& view, Checks& checks) {
    hardness(view, checks);
    analysis(view, checks);
    temperatures(view, checks);
    growth(view, checks);
    mixing_at_plant(view, checks);
}

}  // namespace bw::proof
