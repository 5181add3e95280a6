// SPDX-License-Identifier: MIT
#include <cmath>

#include "code/water.h"
#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {

namespace {

using survey::SparePolicy;

/// What a heater must be able to do here besides heating enough.
Result<void> judge_model(const survey::Survey& survey, const catalogue::Heater& heater) {
    if (const auto* inlet = heater.inlet(*survey.gas.kind); inlet && *survey.gas.delivery_pressure < inlet->least)
        return fail(heater.key + " needs " + print(amount(inlet->least, Kind::gas_pressure), System::us) +
                        " at its gas inlet; the supply brings " +
                        print(amount(*survey.gas.delivery_pressure, Kind::gas_pressure), System::us),
                    "more gas pressure or another model");
    if (*survey.preferences.vent == survey::VentPreference::common && heater.common_vents.empty())
        return fail(heater.key + " is not listed for common venting", "single vents or another model");
    if (*survey.preferences.room_air && !heater.room_air_allowed)
        return fail(heater.key + " may not burn room air", "piped outdoor air or another model");
    return {};
}

constexpr int most_heaters = 64;  ///< of one plant: what the program is measured to

/// Whether so many of a model make one plant: as many linked groups as its manufacturer lets stand together.
Result<void> judge_number(const catalogue::Heater& heater, int installed) {
    const int groups = static_cast<int>(catalogue::linked_groups(heater, installed).size());
    if (heater.groups_together && groups > *heater.groups_together)
        return fail(fmt::format("{} would take {} heaters: {} linked groups of at most {}, and at most {} such groups "
                                "work together",
                                heater.key, installed, groups, heater.greatest_group, *heater.groups_together),
                    "a larger model, or the load split between plants");
    if (installed > most_heaters)
        return fail(
            fmt::format("{} would take {} heaters, and one plant has at most {}", heater.key, installed, most_heaters),
            "a larger model, or the load split between plants");
    return {};
}

/// The least whole number not below x, forgiving the last bits of arithmetic.
int whole(double x) { return std::max(1, static_cast<int>(std::ceil(x * (1 - 1e-9)))); }

void explain_number(Capacity& out, const Demand& demand, Power peak_heat) {
    out.derivation.push_back({"Heat for the peak flow",
                              "Pp = V rho c (th - tc)",
                              {{"V", "peak flow", units::amount(demand.peak)},
                               {"th", "outlet", units::amount(demand.hot)},
                               {"tc", "coldest supply", units::amount(demand.cold)}},
                              reason::Term{"Pp", "heat for the peak", units::amount(peak_heat)}});
    out.derivation.push_back({"Heaters, by heat with the loop's loss added and by the flow they can pass",
                              "n = max(ceil((Pp + H) / P), ceil((V + Vr) / Vmax))",
                              {{"H", "heat lost by the loop", units::amount(demand.recirculation_loss)},
                               {"Vr", "recirculation flow", units::amount(demand.recirculation_flow)},
                               {"P", "output of one heater", units::amount(out.each.output)},
                               {"Vmax", "greatest flow of one heater", units::amount(out.each.flow_greatest)}},
                              reason::Term{"n", "heaters needed", units::count(out.needed)}});
}

int spare_for(const survey::Survey& survey, const Demand& demand, Capacity& out, Power peak_heat) {
    switch (*survey.preferences.spare) {
        case SparePolicy::none: out.derivation.push_back({"No spare heater is asked for"}); return 0;
        case SparePolicy::one:
            out.derivation.push_back({"One spare: the peak is met with any one heater down"});
            return 1;
        case SparePolicy::share:
        case SparePolicy::share_one_down: break;
    }
    const double share = *survey.preferences.spare_share;
    if (*survey.preferences.spare == SparePolicy::share_one_down) {
        const int all = heaters_for(demand, out.each, peak_heat, share) + 1;
        out.derivation.push_back({"A stated share of the peak is met with any one heater down",
                                  "n = max(heaters for V, heaters for s V + 1)",
                                  {{"s", "share of the peak", units::percent(share)}},
                                  reason::Term{"n", "heaters installed", units::count(std::max(all, out.needed))}});
        return std::max(0, all - out.needed);
    }
    const int all = heaters_for(demand, out.each, peak_heat, 1 + share);
    out.derivation.push_back({"Spare as a share of the peak",
                              "n = heaters for V (1 + s)",
                              {{"s", "share", units::percent(share)}},
                              reason::Term{"n", "heaters installed", units::count(all)}});
    return std::max(0, all - out.needed);
}

/// Street pressure beyond what a mixing valve wants at the tap is what heaters may use up, at the very most; height
/// and pipe are for the water checks.
std::optional<Pressure> pressure_to_lose(const survey::Survey& survey) {
    const Pressure left = *survey.supply.pressure - code::mixing_valve_pressure().value;
    return left.value() > 0 ? std::optional(left) : std::nullopt;
}

std::string says_of(const Capacity& capacity, const catalogue::Heater& heater, const Demand& demand,
                    bool care_without_spare) {
    auto text = fmt::format("{} of {}: each gives {} from {} to {}", capacity.installed, heater.title,
                            say(capacity.each.flow), say(demand.cold), say(demand.hot));
    text += capacity.each.limited_by_flow ? " (limited by its greatest flow)" : "";
    text += fmt::format("; {} carry the peak of {}", capacity.needed, say(demand.peak));
    if (demand.recirculation_loss.value() > 0) text += " and the loop's " + say(demand.recirculation_loss);
    text += capacity.spare > 0 ? fmt::format(", {} spare.", capacity.spare) : ", no spare.";
    if (care_without_spare)
        text += " People in care are served, for whom one heater down should still do: the survey asks otherwise.";
    return text;
}

/// What stands beside the number: what more or fewer would mean, stores, and words of care.
Result<void> look_round(Capacity& out, const survey::Survey& survey, const Demand& demand,
                        const catalogue::Heater& heater) {
    auto risk = risk_curve(demand, out.each, out.installed);
    if (!risk) return tl::unexpected(risk.error());
    out.risk = std::move(*risk);
    auto stores = store_options(demand, out.each, out.needed);
    if (!stores) return tl::unexpected(stores.error());
    out.stores = std::move(*stores);
    out.advice = advice(survey, demand, heater, out);
    return {};
}

}  // namespace

double price_of(const survey::Survey& survey, const catalogue::Heater& heater) {
    auto own = survey.preferences.prices.find(heater.key);
    return own == survey.preferences.prices.end() ? heater.price : own->second;
}

int heaters_for(const Demand& demand, const HeaterOutput& each, Power peak_heat, double times) {
    double by_heat = (times * peak_heat + demand.recirculation_loss) / each.output;
    double by_flow = (times * demand.peak + demand.recirculation_flow) / each.flow_greatest;
    return std::max(whole(by_heat), whole(by_flow));
}

Result<Capacity> sized(const survey::Survey& survey, const Demand& demand, const catalogue::Heater& heater) {
    auto each = heater_output(heater, demand.cold, demand.hot, *survey.altitude, *survey.gas.kind,
                              {*survey.preferences.scale_allowance, pressure_to_lose(survey)});
    if (!each) return tl::unexpected(each.error());
    if (auto ok = judge_model(survey, heater); !ok) return tl::unexpected(ok.error());
    auto peak_heat = matter::heat_to_warm(demand.peak, demand.cold, demand.hot);
    if (!peak_heat) return tl::unexpected(peak_heat.error());
    Capacity out;
    out.heater = heater.key;
    out.each = *each;
    out.derivation = each->derivation;
    out.needed = heaters_for(demand, *each, *peak_heat, 1);
    explain_number(out, demand, *peak_heat);
    out.spare = spare_for(survey, demand, out, *peak_heat);
    out.installed = out.needed + out.spare;
    if (auto ok = judge_number(heater, out.installed); !ok) return tl::unexpected(ok.error());
    out.flow = static_cast<double>(out.installed) * each->flow;
    out.flow_firm = static_cast<double>(out.needed) * each->flow;
    out.says = says_of(out, heater, demand, survey.use.care && out.spare == 0);
    out.options = {
        {heater.key, out.needed, out.spare, out.installed, *each, out.installed * price_of(survey, heater), {}}};
    return out;
}

Result<Capacity> capacity_of(const survey::Survey& survey, const Demand& demand, const catalogue::Catalogue& catalogue,
                             const catalogue::Heater& heater) {
    auto out = sized(survey, demand, heater);
    if (!out) return out;
    if (auto ok = look_round(*out, survey, demand, heater); !ok) return tl::unexpected(ok.error());
    out->mixed = mixed_plant(survey, demand, catalogue);
    return out;
}

}  // namespace bw::demand
