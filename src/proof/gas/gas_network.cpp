// SPDX-License-Identifier: MIT
// The gas pressures of the solved network: the lowest with every heater firing, and what a sudden stop does behind a
// regulator.
#include "proof/checks.h"
#include "proof/gas/gas_mend.h"
#include "proof/gas/gas_run.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

Amount column(Pressure p) { return amount(p, Kind::gas_pressure); }

/// The pressures of all heaters in one line, and the least of them.
void row(Check& check, const View& view, std::string says, const std::vector<std::optional<Pressure>>& at) {
    std::vector<Term> terms;
    std::optional<Pressure> least;
    for (int n = 1; n <= view.heaters(); ++n) {
        const auto& p = at[static_cast<std::size_t>(n) - 1];
        if (!p) continue;
        terms.push_back({fmt::format("p{}", n), fmt::format("heater {}", n), column(*p)});
        least = std::min(least.value_or(*p), *p);
    }
    if (least) step(check, std::move(says), {}, std::move(terms), Term{"p", "least", column(*least)});
}

/// Heater by heater: all firing, each alone, none.
void heaters(Check& check, const View& view, const network::GasSolution& solved) {
    const auto count = static_cast<std::size_t>(view.heaters());
    std::vector<std::optional<Pressure>> all(count), alone(count), none(count);
    for (std::size_t n = 0; n < count; ++n) {
        if (const auto& run = view.gas_run(static_cast<int>(n) + 1)) none[n] = run->rest;
        if (n >= solved.flows.alone.size()) continue;
        if (solved.network.heater[n] >= 0) all[n] = solved.flows.all->heater[n];
        if (const auto& one = solved.flows.alone[n]) alone[n] = one->heater[n];
    }
    row(check, view, "All firing.", all);
    row(check, view, "Each firing alone.", alone);
    row(check, view, "None firing: delivery pressure, or the last regulator's lock-up.", none);
}

void lowest(const View& view, Checks& checks) {
    auto check = new_check("gas.solved",
                           {{"Darcy-Weisbach, friction by Colebrook 1939, isothermal gas", "", "", Standing::computed},
                            {"Todini and Pilati", "1988", "gradient method for pipe networks", Standing::computed}});
    check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    depends_on_fields(check, view.survey,
                      {"gas.delivery-pressure", "gas.heating-value", "gas.specific-gravity", "site.altitude"});
    const auto* inlet = gas_inlet(view);
    const auto& solved = view.hydraulics.gas;
    const auto refuse = [&](const std::string& why) { checks.push_back(holds(std::move(check), false, {}, why)); };
    if (!inlet) return refuse(fmt::format("The heater does not burn {}.", text::name(*view.survey.gas.kind)));
    if (!solved) return refuse(fmt::format("The gas is not solved: {}.", describe(solved.error())));
    if (!solved->flows.all) {
        check.limit = column(inlet->least);
        return refuse(fmt::format("With every heater firing the pressure gives out: {}. {}",
                                  describe(solved->flows.all.error()), gas_mend(view, inlet->least)));
    }
    const auto& all = *solved->flows.all;
    step(check,
         fmt::format("The gas pieces as a network of {} links, friction by Colebrook, fittings and connectors by their "
                     "velocity heads; beside it the code's equation in `gas.pressure`.",
                     solved->network.network.links.size()),
         {}, {{"Q", "gas of one heater", amount(solved->feed.each, Kind::gas_flow)}},
         Term{"P0", "delivery pressure", column(solved->feed.delivery)});
    heaters(check, view, *solved);
    const auto value = all.heater[static_cast<std::size_t>(all.lowest) - 1];
    about(check, view, {view.heater_piece(all.lowest)});
    check.says = fmt::format("Heater {} has least, all firing.", all.lowest);
    if (value.value() < 0) check.says += " A pressure below nothing means that its gas gives out.";
    if (value < inlet->least)
        check.says += fmt::format(" It lacks {}. {}", us(column(inlet->least - value)), gas_mend(view, inlet->least));
    checks.push_back(at_least(std::move(check), column(value), column(inlet->least)));
}

/// Gas in the pieces behind a regulator, on the ways to the heaters it feeds.
Volume held_behind(const View& view, int regulator, int& fed) {
    std::vector<char> counted(view.plant.pieces.size(), 0);
    Volume held{};
    fed = 0;
    for (int n = 1; n <= view.heaters(); ++n) {
        const auto& run = view.gas_run(n);
        if (!run) continue;
        const auto from = std::find(run->pieces.begin(), run->pieces.end(), regulator);
        if (from == run->pieces.end()) continue;
        ++fed;
        for (auto at = from + 1; at != run->pieces.end(); ++at) {
            if (std::exchange(counted[static_cast<std::size_t>(*at)], 1)) continue;
            const auto& piece = view.piece(*at);
            held += 0.25 * units::pi * (piece.bore * metre) * (piece.bore * metre) * (piece.cut * metre);
        }
    }
    return held;
}

/// Every burner shuts at once while the regulator still passes full flow: how soon it must have closed.
void sudden_stop(const View& view, int regulator, const catalogue::GasInlet& inlet, const network::GasSolution& solved,
                 Checks& checks) {
    const auto& id = view.piece(regulator).id;
    auto check = new_check("gas.regulator.sudden.<piece>",
                           {{"ideal gas at constant temperature", "", "p dV = V dp", Standing::computed}},
                           {{"piece", id, view.name(regulator)}});
    const auto* row = view.item(regulator);
    if (row) check.sources.insert(check.sources.end(), row->sources.begin(), row->sources.end());
    about(check, view, {regulator});
    depends_on_fields(check, view.survey, {"gas.delivery-pressure"});
    int fed = 0;
    const auto held = held_behind(view, regulator, fed);
    const auto load = static_cast<double>(fed) * solved.feed.each;
    const auto outlet = view.number(regulator, "outlet").value_or(0) * pascal;
    if (fed == 0 || !(outlet < inlet.greatest)) return;
    // flow at 60 degF and one atmosphere; the gas behind the regulator is taken as warm
    constexpr auto base = matter::one_atmosphere;
    const auto time = Time::from_value((held * (inlet.greatest - outlet) / (base * load)).value());
    step(check, "Gas that still flows in goes into what the pipe behind the regulator holds.",
         "t = V (pg - ps) / (pb Q)",
         {{"V", "held by the pipe behind it", amount(held)},
          {"ps", "its setting", column(outlet)},
          {"pg", "greatest at the heaters", column(inlet.greatest)},
          {"pb", "base pressure, absolute", amount(base)},
          {"Q", "full flow", amount(load, Kind::gas_flow)}},
         Term{"t", "until the heaters' greatest is reached", amount(time)});
    check.value = amount(time);
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("When every burner shuts at once and the regulator were to go on passing full flow, the heaters' "
                    "greatest pressure would be reached in {}. The regulator's maker confirms that it closes sooner; "
                    "more or larger pipe behind it gives it more time in proportion.",
                    us(amount(time)))));
}

}  // namespace

void check_gas_network(const View& view, Checks& checks) {
    lowest(view, checks);
    const auto* inlet = gas_inlet(view);
    if (!inlet || !view.hydraulics.gas) return;
    for (const int regulator : view.of(Part::regulator))
        sudden_stop(view, regulator, *inlet, *view.hydraulics.gas, checks);
}

}  // namespace bw::proof
