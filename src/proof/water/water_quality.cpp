// SPDX-License-Identifier: MIT
#include "code/water.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Kind;

void hardness(const View& view, Checks& checks) {
    auto check = new_check("water.hardness", view.heater.sources);
    depends_on_fields(check, view.survey, {"supply.hardness"});
    check.says = "Harder water scales the heat exchangers; soften it or flush them more often.";
    check = at_most(std::move(check), units::Amount{*view.survey.supply.hardness, Kind::hardness},
                    units::Amount{view.heater.hardness_greatest, Kind::hardness});
    if (!check.assumptions.empty() && check.status != Status::fail)
        check = reason::referred(std::move(check),
                                 "Hardness was assumed: a water analysis decides, read by the heater's maker or a "
                                 "water treatment specialist.");
    checks.push_back(std::move(check));
}

void analysis(const View& view, Checks& checks) {
    auto check = new_check("water.analysis", view.heater.sources);
    depends_on_fields(check, view.survey, {"supply.hardness"});
    checks.push_back(reason::referred(std::move(check),
                                      "Chloride, pH, iron, dissolved solids and free carbon dioxide were not given. "
                                      "The heater's maker decides from a water analysis."));
}

void temperatures(const View& view, Checks& checks) {
    const auto hot = *view.survey.temperatures.distribution, greatest = view.heater.setpoint_greatest;
    auto check = with_temperatures(new_check("water.temperature", view.heater.sources), hot,
                                   "Greatest the heater can be set to.", greatest);
    depends_on_fields(check, view.survey, {"water.distribution"});
    checks.push_back(holds(std::move(check), hot <= greatest, "The heater can be set to what the job asks for.",
                           fmt::format("The heater can be set to {} at most.", us(amount(greatest)))));
}

}  // namespace

void check_water_quality(const View& view, Checks& checks) {
    hardness(view, checks);
    analysis(view, checks);
    temperatures(view, checks);
}

}  // namespace bw::proof
