// SPDX-License-Identifier: MIT
#include "proof/checks.h"
#include "proof/gas/gas_mend.h"
#include "proof/gas/gas_run.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Kind;

units::Amount column(units::Pressure p) { return amount(p, Kind::gas_pressure); }

/// One section: pipe and fittings by the code's equation, connectors by their velocity heads.
void along(Check& check, const View& view, const GasSection& section) {
    const auto gas = code::gas_constants(*view.survey.gas.kind);
    const bool high = section.equation == code::GasEquation::high_pressure;
    step(check, fmt::format("From {} to {}.", view.name(section.pieces.front()), view.name(section.pieces.back())),
         high ? "D = Q^0.381 / (18.93 (((P1^2 - P2^2) Y) / (Cr L))^0.206), dH = P1 - P2"
              : "D = Q^0.381 / (19.17 (dH / (Cr L))^0.206)",
         {{"D", "inside diameter", amount(section.bore, Kind::small_length)},
          {"Q", "gas flow", amount(section.flow, Kind::gas_flow)},
          {"L", "pipe and the equivalent of its fittings",
           amount(section.length + section.equivalent, Kind::long_length)},
          {"Cr", "the gas's constant", units::number(gas.cr)},
          {"P1", "entering", column(section.entering)}},
         Term{"dH", "drop", column(section.drop - section.by_heads)});
    if (section.by_heads.value() > 0)
        step(check, "Connectors and what else the code gives no length for, by the catalogue.", "dHk = K rho v^2 / 2",
             {{"K", "velocity heads", units::number(section.velocity_heads)}},
             Term{"dHk", "drop", column(section.by_heads)});
}

void working(Check& check, const View& view, const GasRun& run) {
    step(check, "One heater's gas.", "Q = P / H",
         {{"P", "input at this altitude", amount(view.capacity.each.input)},
          {"H", "heating value", amount(*view.survey.gas.heating_value, Kind::heating_value)}},
         Term{"Q", "gas flow", amount(gas_flow_each(view), Kind::gas_flow)});
    for (const auto& section : run.sections) {
        if (!section.pieces.empty()) along(check, view, section);
        if (section.regulator_after < 0) continue;
        step(
            check, fmt::format("{} brings it down.", view.name(section.regulator_after)), {},
            {{"P1", "before it", column(section.entering - section.drop)}},
            Term{"P2", "after it", column(view.number(section.regulator_after, "outlet").value_or(0) * units::pascal)});
    }
    step(check, "What is left at the heater.", {},
         {{"P0", "delivery pressure", column(*view.survey.gas.delivery_pressure)}},
         Term{"P", "pressure at the heater", column(run.running)});
}

/// The solved network beside the code's equation.
void beside(Check& check, const View& view, int number) {
    const auto& solved = view.hydraulics.gas;
    const auto at = static_cast<std::size_t>(number) - 1;
    if (!solved || !solved->flows.all || at >= solved->flows.alone.size()) return;
    std::vector<Term> terms;
    if (const auto& alone = solved->flows.alone[at])
        terms.push_back({"Pa", "this heater alone firing", column(alone->heater[at])});
    step(check, "Beside it, the pipe solved as a network (gas.solved).", {}, std::move(terms),
         Term{"Ps", "all firing", column(solved->flows.all->heater[at])});
}

/// What mends a lowest pressure below the heaters' least, found once for all of them; empty where none is below.
std::string mending(const View& view) {
    const auto* inlet = gas_inlet(view);
    if (!inlet) return {};
    for (int n = 1; n <= view.heaters(); ++n)
        if (const auto& run = view.gas_run(n); run && run->running < inlet->least) return gas_mend(view, inlet->least);
    return {};
}

void pressures(const View& view, int number, const std::string& mends, Checks& checks) {
    Sources sources{ifgc("402.4", Standing::published), nfpa54("6.4")};
    sources.insert(sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    auto running = new_check("gas.pressure.heater-<n>", sources, {{"n", number}});
    auto rest = new_check("gas.static.heater-<n>", view.heater.sources, {{"n", number}});
    for (auto* check : {&running, &rest}) {
        about(*check, view, {view.heater_piece(number)});
        depends_on_fields(*check, view.survey,
                          {"gas.delivery-pressure", "gas.heating-value", "gas.specific-gravity", "site.altitude"});
    }
    const auto* inlet = gas_inlet(view);
    const auto& run = view.gas_run(number);
    if (!inlet || !run) {
        const auto why = inlet ? units::describe(run.error())
                               : fmt::format("The heater does not burn {}.", text::name(*view.survey.gas.kind));
        checks.push_back(holds(std::move(running), false, {}, fmt::format("heater {}: {}", number, why)));
        checks.push_back(holds(std::move(rest), false, {}, fmt::format("heater {}: {}", number, why)));
        return;
    }
    working(running, view, *run);
    beside(running, view, number);
    about(running, view, run->regulators);
    running.says = fmt::format("The heater needs at least {} while it fires.", us(column(inlet->least)));
    if (run->running < inlet->least)
        running.says += fmt::format(" It lacks {}. {}", us(column(inlet->least - run->running)), mends);
    checks.push_back(at_least(std::move(running), column(run->running), column(inlet->least)));
    about(rest, view, run->regulators);
    rest.says = run->regulators.empty()
                    ? "With nothing flowing the delivery pressure stands at the heater."
                    : "With nothing flowing the last regulator's lock-up pressure stands at the heater.";
    if (run->rest > inlet->greatest)
        rest.says += run->regulators.empty()
                         ? fmt::format(" It is {} too much: a line regulator before the heaters.",
                                       us(column(run->rest - inlet->greatest)))
                         : fmt::format(" It is {} too much: a regulator that locks up at {} or less.",
                                       us(column(run->rest - inlet->greatest)), us(column(inlet->greatest)));
    checks.push_back(at_most(std::move(rest), column(run->rest), column(inlet->greatest)));
}

void allowed_drop(const View& view, Checks& checks) {
    auto check = new_check("gas.drop", {ifgc("402.5"), nfpa54("6.4")});
    depends_on_fields(check, view.survey, {"gas.delivery-pressure", "gas.allowed-drop"});
    units::Pressure worst{};
    int at = 0;
    for (int n = 1; n <= view.heaters(); ++n) {
        const auto& run = view.gas_run(n);
        if (!run) {
            checks.push_back(
                holds(std::move(check), false, {}, fmt::format("heater {}: {}", n, units::describe(run.error()))));
            return;
        }
        if (at == 0 || run->before_regulator > worst) {
            worst = run->before_regulator;
            at = n;
            check.pieces.clear();
            about(check, view, {view.heater_piece(n)});
        }
    }
    check.says = fmt::format("Greatest on the way to heater {}, all heaters firing.", at);
    if (const auto allowed = *view.survey.gas.allowed_drop; worst > allowed)
        check.says += fmt::format(
            " It is {} too much: larger pipe, or a larger drop where the gas supplier's pressure "
            "leaves it.",
            us(column(worst - allowed)));
    checks.push_back(at_most(std::move(check), column(worst), column(*view.survey.gas.allowed_drop)));
}

}  // namespace

void check_gas_pressure(const View& view, Checks& checks) {
    const auto mends = mending(view);
    for (int n = 1; n <= view.heaters(); ++n) pressures(view, n, mends, checks);
    allowed_drop(view, checks);
}

}  // namespace bw::proof
