// SPDX-License-Identifier: MIT
// The gas as a whole: indoor pressure, meter, materials, bonding, test and purge.
#include <map>

#include "code/gas_rules.h"
#include "proof/checks.h"
#include "proof/gas/gas_run.h"
#include "reason/document.h"
#include "text/spoken.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Kind;

void indoor_pressure(const View& view, Checks& checks) {
    const auto limit = code::gas_indoor_pressure_limit();
    auto check = new_check("gas.indoor-pressure", {limit.source});
    check.says = limit.says;
    if (*view.survey.gas.delivery_pressure > limit.value)
        check.says += fmt::format(": {} too much, to be taken down outside the building.",
                                  us(amount(*view.survey.gas.delivery_pressure - limit.value)));
    about(check, view, {view.plant.find("site.gas")});
    depends_on_fields(check, view.survey, {"gas.delivery-pressure"});
    checks.push_back(at_most(std::move(check), amount(*view.survey.gas.delivery_pressure), amount(limit.value)));
}

void meter(const View& view, Checks& checks) {
    const auto& gas = view.survey.gas;
    units::VolumeFlow load = static_cast<double>(view.heaters()) * gas_flow_each(view);
    auto check = new_check("gas.meter", {ifgc("402.2"), nfpa54("5.4")});
    step(check, "All heaters at once.", "Q = n P / H",
         {{"n", "heaters", units::count(view.heaters())},
          {"P", "input at this altitude", amount(view.capacity.each.input)},
          {"H", "heating value", amount(*gas.heating_value, Kind::heating_value)}},
         Term{"Q", "gas flow", amount(load, Kind::gas_flow)});
    for (const auto& other : gas.other) {
        load += other.input / *gas.heating_value;
        step(check, "On the same meter: " + other.name + ".", "Q = P / H", {{"P", "input", amount(other.input)}},
             Term{"Q", "gas flow", amount(other.input / *gas.heating_value, Kind::gas_flow)});
    }
    depends_on_fields(check, view.survey, {"gas.meter", "gas.heating-value", "site.altitude"});
    if (gas.meter.value.value() <= 0) {
        check.value = amount(load, Kind::gas_flow);
        checks.push_back(reason::referred(
            std::move(check),
            fmt::format("The meter's capacity was not given. The gas supplier must confirm {} for meter and service.",
                        us(amount(load, Kind::gas_flow)))));
        return;
    }
    check.says = "Meter and service carry the heaters and everything else that was named.";
    if (load > *gas.meter)
        check.says = fmt::format("It lacks {}: the gas supplier changes the meter and service for {} at least.",
                                 us(amount(load - *gas.meter, Kind::gas_flow)), us(amount(load, Kind::gas_flow)));
    checks.push_back(at_most(std::move(check), amount(load, Kind::gas_flow), amount(*gas.meter, Kind::gas_flow)));
}

bool pipe_like(Part part) { return part == Part::pipe || part == Part::nipple; }

void materials(const View& view, Checks& checks) {
    auto check = new_check("gas.materials", {ifgc("403"), nfpa54("5.6")});
    depends_on_fields(check, view.survey, {"gas.low-sulphide"});
    std::vector<int> wrong;
    std::string why;
    std::map<Material, bool> judged;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (piece.service != Service::gas || piece.part == Part::connection || piece.part == Part::hanger) continue;
        if (const auto* row = view.item(i);
            row && !pipe_like(piece.part) && !row->gas_listed &&
            (is_valve(piece.part) || piece.part == Part::flexible_gas || piece.part == Part::regulator)) {
            wrong.push_back(i);
            why = view.name(i) + " is not listed for gas";
        }
        const auto material = view.pipe(i) ? view.material(i) : std::nullopt;
        if (!material || judged.count(*material)) continue;
        const auto rule = code::gas_material(*material, *view.survey.gas.low_sulphide);
        judged[*material] = rule && rule->value;
        if (judged[*material]) {
            check.sources.push_back(rule->source);
            step(check, rule->says);
            continue;
        }
        wrong.push_back(i);
        why = fmt::format("{} may not carry this gas", text::spoken(*material));
    }
    about(check, view, wrong);
    checks.push_back(
        holds(std::move(check), wrong.empty() && !judged.empty(),
              "Every pipe is of a kind the code allows, every valve, connector and regulator is listed for gas.",
              judged.empty() ? "The plant has no gas pipe." : why + "."));
}

void bonding(const View& view, Checks& checks) {
    auto check = new_check("gas.bond", {code::gas_bonding().source, nec("250.104(B)")});
    std::vector<int> bonds;
    for (const int i : view.of(Part::bond))
        for (int p = 0; p < static_cast<int>(view.piece(i).ports.size()); ++p)
            if (const auto mate = view.plant.mate({i, p});
                mate.piece >= 0 && view.piece(mate.piece).service == Service::gas)
                bonds.push_back(i);
    about(check, view, bonds);
    if (bonds.empty()) {
        checks.push_back(holds(std::move(check), false, {}, "No bond clamp is joined to the gas pipe."));
        return;
    }
    checks.push_back(reason::referred(std::move(check),
                                      "A bond clamp is joined to the gas pipe; a licensed electrician sizes the "
                                      "conductor and connects it to the grounding electrode system."));
}

struct Contents {
    units::Volume volume{};
    std::vector<code::PurgeRun> runs;
};

Contents contents(const View& view) {
    Contents found;
    std::map<units::Nominal, units::Length> lengths;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (piece.service != Service::gas || !pipe_like(piece.part)) continue;
        const auto bore = piece.bore * units::metre, length = piece.cut * units::metre;
        found.volume += 0.25 * units::pi * bore * bore * length;
        lengths[piece.size] += length;
    }
    for (const auto& [size, length] : lengths) found.runs.push_back({size, length});
    return found;
}

void test(const View& view, Checks& checks) {
    auto check = new_check("gas.test", {ifgc("406", Standing::published)});
    const auto held = contents(view);
    const auto plan = code::gas_test(*view.survey.gas.delivery_pressure, held.volume, held.runs);
    depends_on_fields(check, view.survey, {"gas.delivery-pressure"});
    if (!plan) {
        checks.push_back(holds(std::move(check), false, {}, units::describe(plan.error())));
        return;
    }
    check.sources = plan->sources;
    check.derivation = plan->derivation;
    check.value = amount(plan->value.pressure);
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("CAUTION: test with air or inert gas, never oxygen, heaters disconnected: {} held for {}; gauge "
                    "reading to {} at most. Purge {}. A licensed gas fitter does it, the inspector witnesses.",
                    us(amount(plan->value.pressure)), us(amount(plan->value.duration)),
                    us(amount(plan->value.gauge_range)),
                    plan->value.purge_outdoors
                        ? "outdoors, with inert gas first"
                        : "as the code allows for small pipe, watched with a gas detector, no flame near")));
}

void delivery(const View& view, Checks& checks) {
    auto check = new_check("gas.delivery", {ifgc("402.2"), nfpa54("5.4")});
    check.value = amount(*view.survey.gas.delivery_pressure, Kind::gas_pressure);
    depends_on_fields(check, view.survey, {"gas.delivery-pressure"});
    about(check, view, {view.plant.find("site.gas")});
    if (check.assumptions.empty()) {
        check.sources.push_back(given("gas.delivery-pressure"));
        checks.push_back(
            holds(std::move(check), true, "The survey gives it; measure it before the first heater is lit.", {}));
        return;
    }
    checks.push_back(reason::referred(std::move(check),
                                      "The delivery pressure was assumed. The gas supplier must confirm it, and that "
                                      "it holds with every heater firing."));
}

}  // namespace

void check_gas_supply(const View& view, Checks& checks) {
    delivery(view, checks);
    indoor_pressure(view, checks);
    meter(view, checks);
    materials(view, checks);
    bonding(view, checks);
    test(view, checks);
}

}  // namespace bw::proof
