// SPDX-License-Identifier: MIT
// Support spacing along straight, level runs.
#include "code/hangers.h"
#include "code/gas_rules.h"
#include "proof/checks.h"
#include "proof/support/level_runs.h"
#include "text/material.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Length;
using units::metre;

std::optional<code::Clause<Length>> limit_for(const View& view, const LevelRun& run, Service service) {
    std::optional<code::Clause<Length>> least;
    for (const int i : run.pieces) {
        const auto* row = view.pipe(i);
        if (!row) continue;
        std::optional<code::Clause<Length>> here;
        if (service == Service::gas)
            here = text::row_of(row->material).tubing ? code::gas_tubing_support_spacing(row->size)
                                                      : code::gas_support_spacing(row->size);
        else if (service == Service::exhaust || service == Service::intake)
            here = code::vent_support_spacing();
        else if (const auto rule = code::hanger_spacing(row->material, row->size))
            here = *rule;
        if (here && (!least || here->value < least->value)) least = here;
    }
    return least;
}

void spacing(const View& view, Service service, Checks& checks) {
    const auto runs = level_runs(view, service);
    if (runs.empty()) return;
    const LevelRun* worst = nullptr;
    std::optional<code::Clause<Length>> rule;
    double worst_share = -1;
    for (const auto& run : runs) {
        const auto limit = limit_for(view, run, service);
        if (!limit) continue;
        const double share = longest_gap(run) / limit->value.value();
        if (share > worst_share) worst_share = share, worst = &run, rule = limit;
    }
    auto check = new_check("structure.hangers.<service>", {}, {named("service", service)});
    if (!worst) {
        check.sources = {practice()};
        checks.push_back(reason::referred(
            std::move(check), "No table of support spacing covers this pipe: the pipe maker's instructions decide."));
        return;
    }
    check.sources = {rule->source};
    about(check, view, {worst->pieces.front(), worst->pieces.back()});
    step(check, fmt::format("Of {} straight level runs the one with the longest stretch unsupported.", runs.size()), {},
         {{"L", "length of the run", amount(worst->length * metre)},
          {"n", "supports on it", units::count(static_cast<double>(worst->held.size()))}},
         Term{"l", "longest stretch", amount(longest_gap(*worst) * metre)});
    check.says = rule->says;
    checks.push_back(at_most(std::move(check), amount(longest_gap(*worst) * metre), amount(rule->value)));
}

}  // namespace

void check_hangers(const View& view, Checks& checks) {
    for (const auto service : {Service::gas, Service::cold, Service::hot, Service::recirculation, Service::exhaust,
                               Service::intake, Service::condensate})
        spacing(view, service, checks);
}

}  // namespace bw::proof
