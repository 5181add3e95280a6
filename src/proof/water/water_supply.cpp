// SPDX-License-Identifier: MIT
// The supply at rest: pressure, reducer, backflow, and where expanding water goes.
#include "code/relief.h"
#include "code/water.h"
#include "matter/water.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::pascal;
using units::Pressure;

/// Pieces of a part every heater's cold water passes.
std::vector<int> on_every_way(const View& view, Part part) {
    std::vector<int> common;
    const auto& tree = view.tree(Service::cold);
    if (!tree) return common;
    for (const int candidate : view.of(part)) {
        int passed = 0;
        for (int n = 1; n <= view.heaters(); ++n) {
            const auto path = network::path_to(*tree, n);
            passed += std::any_of(path.begin(), path.end(), [&](int at) {
                return tree->traversals[static_cast<std::size_t>(at)].piece == candidate;
            });
        }
        if (passed == view.heaters() && passed > 0) common.push_back(candidate);
    }
    return common;
}

/// Static pressure after the reducer, where there is one.
Pressure resting(const View& view) {
    Pressure at = *view.survey.supply.pressure;
    for (const int reducer : on_every_way(view, Part::pressure_reducer))
        if (const auto outlet = view.number(reducer, "outlet")) at = std::min(at, *outlet * pascal);
    return at;
}

void reducer(const View& view, Checks& checks) {
    const auto limit = code::water_pressure_limit();
    auto check = new_check("water.reducer", {limit.source});
    step(check, "At the point of connection.", {}, {},
         Term{"p", "supply pressure", amount(*view.survey.supply.pressure)});
    const auto reducers = on_every_way(view, Part::pressure_reducer);
    about(check, view, reducers);
    depends_on_fields(check, view.survey, {"supply.pressure"});
    check.says = reducers.empty() ? "Above the limit a reducing valve must stand on the supply; there is none."
                                  : "A reducing valve stands on the way to every heater.";
    if (reducers.empty() && *view.survey.supply.pressure <= limit.value)
        check.says = "At or below the limit no reducing valve is needed.";
    checks.push_back(at_most(std::move(check), amount(resting(view)), amount(limit.value)));
}

void heater_limits(const View& view, Checks& checks) {
    auto greatest = new_check("water.static", view.heater.sources);
    depends_on_fields(greatest, view.survey, {"supply.pressure"});
    greatest.says = "Nothing drawn: the whole supply pressure stands in the heaters.";
    checks.push_back(at_most(std::move(greatest), amount(resting(view)), amount(view.heater.water_pressure_greatest)));
    auto least = new_check("water.supply-pressure", view.heater.sources);
    depends_on_fields(least, view.survey, {"supply.pressure"});
    least.says = "Before anything is lost in pipe.";
    checks.push_back(at_least(std::move(least), amount(resting(view)), amount(view.heater.water_pressure_least)));
}

void backflow(const View& view, Checks& checks) {
    const auto rule = code::backflow_protection();
    auto check = new_check("water.backflow", {rule.source});
    const auto devices = on_every_way(view, Part::backflow_preventer);
    about(check, view, devices);
    if (!devices.empty()) {
        checks.push_back(holds(
            std::move(check), true,
            "A backflow preventer stands on the way to every heater; it is tested yearly by a certified tester.", {}));
        return;
    }
    checks.push_back(reason::referred(std::move(check),
                                      "No backflow preventer stands in this plant. The water purveyor and the plumbing "
                                      "official decide whether the building's service protection is enough."));
}

struct Expansion {
    units::Volume held{}, grows{}, vessel{}, acceptance{}, needed{};
    Pressure fill{}, top{};
};

Result<Expansion> expansion(const View& view) {
    Expansion found;
    for (const auto& piece : view.plant.pieces) found.held += piece.water * units::cubic_metre;
    const auto cold = matter::water(view.demand.cold), hot = matter::water(view.demand.hot);
    if (!cold) return tl::unexpected(cold.error());
    if (!hot) return tl::unexpected(hot.error());
    found.grows = (cold->density / hot->density - 1.0) * found.held;
    found.fill = resting(view);
    found.top = code::relief_set_limit(view.heater.relief_greatest).value;
    for (const int valve : view.of(Part::relief_valve))
        if (const auto set = view.number(valve, "set-pressure")) found.top = std::min(found.top, *set * pascal);
    for (const int vessel : view.of(Part::expansion_vessel)) {
        const double volume = view.number(vessel, "volume").value_or(0);
        found.vessel += volume * units::cubic_metre;
        found.acceptance += view.number(vessel, "acceptance").value_or(volume) * units::cubic_metre;
    }
    const auto air = matter::one_atmosphere;
    if (found.fill >= found.top)
        return fail("the supply stands above the relief valves' setting", "a reducing valve on the supply");
    found.needed = found.grows / (1.0 - (found.fill + air) / (found.top + air));
    return found;
}

void closed_supply(const View& view, Checks& checks) {
    if (!*view.survey.supply.closed) return;
    auto check = new_check("water.expansion", {code::expansion_control().source});
    about(check, view, view.of(Part::expansion_vessel));
    depends_on_fields(check, view.survey, {"supply.closed", "supply.pressure"});
    const auto found = expansion(view);
    if (!found || view.of(Part::expansion_vessel).empty()) {
        checks.push_back(holds(
            std::move(check), false, {},
            found ? "The supply is closed and the plant has no expansion vessel." : units::describe(found.error())));
        return;
    }
    step(check, "Growth of the plant's own water from cold to hot.", "Ve = V (rho1 / rho2 - 1)",
         {{"V", "water in the plant", amount(found->held)}}, Term{"Ve", "growth", amount(found->grows)});
    step(check, "Vessel that takes it up between filling and relief, its gas pressed at one temperature.",
         "Vt = Ve / (1 - P1 / P2), absolute",
         {{"P1", "filling pressure, gauge", amount(found->fill)}, {"P2", "relief setting, gauge", amount(found->top)}},
         Term{"Vt", "vessel", amount(found->needed)});
    step(check, "What the vessels' bladders take, by their maker.", {}, {},
         Term{"Va", "acceptance", amount(found->acceptance)});
    check = at_least(std::move(check), amount(found->vessel), amount(found->needed));
    if (found->acceptance < found->grows) check.status = Status::fail;
    if (check.status == Status::fail) {
        check.says = "The vessel is too small for the plant's own water.";
        checks.push_back(std::move(check));
        return;
    }
    const auto room = found->held * (std::min(found->vessel / found->needed, found->acceptance / found->grows) - 1.0);
    checks.push_back(reason::referred(
        std::move(check), fmt::format("The vessel takes the plant's own water and {} more in the building's hot pipe. "
                                      "A licensed plumber confirms that the building's loop holds no more.",
                                      us(amount(room)))));
}

}  // namespace

void check_water_supply(const View& view, Checks& checks) {
    reducer(view, checks);
    heater_limits(view, checks);
    backflow(view, checks);
    closed_supply(view, checks);
}

}  // namespace bw::proof
