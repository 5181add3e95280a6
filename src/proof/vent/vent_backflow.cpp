// SPDX-License-Identifier: MIT
// Pressures in the vents, solved from the pieces: each heater's fan against them, and what they push into an idle one.
#include "matter/water.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names
using network::VentFeed;
using network::VentNetwork;
using network::VentSolution;
using network::VentSolutions;
using network::VentSplit;

Amount column(Pressure pressure) { return amount(pressure, Kind::gas_pressure); }

Sources solved(const View& view, std::string clause) {
    Sources sources = view.heater.sources;
    sources.push_back(ifgc(std::move(clause)));
    sources.push_back({"Darcy-Weisbach, friction by Colebrook 1939", "", "", Standing::computed});
    sources.push_back({"Todini and Pilati", "1988", "gradient method for pipe networks", Standing::computed});
    return sources;
}

/// The first reason why vents have no solution with every heater at full fire.
std::optional<Error> refusal(const Result<std::vector<VentSolution>>& vents) {
    if (!vents) return vents.error();
    for (const auto& vent : *vents) {
        if (!vent.flows) return vent.flows.error();
        if (!vent.flows->all) return vent.flows->all.error();
    }
    return {};
}

/// Index along the mouths of the greatest of what `figure` makes of each.
template <class Figure>
std::size_t greatest(const VentNetwork& network, Figure figure) {
    std::size_t worst = 0;
    for (std::size_t m = 1; m < network.mouths.size(); ++m)
        if (figure(m) > figure(worst)) worst = m;
    return worst;
}

void gas_told(Check& check, const View& view, const VentFeed& feed) {
    step(
        check,
        "Exhaust of one heater at full fire, as warm as the warmest return at full fire makes it; it is not cooled and "
        "nothing of it condenses on the way, so its volume is the most there can be.",
        "m = P / H n M",
        {{"P", "input at this altitude", amount(view.capacity.each.input)},
         {"H", "heating value", amount(*view.survey.gas.heating_value, Kind::heating_value)},
         {"e", "excess air", percent(view.heater.excess_air)},
         {"t", "exhaust's temperature", amount(feed.flue_temperature)},
         {"r", "its density", amount(feed.flue.density)}},
        Term{"m", "exhaust", amount(feed.flue.full)});
}

/// At one speed a fan's pressure is as the air's density: the catalogue's figure is taken for sea level.
Pressure fan_here(const View& view, const VentFeed& feed) {
    return view.heater.fan * (feed.atmosphere / matter::one_atmosphere).value();
}

void fan_told(Check& check, const View& view, const VentFeed& feed) {
    step(check, "At one speed a fan's pressure is as the density of the air (fan laws).", "pf = pc b / b0",
         {{"pc", "left for the vent, the catalogue", column(view.heater.fan)},
          {"b / b0", "air pressure here over that at sea level",
           percent((feed.atmosphere / matter::one_atmosphere).value())}},
         Term{"pf", "left for the vent here", column(fan_here(view, feed))});
}

/// The fan of the heater that has most to push against.
void fan(const View& view, const VentSolution& vent, const VentFeed& feed, Checks& checks) {
    const auto& name = view.piece(vent.network.terminal).id;
    auto check = new_check("vent.fan.<terminal>", solved(view, "503.3"), {{"terminal", name, plant::in_words(name)}});
    const auto& port = vent.flows->all->port;
    const auto worst = greatest(vent.network, [&](std::size_t m) { return port[m]; });
    const int number = vent.network.mouths[worst].number;
    about(check, view, {view.heater_piece(number), vent.network.terminal});
    gas_told(check, view, feed);
    step(check,
         fmt::format(
             "The exhaust pieces as a network of {} links with {} heaters at full fire: pressure lost in pipe and "
             "fittings on the way of heater {}, the most, less what the warm column lifts.",
             vent.network.pieces.size() - vent.network.mouths.size(), vent.network.mouths.size(), number),
         {}, {}, Term{"p", fmt::format("pressure at heater {}'s collar", number), column(port[worst])});
    if (!(view.heater.fan > Pressure{})) {
        check.value = column(port[worst]);
        checks.push_back(reason::referred(std::move(check), "The heater's maker says what pressure its fan leaves."));
        return;
    }
    fan_told(check, view, feed);
    check.says = port[worst] > fan_here(view, feed)
                     ? "Above what the heater's fan leaves for the vent: it would not give its full fire. A larger "
                       "vent, a shorter way or a second terminal."
                     : "What the heater's fan leaves for the vent at full fire.";
    checks.push_back(at_most(std::move(check), column(port[worst]), column(fan_here(view, feed))));
}

/// No case is left out in silence.
void unsolved_told(Check& check, const VentNetwork& network, const std::vector<Result<VentSplit>>& cases) {
    for (std::size_t m = 0; m < cases.size(); ++m)
        if (!cases[m])
            step(check, fmt::format("CAUTION: a case about heater {} has no solution: {}.", network.mouths[m].number,
                                    describe(cases[m].error())));
}

/// The worst heater of one vent in each case; gives the greatest pressure behind a shut damper.
Pressure idle_told(Check& check, const View& view, const VentSolution& vent) {
    const auto& network = vent.network;
    const auto name = view.name(network.terminal);
    const auto at_port = [](const std::vector<Result<VentSplit>>& cases) {
        return [&cases](std::size_t m) { return cases[m] ? cases[m]->port[m] : Pressure::from_value(-1e9); };
    };
    Pressure most{};
    const auto shut = greatest(network, at_port(vent.flows->idle));
    if (const auto& split = vent.flows->idle[shut]) {
        most = split->port[shut];
        step(check,
             fmt::format("{}: heater {} idle, the worst, its damper shut and the other {} at full fire.", name,
                         network.mouths[shut].number, network.mouths.size() - 1),
             {}, {}, Term{"pi", "pressure at its collar, which the damper must hold", column(most)});
    }
    const auto open = greatest(network, [&](std::size_t m) {
        return vent.flows->open[m] ? vent.flows->open[m]->leak : MassFlow::from_value(-1e9);
    });
    if (const auto& split = vent.flows->open[open])
        step(check,
             fmt::format(
                 "{}: heater {} idle, the worst, its damper failed open. What the heater's own traversals hold back "
                 "is not known and counts as nothing, so this is the most.",
                 name, network.mouths[open].number),
             {}, {}, Term{"mb", "exhaust pushed back into the room", amount(split->leak)});
    const auto least = greatest(network, at_port(vent.flows->least));
    if (const auto& split = vent.flows->least[least])
        step(
            check,
            fmt::format("{}: heater {} at least fire, the worst, the others at full fire. What its fan leaves at least "
                        "fire is not in the catalogue.",
                        name, network.mouths[least].number),
            {}, {}, Term{"pl", "pressure its fan must meet", column(split->port[least])});
    for (const auto* cases : {&vent.flows->idle, &vent.flows->open, &vent.flows->least})
        unsolved_told(check, network, *cases);
    return most;
}

void idle(const View& view, const VentSolutions& vents, Check check, Checks& checks) {
    check.sources = solved(view, "503.5");
    gas_told(check, view, vents.feed);
    Pressure most{};
    for (const auto& vent : *vents.exhaust)
        if (vent.network.mouths.size() > 1) most = std::max(most, idle_told(check, view, vent));
    check.value = column(most);
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format(
            "CAUTION: carbon monoxide. With the others at full fire up to {} stands at an idle heater's collar, "
            "and only its damper keeps the exhaust out of the room. The heater's maker confirms that the dampers "
            "as listed hold it, that a heater at least fire can meet it, and what a damper failed open lets "
            "through.",
            us(column(most)))));
}

/// Air pipe and vent together against the fan: whether the fan's figure is for both, the maker says.
void air(const View& view, const VentSolutions& vents, Checks& checks) {
    const auto& pipes = vents.intake;
    if (pipes && pipes->empty()) return;
    auto check = new_check("vent.air-and-fan", solved(view, "503.3"));
    if (const auto why = refusal(pipes)) {
        checks.push_back(
            holds(std::move(check), false, {}, fmt::format("The air pipes are not solved: {}.", describe(*why))));
        return;
    }
    std::vector<Pressure> pushed(static_cast<std::size_t>(view.heaters()) + 1), drawn = pushed;
    for (const auto& vent : *vents.exhaust)
        for (std::size_t m = 0; m < vent.network.mouths.size(); ++m)
            pushed[static_cast<std::size_t>(vent.network.mouths[m].number)] = vent.flows->all->port[m];
    for (const auto& pipe : *pipes)
        for (std::size_t m = 0; m < pipe.network.mouths.size(); ++m)
            drawn[static_cast<std::size_t>(pipe.network.mouths[m].number)] = -1.0 * pipe.flows->all->port[m];
    std::size_t worst = 1;
    for (std::size_t n = 2; n < drawn.size(); ++n)
        if (pushed[n] + drawn[n] > pushed[worst] + drawn[worst]) worst = n;
    about(check, view, {view.heater_piece(static_cast<int>(worst))});
    step(check, fmt::format("Heater {}, the worst, every heater at full fire.", worst), "p = pv + pa",
         {{"pv", "pressure at its collar", column(pushed[worst])},
          {"pa", "suction at its air port", column(drawn[worst])}},
         Term{"p", "both", column(pushed[worst] + drawn[worst])});
    if (view.heater.fan > Pressure{}) {
        fan_told(check, view, vents.feed);
        check = compared(std::move(check), column(pushed[worst] + drawn[worst]), Sense::at_most,
                         column(fan_here(view, vents.feed)));
    }
    checks.push_back(reason::referred(std::move(check),
                                      "The heater's maker says whether the pressure its fan leaves for the vent must "
                                      "also draw the air through its pipe."));
}

}  // namespace

void check_vent_backflow(const View& view, Check idle_check, bool shared, Checks& checks) {
    const auto& vents = view.hydraulics.vents;
    if (const auto why = vents ? refusal(vents->exhaust) : std::optional(vents.error())) {
        auto check = new_check("vent.solved", solved(view, "503.3"));
        checks.push_back(holds(std::move(check), false, {}, fmt::format("They are not: {}.", describe(*why))));
        if (shared)
            checks.push_back(reason::referred(std::move(idle_check),
                                              "CAUTION: carbon monoxide. What stands at an idle heater's collar is not "
                                              "solved. The heater's maker confirms the common vent and its dampers."));
        return;
    }
    for (const auto& vent : *vents->exhaust) fan(view, vent, vents->feed, checks);
    if (shared) idle(view, *vents, std::move(idle_check), checks);
    air(view, *vents, checks);
}

}  // namespace bw::proof
