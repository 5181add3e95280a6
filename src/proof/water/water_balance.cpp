// SPDX-License-Identifier: MIT
// How the heaters share the peak, solved from the pieces.
#include "proof/checks.h"
#include "proof/water/water_run.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

Check drafted() {
    return new_check("water.balance",
                     {practice(),
                      {"Todini and Pilati", "1988", "gradient method for pipe networks", Standing::computed},
                      {"Darcy-Weisbach, friction by Colebrook 1939", "", "", Standing::computed}});
}

VolumeFlow flow_of(const network::WaterSplit& split, int heater) {
    return split.heater[static_cast<std::size_t>(heater) - 1];
}

void tell(Check& check, std::string says, const network::WaterSplit& split) {
    step(check, std::move(says), "s = 1 - Vmin / Vmax",
         {{"V", "hot water drawn", amount(split.drawn)},
          {"Vmin", fmt::format("cold water into heater {}, the least", split.least),
           amount(flow_of(split, split.least))},
          {"Vmax", fmt::format("cold water into heater {}, the most", split.most), amount(flow_of(split, split.most))}},
         Term{"s", "shortfall", percent(split.shortfall)});
}

/// The worst of the plants with one heater shut, or what the first refusal says.
void tell_one_shut(Check& check, const network::WaterFlows& flows) {
    int worst = 0;
    for (std::size_t n = 0; n < flows.one_shut.size(); ++n) {
        if (!flows.one_shut[n]) continue;
        if (worst == 0 || flows.one_shut[n]->shortfall > flows.one_shut[static_cast<std::size_t>(worst) - 1]->shortfall)
            worst = static_cast<int>(n) + 1;
    }
    if (worst > 0)
        tell(check, fmt::format("With heater {} shut by its own valves, the worst of them to lose.", worst),
             *flows.one_shut[static_cast<std::size_t>(worst) - 1]);
    for (const auto& one : flows.one_shut)
        if (!one && flows.one_shut.size() > 1) {
            step(check, fmt::format("One case with a heater shut has no solution: {}.", describe(one.error())));
            return;
        }
}

}  // namespace

void check_water_balance(const View& view, Checks& checks) {
    auto check = drafted();
    const auto refuse = [&](const Error& error) {
        checks.push_back(
            holds(std::move(check), false, {}, fmt::format("The split is not solved: {}.", describe(error))));
    };
    const auto& water = view.hydraulics.water;
    if (!water) return refuse(water.error());
    const auto& flows = water->flows;
    if (!flows.design) return refuse(flows.design.error());
    const auto& design = *flows.design;
    about(check, view, {view.heater_piece(design.least), view.heater_piece(design.most)});
    tell(check,
         fmt::format("The cold and hot pieces as a network of {} links, solved at the peak with every heater open.",
                     water->network.network.links.size()),
         design);
    if (flows.half) tell(check, "At half the peak.", *flows.half);
    tell_one_shut(check, flows);
    check.says =
        design.shortfall > network::most_unlike
            ? "The headers take too much beside the heaters' own loss: a header one size up, a feed at its middle "
              "or a reverse return evens the split."
            : "Headers fat against the heaters' own loss share evenly.";
    checks.push_back(at_most(std::move(check), percent(design.shortfall), percent(network::most_unlike)));
}

}  // namespace bw::proof
