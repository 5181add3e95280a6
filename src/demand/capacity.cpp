// SPDX-License-Identifier: MIT
#include <cmath>

#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {

namespace {

using survey::SparePolicy;

/// What a heater must be able to do here besides heating enough.
Result<void> judge_model(const survey::Survey& survey, const catalogue::Heater& heater) {
    for (const auto& inlet : heater.gas) {
        if (inlet.gas != *survey.gas.kind || *survey.gas.delivery_pressure >= inlet.least) continue;
        return fail(heater.key + " needs " + print(amount(inlet.least, Kind::gas_pressure), System::us) +
                        " at its gas inlet; the supply brings " +
                        print(amount(*survey.gas.delivery_pressure, Kind::gas_pressure), System::us),
                    "more gas pressure or another model");
    }
    if (*survey.wishes.vent == survey::VentWish::common && heater.common_vents.empty())
        return fail(heater.key + " is not listed for common venting", "single vents or another model");
    if (*survey.wishes.room_air && !heater.room_air_allowed)
        return fail(heater.key + " may not burn room air", "piped outdoor air or another model");
    return {};
}

struct Numbers {
    int needed = 0, spare = 0;
};

/// The least whole number not below x, forgiving the last bits of arithmetic.
int whole(double x) { return std::max(1, static_cast<int>(std::ceil(x * (1 - 1e-9)))); }

/// Heaters that carry `times` the peak and the loop's loss, by heat and by the flow they can pass.
int heaters_for(const Demand& demand, const catalogue::Heater& heater, const HeaterOutput& each, Power peak_heat,
                double times) {
    double by_heat = (times * peak_heat + demand.recirculation_loss) / each.output;
    double by_flow = (times * demand.peak + demand.recirculation_flow) / heater.flow_greatest;
    return std::max(whole(by_heat), whole(by_flow));
}

void explain_number(Capacity& out, const Demand& demand, const catalogue::Heater& heater, Power peak_heat) {
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
                               {"Vmax", "greatest flow of one heater", units::amount(heater.flow_greatest)}},
                              reason::Term{"n", "heaters needed", units::count(out.needed)}});
}

int spare_for(const survey::Survey& survey, const Demand& demand, const catalogue::Heater& heater, Capacity& out,
              Power peak_heat) {
    switch (*survey.wishes.spare) {
        case SparePolicy::none:
            out.derivation.push_back({"No spare heater is asked for"});
            return 0;
        case SparePolicy::one:
            out.derivation.push_back({"One spare: the peak is met with any one heater down"});
            return 1;
        case SparePolicy::share: break;
    }
    double share = *survey.wishes.spare_share;
    int all = heaters_for(demand, heater, out.each, peak_heat, 1 + share);
    out.derivation.push_back({"Spare as a share of the peak",
                              "n = heaters for V (1 + s)",
                              {{"s", "share", units::percent(share)}},
                              reason::Term{"n", "heaters installed", units::count(all)}});
    return std::max(0, all - out.needed);
}

double price_of(const survey::Survey& survey, const catalogue::Heater& heater) {
    auto own = survey.wishes.prices.find(heater.key);
    return own == survey.wishes.prices.end() ? heater.price : own->second;
}

std::string says_of(const Capacity& capacity, const catalogue::Heater& heater, const Demand& demand) {
    auto text = fmt::format("{} of {}: each gives {} from {} to {}", capacity.installed, heater.title,
                            say(capacity.each.flow), say(demand.cold), say(demand.hot));
    text += capacity.each.limited_by_flow ? " (limited by its greatest flow)" : "";
    text += fmt::format("; {} carry the peak of {}", capacity.needed, say(demand.peak));
    if (demand.recirculation_loss.value() > 0) text += " and the loop's " + say(demand.recirculation_loss);
    text += capacity.spare > 0 ? fmt::format(", {} spare", capacity.spare) : ", no spare";
    return text + ".";
}

}  // namespace

Result<Capacity> capacity_of(const survey::Survey& survey, const Demand& demand, const catalogue::Catalogue& /*all*/,
                             const catalogue::Heater& heater) {
    auto each = heater_output(heater, demand.cold, demand.hot, *survey.altitude, *survey.gas.kind);
    if (!each) return tl::unexpected(each.error());
    if (auto ok = judge_model(survey, heater); !ok) return tl::unexpected(ok.error());
    auto peak_heat = matter::heat_to_warm(demand.peak, demand.cold, demand.hot);
    if (!peak_heat) return tl::unexpected(peak_heat.error());
    Capacity out;
    out.heater = heater.key;
    out.each = *each;
    out.derivation = each->derivation;
    out.needed = heaters_for(demand, heater, *each, *peak_heat, 1);
    explain_number(out, demand, heater, *peak_heat);
    out.spare = spare_for(survey, demand, heater, out, *peak_heat);
    out.installed = out.needed + out.spare;
    if (out.installed > heater.greatest_group)
        return fail(fmt::format("{} would take {} heaters, and at most {} work as one linked group", heater.key,
                                out.installed, heater.greatest_group),
                    "a larger model, or the load split between plants");
    out.flow = static_cast<double>(out.installed) * each->flow;
    out.flow_firm = static_cast<double>(out.needed) * each->flow;
    out.says = says_of(out, heater, demand);
    out.options = {
        {heater.key, out.needed, out.spare, out.installed, *each, out.installed * price_of(survey, heater), {}}};
    return out;
}

}  // namespace bw::demand
