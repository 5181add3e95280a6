// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "matter/fuel.h"
#include "survey/parts.h"
#include "survey/section.h"

namespace bw::survey {
namespace {

Fallback usually(const matter::Usual& usual, bool safety = false) {
    return {std::string(usual.written), std::string(usual.why), safety};
}

/// The drop of the code table an installer would turn to at this pressure.
Fallback usual_drop(Pressure delivery) {
    if (delivery >= 1.999 * psi)
        return {fmt::format("{:.6g} psi", delivery / psi / 2),
                "half the delivery pressure, as the code's 2 psi table allows"};
    if (delivery < 6.0 * inch_water) return {"0.3 inH2O", "the smaller drop of the code's low-pressure tables"};
    return {"0.5 inH2O", "the usual drop of the code's low-pressure tables"};
}

void judge_kind(Table& t, const GasSupply& gas) {
    if (!t.ok()) return;
    const auto& fuel = matter::fuel(gas.kind.value);
    const matter::Range heat = fuel.heating_values, gravity = fuel.gravities;
    const auto kind = text::name(gas.kind.value);
    const double value = gas.heating_value.value / btu_per_cubic_foot;
    if (value < heat.least * 0.9999 || value > heat.greatest * 1.0001)
        t.refuse("heating-value", fmt::format("{:.0f} Btu/ft3 is not {}", value, kind),
                 fmt::format("{:g} Btu/ft3 to {:g} Btu/ft3 for {}", heat.least, heat.greatest, kind));
    if (gas.specific_gravity.value < gravity.least || gas.specific_gravity.value > gravity.greatest)
        t.refuse("specific-gravity", fmt::format("{:g} is not {}", gas.specific_gravity.value, kind),
                 fmt::format("{:g} to {:g} for {}", gravity.least, gravity.greatest, kind));
}

void read_pressures(Table& t, GasSupply& gas) {
    if (!t.take("delivery-pressure", gas.delivery_pressure))
        t.fall_back("delivery-pressure", gas.delivery_pressure,
                    usually(matter::fuel(gas.kind.value).usual_delivery, true));
    if (!t.take("allowed-drop", gas.allowed_drop))
        t.fall_back("allowed-drop", gas.allowed_drop, usual_drop(gas.delivery_pressure.value));
    if (t.ok() && gas.allowed_drop.value >= gas.delivery_pressure.value)
        t.refuse("allowed-drop", "is not below the delivery pressure",
                 "less than gas.delivery-pressure, with enough left for the heaters");
}

void read_other(Table& t, GasSupply& gas, std::vector<Assumption>& assumed) {
    bool stated = false;
    for (const auto& node : t.list("other", &stated)) {
        OtherGasLoad load;
        Table entry("gas.other", node, assumed);
        entry.take("name", load.name);
        entry.take("input", load.input);
        if (auto done = entry.finish(); !done) t.fail(done.error());
        gas.other.push_back(std::move(load));
    }
    if (!stated) t.note("other", {"none", "no other appliance on the meter was named", true});
}

}  // namespace

Result<void> read_gas(const Top& top, Survey& out) {
    auto& gas = out.gas;
    Table t("gas", top.gas, out.assumed);
    t.take("kind", gas.kind);
    const auto& otherwise = matter::fuel(gas.kind.value);
    if (!t.take("heating-value", gas.heating_value))
        t.fall_back("heating-value", gas.heating_value, usually(otherwise.usual_heating_value));
    if (!t.take("specific-gravity", gas.specific_gravity))
        t.fall_back("specific-gravity", gas.specific_gravity, usually(otherwise.usual_gravity));
    judge_kind(t, gas);
    read_pressures(t, gas);
    if (!t.take("meter", gas.meter))
        t.note("meter", {"not known", "a meter too small starves every burner; ask the utility", true});
    t.take_or_default("low-sulphide", gas.low_sulphide);
    read_other(t, gas, out.assumed);
    return t.finish();
}

}  // namespace bw::survey
