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
    check = at_most(std::move(check), units::Amount{*view.survey.supply.hardness, Kind::hardness},
                    units::Amount{view.heater.hardness_greatest, Kind::hardness});
    if (!check.assumptions.empty() && check.status != Status::fail)
        check = reason::referred(std::move(check),
                                 "Hardness was assumed: a water analysis decides, read by the heater's maker or a "
                                 "water treatment specialist.");
    checks.push_back(std::move(check));
}

void analysis(const View& view, Checks& checks) {
    auto check = draft("water.analysis", "Rest of the water analysis", "water", view.heater.sources);
    rests_on(check, view.survey, {"supply.hardness"});
    checks.push_back(reason::referred(std::move(check),
                                      "Chloride, pH, iron, dissolved solids and free carbon dioxide were not given. "
                                      "The heater's maker decides from a water analysis."));
}

void temperatures(const View& view, Checks& checks) {
    const auto hot = *view.survey.temperatures.distribution, greatest = view.heater.setpoint_greatest;
    auto check = with_temperatures(draft("water.temperature", "Distribution temperature within the heater's setting",
                                         "water", view.heater.sources),
                                   hot, "Greatest the heater can be set to.", greatest);
    rests_on(check, view.survey, {"water.distribution"});
    checks.push_back(holds(std::move(check), hot <= greatest, "The heater can be set to what the job asks for.",
                           fmt::format("The heater can be set to {} at most.", us(amount(greatest)))));
}

void growth(const View& view, Checks& checks) {
    const auto hot = *view.survey.temperatures.distribution;
    auto check = with_temperatures(
        draft("water.germs", "Water warm enough to hold germs down", "water",
              {standard("ASHRAE Guideline 12"), standard("ASHRAE 188", {}, "asks for a plan, gives no temperatures")}),
        hot, "Least where germs are a concern.", fahrenheit(124));
    rests_on(check, view.survey, {"water.distribution"});
    const std::string cool = hot < fahrenheit(120) ? "Below 120 degF germs can grow in the pipes. " : "";
    const std::string who = view.survey.use.care
                                ? "The building serves people at risk: its water safety team sets the temperatures by "
                                  "the plan ASHRAE 188 asks for."
                                : "The building's owner decides, by a water management plan where the local rules ask "
                                  "for one.";
    checks.push_back(reason::referred(std::move(check), cool + who));
}

void mixing_at_plant(const View& view, Checks& checks) {
    const auto hot = *view.survey.temperatures.distribution;
    const auto limit = code::shower_temperature_limit();
    auto check = with_temperatures(
        draft(
            "water.scald", "Scalding: water leaves the plant hotter than a tap may give", "water",
            {standard("ASSE 1017"), standard("ASSE 1070"), standard("ASSE 1016"), standard("ASSE 1069"), limit.source}),
        hot, limit.says, limit.value);
    about(check, view, view.of(Part::mixing_valve));
    step(check,
         "Skin at 140 degF burns to the second degree in about 3 s, at 120 degF to the third in about 10 min (table "
         "after Moritz and Henriques 1947).");
    rests_on(check, view.survey, {"water.distribution"});
    if (hot <= limit.value) {
        checks.push_back(holds(std::move(check), true,
                               "Water leaves no hotter than a shower may give; public lavatories still need their own "
                               "limit (110 degF).",
                               {}));
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
