// SPDX-License-Identifier: MIT
#include "paper/paper.h"
#include "paper/report_parts.h"

namespace bw::paper {

namespace {

std::string set_report(const design::Result& result, const catalogue::Catalogue& catalogue, const Networks& networks,
                       units::System system) {
    const auto& survey = result.survey;
    Flow flow(system == units::System::us ? letter : a4, survey.job);
    set_cover(flow, result, catalogue, system);
    set_decisions(flow, result, system);
    set_assumed(flow, result);
    set_demand(flow, result, system);
    set_capacity(flow, result, catalogue, system);
    set_layout(flow, result, system);
    if (result.chosen) set_sizes(flow, result, networks, system);
    set_checks(flow, result, system);
    if (result.chosen) set_estimate(flow, result, system);
    if (result.chosen) set_files(flow);
    set_cautions(flow);
    return flow.finish({.title = survey.job,
                        .author = survey.prepared_by,
                        .subject = "Proof of a bank of water heaters",
                        .date = survey.date});
}

}  // namespace

bw::Result<std::string> report(const design::Result& result, const catalogue::Catalogue& catalogue,
                               units::System system) {
    Networks networks;
    if (result.chosen) networks = {design::header_schemes(result), design::common_vents(result)};
    return set_report(result, catalogue, networks, system);
}

}  // namespace bw::paper
