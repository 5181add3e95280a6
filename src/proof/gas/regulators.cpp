// SPDX-License-Identifier: MIT
// Line gas regulators: needed or not, and what each must have about it.
#include "code/gas_rules.h"
#include "network/regulator.h"
#include "proof/checks.h"
#include "proof/gas/gas_run.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Kind;
using units::pascal;

units::Amount column(units::Pressure p) { return amount(p, Kind::gas_pressure); }

/// What one regulator meets, read off the ways that pass it.
struct Duty {
    int piece = -1;
    int heaters = 0;
    units::Pressure inlet{};
    std::vector<int> upstream, downstream;  ///< on the way to the first heater it feeds
};

std::vector<Duty> duties(const View& view) {
    std::vector<Duty> found;
    for (int n = 1; n <= view.heaters(); ++n) {
        const auto& run = view.gas_run(n);
        if (!run) continue;
        for (std::size_t i = 0; i < run->regulators.size(); ++i) {
            const int piece = run->regulators[i];
            auto at = std::find_if(found.begin(), found.end(), [&](const Duty& d) { return d.piece == piece; });
            if (at == found.end()) {
                const auto place = std::find(run->pieces.begin(), run->pieces.end(), piece);
                found.push_back(
                    {piece, 0, run->regulator_inlets[i], {run->pieces.begin(), place}, {place + 1, run->pieces.end()}});
                at = found.end() - 1;
            }
            ++at->heaters;
            at->inlet = std::min(at->inlet, run->regulator_inlets[i]);
        }
    }
    return found;
}

std::vector<int> of_parts(const View& view, const std::vector<int>& pieces, std::initializer_list<Part> parts) {
    std::vector<int> found;
    for (const int i : pieces)
        if (std::find(parts.begin(), parts.end(), view.piece(i).part) != parts.end()) found.push_back(i);
    return found;
}

Check of_regulator(const View& view, const Duty& duty, std::string_view row, Sources sources) {
    auto check = new_check(row, std::move(sources), {{"piece", view.piece(duty.piece).id, view.name(duty.piece)}});
    about(check, view, {duty.piece});
    depends_on_fields(check, view.survey, {"gas.delivery-pressure"});
    return check;
}

void shut_off(const View& view, const Duty& duty, const code::RegulatorRules& rules, Checks& checks) {
    auto check = of_regulator(view, duty, "gas.regulator.shut-off.<piece>", {rules.shutoff_upstream.source});
    const auto valves = of_parts(view, duty.upstream, {Part::gas_valve, Part::ball_valve});
    about(check, view, valves);
    checks.push_back(holds(std::move(check), !valves.empty(), "A valve stands before it.",
                           view.name(duty.piece) + " has no shut-off valve before it."));
}

bool has_test_port(const View& view, const std::vector<int>& pieces, std::vector<int>& found) {
    for (const int i : pieces)
        for (int p = 0; p < static_cast<int>(view.piece(i).ports.size()); ++p) {
            const auto mate = view.plant.mate({i, p});
            if (view.piece(i).part == Part::test_port)
                found.push_back(i);
            else if (mate.piece >= 0 && view.piece(mate.piece).part == Part::test_port)
                found.push_back(mate.piece);
        }
    return !found.empty();
}

void test_ports(const View& view, const Duty& duty, const code::RegulatorRules& rules, Checks& checks) {
    auto check = of_regulator(view, duty, "gas.regulator.test-ports.<piece>", {rules.test_ports.source});
    std::vector<int> before, after;
    const bool has_before = has_test_port(view, duty.upstream, before),
               has_after = has_test_port(view, duty.downstream, after);
    about(check, view, before);
    about(check, view, after);
    checks.push_back(
        holds(std::move(check), has_before && has_after, "Pressure can be read on both sides of it.",
              fmt::format("{} has no test port {} it.", view.name(duty.piece), has_before ? "after" : "before")));
}

void vent(const View& view, const Duty& duty, const code::RegulatorRules& rules, Checks& checks) {
    auto check = of_regulator(view, duty, "gas.regulator.vent.<piece>", {rules.vent_outdoors_or_limiter.source});
    const auto limiter = view.number(duty.piece, "vent-limiter");
    if (limiter && *limiter > 0) {
        checks.push_back(holds(std::move(check), true,
                               "Its listed vent limiter lets out no more than a leak's worth; it stays in the position "
                               "its listing asks for.",
                               {}));
        return;
    }
    const int port = view.plant.port(duty.piece, "vent");
    const auto walk = port < 0 ? std::vector<Step>{} : view.outward({duty.piece, port}, [](int, int) { return true; });
    for (const auto& s : walk) about(check, view, {s.piece});
    if (!walk.empty()) {
        checks.push_back(reason::referred(
            std::move(check),
            "A vent pipe leaves it; the inspector confirms that it ends outdoors, screened and clear of openings."));
        return;
    }
    checks.push_back(reason::referred(std::move(check),
                                      "Its catalogue row names no vent limiter and no vent pipe leaves it: a licensed "
                                      "gas fitter must fit a listed limiter or pipe the vent outdoors."));
}

void pressures(const View& view, const Duty& duty, units::Pressure heater_greatest, Checks& checks) {
    const Sources own = view.item(duty.piece) ? view.item(duty.piece)->sources : Sources{by_pieces()};
    auto lock = of_regulator(view, duty, "gas.regulator.lock-up.<piece>", own);
    const auto lock_up = view.number(duty.piece, "lock-up");
    lock.says = "With every burner shut the regulator must close before the heaters' limit.";
    if (lock_up && *lock_up * pascal > heater_greatest)
        lock.says += fmt::format(" It locks up {} too high: another regulator.",
                                 us(column(*lock_up * pascal - heater_greatest)));
    checks.push_back(lock_up
                         ? at_most(std::move(lock), column(*lock_up * pascal), column(heater_greatest))
                         : holds(std::move(lock), false, {}, view.name(duty.piece) + " names no lock-up pressure."));

    auto inlet = of_regulator(view, duty, "gas.regulator.inlet.<piece>", own);
    const auto greatest = view.number(duty.piece, "inlet-greatest");
    inlet.says = "What the regulator's maker allows before it.";
    if (greatest && *view.survey.gas.delivery_pressure > *greatest * pascal)
        inlet.says += fmt::format(" {} too much: a regulator for higher inlets, or one before it.",
                                  us(column(*view.survey.gas.delivery_pressure - *greatest * pascal)));
    checks.push_back(
        greatest ? at_most(std::move(inlet), column(*view.survey.gas.delivery_pressure), column(*greatest * pascal))
                 : holds(std::move(inlet), false, {}, view.name(duty.piece) + " names no greatest inlet pressure."));

    auto capacity = of_regulator(view, duty, "gas.regulator.capacity.<piece>", own);
    const auto carries = view.number(duty.piece, "capacity");
    capacity.says = "All heaters behind it at once, against what it passes.";
    const auto load = static_cast<double>(duty.heaters) * gas_flow_each(view);
    const auto passes =
        carries ? std::optional(network::regulator_passes(*view.item(duty.piece), duty.inlet)) : std::nullopt;
    step(capacity, fmt::format("It feeds {} heater{}.", duty.heaters, duty.heaters == 1 ? "" : "s"), "Q = n q",
         {{"n", "heaters", units::count(duty.heaters)},
          {"q", "one heater's gas", amount(gas_flow_each(view), Kind::gas_flow)}},
         Term{"Q", "gas flow", amount(load, Kind::gas_flow)});
    if (passes && passes->value() < *carries)
        step(capacity,
             "Its inlet is below the pressure its capacity is stated at: what a wide-open orifice passes goes with the "
             "root of the pressure across it.",
             "C = C0 sqrt((P1 - P2) / (P0 - P2))",
             {{"C0", "capacity stated", amount(units::VolumeFlow::from_value(*carries), Kind::gas_flow)},
              {"P0", "inlet it is stated at", column(view.number(duty.piece, "capacity-inlet").value_or(0) * pascal)},
              {"P1", "inlet with all firing", column(duty.inlet)},
              {"P2", "outlet", column(view.number(duty.piece, "outlet").value_or(0) * pascal)}},
             Term{"C", "capacity here", amount(*passes, Kind::gas_flow)});
    if (passes && load > *passes)
        capacity.says +=
            fmt::format(" It lacks {}: a regulator for {} at {}.", us(amount(load - *passes, Kind::gas_flow)),
                        us(amount(load, Kind::gas_flow)), us(column(duty.inlet)));
    checks.push_back(passes
                         ? at_most(std::move(capacity), amount(load, Kind::gas_flow), amount(*passes, Kind::gas_flow))
                         : holds(std::move(capacity), false, {}, view.name(duty.piece) + " names no capacity."));

    auto above = of_regulator(view, duty, "gas.regulator.running-inlet.<piece>", own);
    above.says = "With all heaters firing enough is left for the regulator to work on.";
    if (const auto setting = view.number(duty.piece, "outlet").value_or(0) * pascal; duty.inlet < setting)
        above.says = fmt::format(
            "With all heaters firing {} is lacking before it: so much more delivery pressure, or "
            "larger pipe before it.",
            us(column(setting - duty.inlet)));
    checks.push_back(
        at_least(std::move(above), column(duty.inlet), column(view.number(duty.piece, "outlet").value_or(0) * pascal)));
}

void overprotection(const View& view, const Duty& duty, const code::RegulatorRules& rules, Checks& checks) {
    if (!rules.overprotection) return;
    auto check = of_regulator(view, duty, "gas.regulator.second-device.<piece>", rules.sources);
    check.derivation = rules.derivation;
    checks.push_back(reason::referred(std::move(check),
                                      "Above 2 psi a second device must hold the outlet to 2 psi if the first fails. "
                                      "The gas supplier or a licensed gas fitter confirms one is fitted."));
}

}  // namespace

void check_regulators(const View& view, Checks& checks) {
    const auto* burns = gas_inlet(view);
    const auto greatest = burns ? burns->greatest : units::Pressure{};
    const auto rules = code::gas_regulator_rules(*view.survey.gas.delivery_pressure, greatest);
    const auto found = duties(view);
    auto needed = new_check("gas.regulator", rules.sources);
    needed.derivation = rules.derivation;
    depends_on_fields(needed, view.survey, {"gas.delivery-pressure"});
    for (const auto& duty : found) about(needed, view, {duty.piece});
    int covered = 0;
    for (int n = 1; n <= view.heaters(); ++n)
        if (const auto& run = view.gas_run(n); run && !run->regulators.empty()) ++covered;
    checks.push_back(holds(std::move(needed), !rules.needed || covered == view.heaters(),
                           rules.needed ? "Every heater's gas passes a regulator."
                                        : "Delivery is within the heaters' range: no line regulator is needed.",
                           fmt::format("Delivery is above the heaters' greatest inlet pressure, and {} of {} heaters "
                                       "have no regulator before them.",
                                       view.heaters() - covered, view.heaters())));
    for (const auto& duty : found) {
        shut_off(view, duty, rules, checks);
        test_ports(view, duty, rules, checks);
        vent(view, duty, rules, checks);
        pressures(view, duty, greatest, checks);
        overprotection(view, duty, rules, checks);
    }
}

}  // namespace bw::proof
