// SPDX-License-Identifier: MIT
// What a good plumber says besides the number: low flow, scale, scalds, germs.
#include <cmath>

#include "code/scald.h"
#include "demand/methods.h"
#include "matter/fuel.h"
#include "reason/document.h"
#include "reason/register/register.h"

namespace bw::demand {

namespace {

using reason::Check;
using reason::new_check;
using reason::Standing;
using units::amount;

Check least(Check check, VolumeFlow flow, const catalogue::Heater& heater, std::string above, std::string below) {
    check.sense = reason::Sense::at_least;
    check.value = amount(flow);
    check.limit = amount(heater.flow_least);
    check.sources = heater.sources;
    check = reason::judged(std::move(check));
    if (check.status != reason::Status::fail)
        check.says = std::move(above);
    else
        check = reason::referred(std::move(check), std::move(below));
    return check;
}

/// What one linked group's first heater gets of a small flow: each group keeps one of its heaters open.
VolumeFlow through_first(Check& check, VolumeFlow flow, int groups) {
    if (groups < 2) return flow;
    const VolumeFlow each = flow / static_cast<double>(groups);
    check.derivation.push_back({"Each linked group keeps one heater open, and they share the flow",
                                "Vh = V / g",
                                {{"V", "flow", amount(flow)}, {"g", "linked groups", units::count(groups)}},
                                reason::Term{"Vh", "through each", amount(each)}});
    return each;
}

void loop_alone(std::vector<Check>& out, const Demand& demand, const catalogue::Heater& heater, int groups) {
    if (!(demand.recirculation_flow.value() > 0)) return;
    auto check = new_check("demand.loop-alone", {});
    const auto flow = through_first(check, demand.recirculation_flow, groups);
    out.push_back(least(std::move(check), flow, heater, "The loop alone makes one heater fire.",
                        "The loop alone fires no heater: it cools until a tap opens. The engineer decides on a larger "
                        "loop flow through one heater, a small buffer tank kept warm, or loop heating of its own."));
}

void one_tap(std::vector<Check>& out, const Demand& demand, const catalogue::Heater& heater, int groups) {
    const auto smallest = std::min_element(demand.loads.begin(), demand.loads.end(),
                                           [](const auto& a, const auto& b) { return a.hot < b.hot; });
    if (smallest == demand.loads.end()) return;
    auto check = new_check("demand.one-tap", {});
    check.derivation = {{fmt::format("One {}", text::name(smallest->fixture)),
                         "",
                         {},
                         reason::Term{"V", "hot water it draws", amount(smallest->hot)}}};
    const auto flow = through_first(check, smallest->hot + demand.recirculation_flow, groups);
    out.push_back(
        least(std::move(check), flow, heater,
              demand.recirculation_flow.value() > 0 ? "With the loop running, the smallest draw fires a heater."
                                                    : "The smallest draw fires a heater.",
              "The smallest draw alone fires no heater: its water passes unheated, and the tap runs cool "
              "until more is drawn. The engineer decides on a loop, a small buffer tank or a larger outlet."));
}

void loop_heat(std::vector<Check>& out, const Demand& demand, const catalogue::Heater& heater,
               const HeaterOutput& each) {
    if (!(demand.recirculation_loss.value() > 0)) return;
    auto efficiency = catalogue::efficiency(heater, demand.hot);
    const Ratio used = efficiency ? *efficiency : each.efficiency;
    const Power fire = used * heater.input_least;
    auto check = new_check("demand.loop-heat", {});
    check.sense = reason::Sense::at_least;
    check.value = amount(demand.recirculation_loss);
    check.limit = amount(fire);
    check.derivation = {
        {"Least fire into the water at the loop's temperature",
         "P = Imin e",
         {{"Imin", "least input", amount(heater.input_least)}, {"e", "efficiency", units::percent(used)}},
         reason::Term{"P", "least output", amount(fire)}}};
    check.sources = heater.sources;
    check = reason::judged(std::move(check));
    const double share = demand.recirculation_loss / fire;
    if (check.status == reason::Status::fail)
        check = reason::referred(
            std::move(check), fmt::format("At night a burner runs {:.0f} % of the time and starts over and over; the "
                                          "engineer decides whether a buffer tank is to lengthen its runs.",
                                          100 * share));
    else
        check.says = "One heater at low fire keeps the loop warm without stopping.";
    out.push_back(std::move(check));
}

/// Months between cleanings by hardness; half of it for water of 140 degF and above.
int months_between(double hardness, Temperature hot) {
    const int months = hardness < 60 ? 24 : hardness < 120 ? 12 : hardness < 180 ? 6 : 3;
    return hot >= fahrenheit(140) ? std::max(1, months / 2) : months;
}

void scale(std::vector<Check>& out, const survey::Survey& survey, const Demand& demand,
           const catalogue::Heater& heater) {
    const double hardness = *survey.supply.hardness;
    auto check = new_check("demand.scale", {});
    check.value = units::Amount{hardness, units::Kind::hardness};
    check.limit = units::Amount{heater.hardness_greatest, units::Kind::hardness};
    check.sense = reason::Sense::at_most;
    check.derivation = {
        {"Months between cleanings: 24 below 60 mg/L, 12 below 120, 6 below 180, else 3; half of it from "
         "140 degF on, where scale falls out faster",
         "",
         {{"h", "hardness as CaCO3", *check.value}, {"th", "distribution", amount(demand.hot)}},
         reason::Term{"m", "months", units::count(months_between(hardness, demand.hot))}}};
    check.sources = {reason::practice()};
    std::string advice = hardness > heater.hardness_greatest
                             ? "The water is harder than the heater's maker allows: soften it or have it treated. "
                         : hardness >= 120 ? "Softening or a scale inhibitor is worth its price here. "
                                           : "";
    out.push_back(reason::referred(
        reason::judged(std::move(check)),
        fmt::format("Clean the heat exchangers every {} months to begin with, oftener where outlet temperature or flow "
                    "falls. {}A water treatment specialist decides from a water analysis.",
                    months_between(hardness, demand.hot), advice)));
}

void gas_quality(std::vector<Check>& out, const survey::Survey& survey, const catalogue::Heater& heater) {
    const auto& usual = matter::fuel(*survey.gas.kind);
    const double heat = *survey.gas.heating_value / btu_per_cubic_foot, gravity = *survey.gas.specific_gravity;
    if (!(heat > 0 && gravity > 0)) return;
    const double ratio =
        (heat / std::sqrt(gravity)) / (usual.nameplate / btu_per_cubic_foot / std::sqrt(usual.specific_gravity));
    auto check = new_check("demand.gas-quality", {});
    check.value = units::percent(ratio);
    check.derivation = {
        {"Wobbe index, heating value over the root of specific gravity, against that of the usual gas",
         "r = (H / sqrt(S)) / (H0 / sqrt(S0))",
         {{"H", "heating value", amount(*survey.gas.heating_value, units::Kind::heating_value)},
          {"S", "specific gravity", units::number(gravity)},
          {"H0", "heating value of the usual gas", amount(usual.nameplate, units::Kind::heating_value)},
          {"S0", "its specific gravity", units::number(usual.specific_gravity)}},
         reason::Term{"r", "share of the usual heat", units::percent(ratio)}},
        {"Set to the gas by combustion analysis at start-up, the burner gives its input again; the number "
         "of heaters counts on that"}};
    check.sources = heater.sources;
    check.sources.push_back(reason::practice());
    if (ratio > 0.95 && ratio < 1.05) {
        check.status = reason::Status::pass;
        check.says = "Within five in a hundred of the usual gas: the burner's own setting takes it up.";
    } else {
        check = reason::referred(
            std::move(check),
            fmt::format("Before it is set, a burner would give about {:.0f} % of its input on this gas. A licensed gas "
                        "fitter sets every burner by combustion analysis, by the maker's instructions for such gas.",
                        100 * ratio));
    }
    out.push_back(std::move(check));
}

void preferred_store(std::vector<Check>& out, const survey::Survey& survey, const std::vector<StoreOption>& stores) {
    if (!survey.preferences.tank) return;
    auto check = new_check("demand.store", {});
    check.value = amount(*survey.preferences.tank);
    check.sources = {{"", "", "", Standing::given}};
    const auto enough = std::find_if(stores.begin(), stores.end(),
                                     [&](const StoreOption& s) { return s.tank <= *survey.preferences.tank; });
    std::string with = enough == stores.end()
                           ? "No number of heaters was found for it. "
                           : fmt::format("With it {} heater{} would carry the day, recovering {}. ", enough->heaters,
                                         enough->heaters == 1 ? "" : "s",
                                         print(amount(enough->recovery, units::Kind::hourly_flow), System::us));
    out.push_back(reason::referred(
        std::move(check),
        with + "The plant of this design is built without a store; the engineer decides between the two, and on the "
               "temperature a store is kept at."));
}

void scald(std::vector<Check>& out, const survey::Survey& survey, const Demand& demand) {
    auto check = new_check("demand.scald", {});
    auto seconds = code::scald_time(demand.hot);
    check.value = amount(demand.hot);
    if (!seconds) {
        check.says = "Cooler than the published times begin.";
    } else {
        check.derivation = seconds->derivation;
        check.sources = seconds->sources;
    }
    for (const char* standard : {"ASSE 1017", "ASSE 1016", "ASSE 1069", "ASSE 1070"})
        check.sources.push_back({standard, "", "", Standing::memory});
    if (demand.hot <= *survey.temperatures.use && demand.hot <= fahrenheit(110)) {
        check.status = reason::Status::pass;
        check.says = "Sent out no hotter than it is used: no mixing valve is needed for scalds.";
        out.push_back(std::move(check));
        return;
    }
    out.push_back(reason::referred(
        std::move(check),
        fmt::format(
            "CAUTION: {} scalds{}. A licensed plumber confirms a mixing valve before every use: ASSE 1017 where "
            "the plant's water is mixed for the whole system, ASSE 1016 or 1069 at showers, ASSE 1070 at "
            "basins and tubs.",
            say(demand.hot), seconds ? " in " + seconds->value.says : " after a long while")));
}

void germs(std::vector<Check>& out, const survey::Survey& survey, const Demand& demand) {
    auto check = new_check("demand.germs", {});
    check.value = amount(demand.hot);
    check.limit = amount(fahrenheit(140));
    check.sense = reason::Sense::at_least;
    check.derivation = {
        {"Legionella grows from about 77 to 113 degF, best near 95 to 108 degF; above 124 degF it does not grow; at "
         "140 degF nine in ten die in some 30 minutes, at 151 degF in about 2"},
        {"Common guidance: store at 140 degF or more, return the loop at 124 degF or more, keep cold water below 77 "
         "degF, let no branch stand still"}};
    check.sources = {reason::cite(reason::Document::ashrae_guideline_12, "temperatures", Standing::memory),
                     reason::cite(reason::Document::ashrae_188,
                                  "asks for a water management plan; gives no temperatures", Standing::memory)};
    const bool loop = *survey.recirculation.present;
    const auto coolest = loop ? demand.hot - *survey.recirculation.drop : demand.hot;
    const auto temperatures =
        loop ? fmt::format("{} leaves and {} comes back", say(demand.hot), say(coolest)) : say(demand.hot) + " leaves";
    const std::string state =
        temperatures + (coolest < fahrenheit(124)
                            ? ", within the range in which it may live on. "
                            : fmt::format(", too hot for it to grow{}. ",
                                          loop ? "" : "; without a loop the pipes cool down between draws"));
    out.push_back(reason::referred(
        reason::judged(std::move(check)),
        state + (survey.use.care ? "People at risk are served: the water safety team of the building decides by its "
                                   "water management plan."
                                 : "Hotter water needs mixing valves against scalds; the owner decides, by a water "
                                   "management plan where one is asked for.")));
}

}  // namespace

std::vector<Check> advice(const survey::Survey& survey, const Demand& demand, const catalogue::Heater& heater,
                          const Capacity& capacity) {
    std::vector<Check> out;
    const int groups = static_cast<int>(catalogue::linked_groups(heater, capacity.installed).size());
    loop_alone(out, demand, heater, groups);
    one_tap(out, demand, heater, groups);
    loop_heat(out, demand, heater, capacity.each);
    gas_quality(out, survey, heater);
    preferred_store(out, survey, capacity.stores);
    scale(out, survey, demand, heater);
    scald(out, survey, demand);
    germs(out, survey, demand);
    return out;
}

}  // namespace bw::demand
