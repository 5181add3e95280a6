// SPDX-License-Identifier: MIT
#pragma once
// The parts of the report, one function each, in reading order.

#include "catalogue/catalogue.h"
#include "design/design.h"
#include "design/solved.h"
#include "paper/flow.h"

namespace bw::paper {

void set_cover(Flow& flow, const design::Result& result, const catalogue::Catalogue& catalogue, units::System system);
/// What fails and what somebody must decide, then what was assumed.
void set_decisions(Flow& flow, const design::Result& result, units::System system);
void set_assumed(Flow& flow, const design::Result& result);
void set_demand(Flow& flow, const design::Result& result, units::System system);
void set_capacity(Flow& flow, const design::Result& result, const catalogue::Catalogue& catalogue,
                  units::System system);
void set_layout(Flow& flow, const design::Result& result, units::System system);
/// What of the networks only the report prints, solved once for both settings of it.
struct Networks {
    std::vector<network::HeaderScheme> schemes;
    std::vector<design::CommonVent> vents;
};
void set_sizes(Flow& flow, const design::Result& result, const Networks& networks, units::System system);
void set_checks(Flow& flow, const design::Result& result, units::System system);
void set_estimate(Flow& flow, const design::Result& result, units::System system);
void set_files(Flow& flow);
void set_cautions(Flow& flow);

}  // namespace bw::paper
