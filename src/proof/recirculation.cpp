// SPDX-License-Identifier: MIT
// The loop: a pump, a check valve and an open way back into the cold line, warm enough and not too small to fire for.
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::fahrenheit;

/// The loop's pieces from the building to where it joins the cold or hot line.
std::vector<Step> loop(const View& view, int& joins) {
    const int site = view.plant.find("site.recirculation");
    joins = -1;
    if (site < 0) return {};
    const auto walk = view.outward({site, 0}, [&](int piece, int in) {
        const auto& entered = view.piece(piece);
        return entered.part != Part::heater && entered.service == Service::recirculation &&
               entered.ports[static_cast<std::size_t>(in)].service == Service::recirculation;
    });
    for (std::size_t i = 0; i < walk.size(); ++i) {
        if (view.piece(walk[i].piece).service == Service::recirculation) continue;
        joins = walk[i].piece;
        return View::back(walk, static_cast<int>(i));
    }
    return walk;
}

std::vector<int> of_part(const View& view, const std::vector<Step>& path, Part part) {
    std::vector<int> found;
    for (const auto& s : path)
        if (view.piece(s.piece).part == part) found.push_back(s.piece);
    return found;
}

void pieces(const View& view, Checks& checks) {
    int joins = -1;
    const auto path = loop(view, joins);
    const auto pumps = of_part(view, path, Part::pump), valves = of_part(view, path, Part::check_valve);
    auto way = draft("water.recirculation-way", "The loop's return joins the plant", "water", {by_pieces()});
    about(way, view, {view.plant.find("site.recirculation"), joins});
    checks.push_back(holds(std::move(way), joins >= 0, "Return water comes back before the heaters.",
                           "The loop's return from the building reaches neither cold nor hot line."));
    auto pump = draft("water.recirculation-pump", "Pump on the loop", "water", {practice()});
    about(pump, view, pumps);
    checks.push_back(holds(std::move(pump), !pumps.empty(), "A pump drives the loop.", "The loop has no pump."));
    auto check = draft("water.recirculation-check", "Check valve on the loop", "water", {practice()});
    about(check, view, valves);
    checks.push_back(holds(std::move(check), !valves.empty(), "Cold water cannot run backwards to the taps.",
                           "The loop has no check valve: cold water can run backwards to the taps."));
}

void duty(const View& view, Checks& checks) {
    auto check = draft("water.recirculation-duty", "Pump against the loop's flow and loss", "water", {practice()});
    about(check, view, view.of(Part::pump));
    rests_on(check, view.survey, {"recirculation.flow", "recirculation.loss", "recirculation.drop"});
    check.value = amount(view.demand.recirculation_flow);
    step(check, "Flow that carries the loop's heat at its drop.", {},
         {{"Q", "heat lost by the loop", amount(view.demand.recirculation_loss)},
          {"dT", "drop", amount(*view.survey.recirculation.drop)}},
         Term{"V", "loop flow", amount(view.demand.recirculation_flow)});
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format(
            "The building's loop was not surveyed: whoever designs it finds its head at {} and confirms the pump.",
            us(amount(view.demand.recirculation_flow)))));
}

void open_path(const View& view, Checks& checks) {
    auto check =
        draft("water.recirculation-open", "One heater open to the loop at all times", "water", view.heater.sources);
    if (!view.heater.closes_when_idle) {
        checks.push_back(holds(std::move(check), true, "Idle heaters stay open.", {}));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        "Each heater closes its water valve when idle; the pump must never work against all of them shut. Whoever "
        "starts the plant up sets the heaters that take the loop, by the maker's instructions."));
}

void warm(const View& view, Checks& checks) {
    const auto back = view.demand.hot - *view.survey.recirculation.drop;
    auto check = with_temperatures(draft("water.recirculation-return", "Return water warm enough", "water",
                                         {standard("ASHRAE Guideline 12"), practice()}),
                                   back, "Least at the coldest point of the loop.", fahrenheit(120));
    rests_on(check, view.survey, {"water.distribution", "recirculation.drop"});
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
    auto check = draft("water.recirculation-least", "The loop's loss against one heater's least fire", "water",
                       view.heater.sources);
    rests_on(check, view.survey, {"recirculation.loss"});
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
    pieces(view, checks);
    duty(view, checks);
    open_path(view, checks);
    warm(view, checks);
    short_cycle(view, checks);
}

}  // namespace bw::proof
