// SPDX-License-Identifier: MIT
// The loop: a pump, a check valve and an open way back into the cold line, warm enough and not too small to fire for.
#include "proof/checks.h"
#include "proof/water/loop.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using units::amount;
using units::fahrenheit;

void pieces(const View& view, const LoopWay& loop, Checks& checks) {
    const auto pumps = loop.of(view, Part::pump), valves = loop.of(view, Part::check_valve);
    const int joins = loop.joins;
    auto way = new_check("water.recirculation-way", {by_pieces()});
    about(way, view, {view.plant.find("site.recirculation"), joins});
    checks.push_back(holds(std::move(way), joins >= 0, "Return water comes back before the heaters.",
                           "The loop's return from the building reaches neither cold nor hot line."));
    auto pump = new_check("water.recirculation-pump", {practice()});
    about(pump, view, pumps);
    checks.push_back(holds(std::move(pump), !pumps.empty(), "A pump drives the loop.", "The loop has no pump."));
    auto check = new_check("water.recirculation-check", {practice()});
    about(check, view, valves);
    checks.push_back(holds(std::move(check), !valves.empty(), "Cold water cannot run backwards to the taps.",
                           "The loop has no check valve: cold water can run backwards to the taps."));
}

void open_path(const View& view, Checks& checks) {
    auto check = new_check("water.recirculation-open", view.heater.sources);
    if (!view.heater.closes_when_idle) {
        checks.push_back(holds(std::move(check), true, "Idle heaters stay open.", {}));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        "Each heater closes its water valve when idle; the pump must never work against all of them shut. Whoever "
        "starts the plant up sets the heaters that take the loop, by the maker's instructions."));
}

/// `coldest` is what comes back from the building's branches, where they were surveyed; else the survey's drop tells.
void warm(const View& view, std::optional<units::Temperature> coldest, Checks& checks) {
    const auto back = coldest.value_or(view.demand.hot - *view.survey.recirculation.drop);
    auto check = with_temperatures(
        new_check("water.recirculation-return", {reason::cite(reason::Document::ashrae_guideline_12, {}), practice()}),
        back, "Least at the coldest point of the loop.", fahrenheit(120));
    depends_on_fields(check, view.survey, {"water.distribution", "recirculation.drop"});
    if (back < fahrenheit(120)) {
        checks.push_back(reason::referred(std::move(check),
                                          fmt::format("Water comes back at {}, below the 120 to 124 degF that keeps "
                                                      "germs down: the owner's water management plan decides.",
                                                      us(amount(back)))));
        return;
    }
    checks.push_back(holds(std::move(check), true, "The coldest point of the loop stays at or above 120 degF.", {}));
}

void short_cycle(const View& view, Checks& checks) {
    auto check = new_check("water.recirculation-least", view.heater.sources);
    depends_on_fields(check, view.survey, {"recirculation.loss"});
    const auto least = view.capacity.each.efficiency * view.heater.input_least;
    check.says = "The loop alone keeps one heater lit.";
    check = at_least(std::move(check), amount(view.demand.recirculation_loss), amount(least));
    if (check.status == Status::fail)
        check = reason::referred(std::move(check),
                                 "The loop loses less than one heater gives at its least fire, so that heater starts "
                                 "and stops all night. The heater's maker says how often it may; a small tank with an "
                                 "aquastat avoids it.");
    checks.push_back(std::move(check));
}

}  // namespace

void check_recirculation(const View& view, Checks& checks) {
    if (!*view.survey.recirculation.present) return;
    const auto loop = loop_way(view);
    pieces(view, loop, checks);
    const auto coldest = check_loop(view, loop, checks);
    open_path(view, checks);
    warm(view, coldest, checks);
    short_cycle(view, checks);
}

}  // namespace bw::proof
