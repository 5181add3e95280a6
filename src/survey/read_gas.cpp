// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "survey/parts.h"
#include "survey/section.h"

namespace bw::survey {
namespace {

struct Usual {
    Fallback heating_value, gravity, pressure;
    double least_value, greatest_value;  ///< Btu/ft3
    double least_gravity, greatest_gravity;
};

const Usual& usual(Gas gas) {
    static const Usual natural{
        {"1000 Btu/ft3", "low end of pipeline gas, so that flows are not too small; ask the utility"},
        {"0.60", "the gravity of the code's natural-gas tables"},
        {"7 inH2O", "usual low-pressure delivery; ask the utility", true},
        800,
        1300,
        0.5,
        0.8};
    static const Usual propane{
        {"2500 Btu/ft3", "rounded down from pure propane, so that flows are not too small; ask the supplier"},
        {"1.50", "the gravity of the code's propane tables"},
        {"11 inH2O", "usual after the second-stage regulator; ask the supplier", true},
        2200,
        2700,
        1.4,
        1.65};
    return gas == Gas::natural ? natural : propane;
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
    const auto& limits = usual(gas.kind.value);
    const auto kind = text::name(gas.kind.value);
    const double value = gas.heating_value.value / btu_per_cubic_foot;
    if (value < limits.least_value * 0.9999 || value > limits.greatest_value * 1.0001)
        t.refuse("heating-value", fmt::format("{:.0f} Btu/ft3 is not {}", value, kind),
                 fmt::format("{:g} Btu/ft3 to {:g} Btu/ft3 for {}", limits.least_value, limits.greatest_value, kind));
    if (gas.specific_gravity.value < limits.least_gravity || gas.specific_gravity.value > limits.greatest_gravity)
        t.refuse("specific-gravity", fmt::format("{:g} is not {}", gas.specific_gravity.value, kind),
                 fmt::format("{:g} to {:g} for {}", limits.least_gravity, limits.greatest_gravity, kind));
}

void read_pressures(Table& t, GasSupply& gas) {
    if (!t.take("delivery-pressure", gas.delivery_pressure))
        t.fall_back("delivery-pressure", gas.delivery_pressure, usual(gas.kind.value).pressure);
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
    const auto& otherwise = usual(gas.kind.value);
    if (!t.take("heating-value", gas.heating_value))
        t.fall_back("heating-value", gas.heating_value, otherwise.heating_value);
    if (!t.take("specific-gravity", gas.specific_gravity))
        t.fall_back("specific-gravity", gas.specific_gravity, otherwise.gravity);
    judge_kind(t, gas);
    read_pressures(t, gas);
    if (!t.take("meter", gas.meter))
        t.note("meter", {"not known", "a meter too small starves every burner; ask the utility", true});
    t.take_or_default("low-sulphide", gas.low_sulphide);
    read_other(t, gas, out.assumed);
    return t.finish();
}

}  // namespace bw::survey
