// SPDX-License-Identifier: MIT
// What a single tap asks of the plant, and what a mixing valve meets.
#include "code/water.h"
#include "proof/checks.h"
#include "proof/water/water_run.h"
#include "reason/document.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Kind;

/// The least a tap draws: a public lavatory's greatest flow, IPC 2018 Table 604.4 (from memory); a mixed tap draws less
/// of hot.
const units::VolumeFlow one_tap = 0.5 * units::gallon_per_minute;

void check_one_tap(const View& view, Checks& checks) {
    auto check = new_check("water.one-tap", {ipc("Table 604.4: public lavatory")});
    check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    const auto share = one_tap / static_cast<double>(std::max(1, view.heaters()));
    step(check, "Were every heater open, each would get", "V / n",
         {{"V", "one public lavatory", amount(one_tap)}, {"n", "heaters", units::count(view.heaters())}},
         Term{"Vh", "flow in each", amount(share)});
    check.says = view.heater.closes_when_idle ? "Idle heaters close their own valve, so the whole draw goes to one."
                                              : "Idle heaters stay open, so a small draw divides among all of them.";
    const auto each = view.heater.closes_when_idle ? one_tap : share;
    check = at_least(std::move(check), amount(each), amount(view.heater.flow_least));
    if (check.status == Status::fail)
        check = reason::referred(
            std::move(check),
            fmt::format(
                "Below {} a heater does not light and the tap stays cold unless the loop keeps the pipe warm: a "
                "loop, a small tank, or the maker's word on fewer heaters open.",
                us(amount(view.heater.flow_least))));
    checks.push_back(std::move(check));
}

/// Cold that does not pass the plant keeps the supply's pressure; hot has lost the plant's.
void check_mixing(const View& view, Checks& checks) {
    const auto cold = water_run(view, Service::cold);
    const auto& water = view.hydraulics.water;
    if (!cold || !water || !water->flows.design) return;  // said by the checks of pressure
    const auto& network = water->network;
    const auto& pressure = water->flows.design->pressure;
    auto check = new_check("water.mixing", {practice()});
    about(check, view, {view.plant.find("site.cold"), view.plant.find("site.hot")});
    depends_on_fields(check, view.survey, {"supply.pressure"});
    const auto at = [&](int node) { return pressure[static_cast<std::size_t>(node)]; };
    const double rise = view.plant.at(network.at[static_cast<std::size_t>(network.delivery)]).at.z -
                        view.plant.at(network.at[static_cast<std::size_t>(network.source)]).at.z;
    const auto column = units::Pressure::from_value(water->feed.cold.density.value() * units::standard_gravity * rise);
    const auto lost = at(network.source) - at(network.delivery) - column;
    step(check, "Pipe, heaters and fittings at the peak, the way of the water solved.", "dp = pc - ph - rho g h",
         {{"pc", "where cold enters the plant", amount(at(network.source))},
          {"ph", "where hot leaves it", amount(at(network.delivery))},
          {"rho g h", "their difference of height", amount(column)}},
         Term{"dp", "cold above hot", amount(lost)});
    check.value = amount(lost);
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format(
            "Cold that goes to the taps without passing the plant stands {} above hot at the peak. The makers of the "
            "mixing valves say what difference they bear; balancing valves at them, or cold taken behind a "
            "reducing valve that the plant shares, lessen it.",
            us(amount(lost)))));
}

}  // namespace

void check_water_taps(const View& view, Checks& checks) {
    check_one_tap(view, checks);
    check_mixing(view, checks);
}

}  // namespace bw::proof
