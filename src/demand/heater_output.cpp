// SPDX-License-Identifier: MIT
#include "code/altitude.h"
#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {

namespace {

Result<void> judge(const catalogue::Heater& heater, Temperature cold, Temperature hot, Length altitude, Gas gas) {
    auto metres = [](Length q) { return print(amount(q, Kind::altitude), System::us); };
    if (!(hot > cold))
        return fail("hot water of " + say(hot) + " is not above cold water of " + say(cold), "a hotter setpoint");
    if (altitude > heater.altitude_greatest)
        return fail(heater.key + " may stand no higher than " + metres(heater.altitude_greatest) + "; the job is at " +
                        metres(altitude),
                    "a model allowed at this altitude");
    auto burns = [&](const catalogue::GasInlet& inlet) { return inlet.gas == gas; };
    if (std::none_of(heater.gas.begin(), heater.gas.end(), burns))
        return fail(heater.key + " does not burn " + std::string(text::name(gas)), "a model for this gas");
    if ((hot - heater.setpoint_greatest) / kelvin_difference > 1e-3)
        return fail(
            heater.key + " goes no higher than " + say(heater.setpoint_greatest) + "; " + say(hot) + " is wanted",
            "a cooler setpoint or another model");
    return {};
}

/// The maker's rule where the catalogue has one, else the code's.
Result<code::Ruled<Ratio>> factor_at(const catalogue::Heater& heater, Length altitude) {
    if (heater.derate_per_1000ft)
        return code::altitude_factor(altitude, *heater.derate_per_1000ft, heater.derate_above);
    return code::altitude_factor(altitude);
}

/// Greatest flow whose loss of pressure in the heater stays within `pressure`.
VolumeFlow flow_within(const catalogue::Heater& heater, const std::optional<Pressure>& pressure) {
    VolumeFlow low{}, high = heater.flow_greatest;
    if (!pressure || heater.pressure_drop.empty()) return high;
    auto at_greatest = catalogue::pressure_drop(heater, high);
    if (!at_greatest || *at_greatest <= *pressure) return high;
    for (int i = 0; i < 60; ++i) {
        const VolumeFlow middle = 0.5 * (low + high);
        auto loss = catalogue::pressure_drop(heater, middle);
        (loss && *loss <= *pressure ? low : high) = middle;
    }
    return low;
}

void explain(HeaterOutput& out, Temperature cold, Temperature hot, VolumeFlow by_heat, const catalogue::Heater& heater,
             const HeaterDuty& duty) {
    out.derivation.push_back(
        {"Input at the job's altitude, taken off once; the burner sets the input, so the gas's own "
         "heating value changes the volume of gas burned and not the input",
         "I = I0 fa",
         {{"I0", "greatest input at sea level", units::amount(heater.input_greatest)},
          {"fa", "altitude factor", units::percent(out.altitude_factor)}},
         reason::Term{"I", "input", units::amount(out.input)}});
    reason::Step heat{
        "Heat into the water; the exhaust condenses best on the coldest return, so efficiency is read "
        "at the cold inlet",
        "P = I e",
        {{"e", "thermal efficiency at the inlet temperature", units::percent(out.efficiency)},
         {"tc", "inlet", units::amount(cold)}},
        reason::Term{"P", "output", units::amount(out.output)}};
    if (duty.scale_allowance > 0) {
        heat.formula = "P = I e (1 - s)";
        heat.given.push_back({"s", "given up to scale between cleanings", units::percent(duty.scale_allowance)});
    }
    out.derivation.push_back(std::move(heat));
    out.derivation.push_back({"Flow that this heats",
                              "Vh = P / (rho c (th - tc))",
                              {{"th", "outlet", units::amount(hot)}, {"tc", "inlet", units::amount(cold)}},
                              reason::Term{"Vh", "flow by heat", units::amount(by_heat)}});
    if (out.limited_by_flow)
        out.derivation.push_back({out.flow_greatest < heater.flow_greatest
                                      ? "The heater passes no more than the pressure there is drives through it"
                                      : "The heater passes no more than its greatest flow",
                                  "Vh = min(Vh, Vmax)",
                                  {{"Vmax", "greatest flow", units::amount(out.flow_greatest)}},
                                  reason::Term{"Vh", "flow", units::amount(out.flow)}});
}

}  // namespace

Result<HeaterOutput> heater_output(const catalogue::Heater& heater, Temperature cold, Temperature hot, Length altitude,
                                   Gas gas, const HeaterDuty& duty) {
    if (auto ok = judge(heater, cold, hot, altitude, gas); !ok) return tl::unexpected(ok.error());
    auto factor = factor_at(heater, altitude);
    if (!factor) return tl::unexpected(factor.error());
    auto efficiency = catalogue::efficiency(heater, cold);
    if (!efficiency) return tl::unexpected(efficiency.error());
    auto each = matter::heat_to_warm(1.0 * cubic_metre_per_second, cold, hot);
    if (!each) return tl::unexpected(each.error());
    HeaterOutput out;
    out.altitude_factor = factor->value;
    out.efficiency = *efficiency;
    out.input = factor->value * heater.input_greatest;
    out.output = out.efficiency * out.input * (1 - duty.scale_allowance);
    out.flow_greatest = flow_within(heater, duty.pressure);
    VolumeFlow by_heat = out.output / *each * cubic_metre_per_second;
    out.limited_by_flow = by_heat > out.flow_greatest;
    out.flow = std::min(by_heat, out.flow_greatest);
    out.derivation = factor->derivation;
    if (heater.derate_per_1000ft)
        if (auto by_code = code::altitude_factor(altitude))
            out.derivation.push_back(
                {"Beside it, what the code would take off where the maker says nothing",
                 "",
                 {{"z", "altitude", units::amount(altitude, Kind::altitude)}},
                 reason::Term{"fc", "share of sea-level input by the code", units::percent(by_code->value)}});
    explain(out, cold, hot, by_heat, heater, duty);
    out.sources = factor->sources;
    out.sources.insert(out.sources.end(), heater.sources.begin(), heater.sources.end());
    auto water = matter::water_sources();
    out.sources.insert(out.sources.end(), water.begin(), water.end());
    return out;
}

}  // namespace bw::demand
