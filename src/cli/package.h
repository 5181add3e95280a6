// SPDX-License-Identifier: MIT
#pragma once
// The build package: every document of a designed job.

#include "cli/output.h"
#include "design/design.h"
#include "draw/sheets.h"

namespace bw::cli {

/// report.pdf, sheets.pdf, sheets.dxf, sheet-*.svg, parts.csv, plant.glb, plant.ifc, plant.step and result.json; where nothing
/// fits, report and result alone. Written on two threads; the same bytes whatever their pace.
[[nodiscard]] bw::Result<Files> package(const design::Result& result, const catalogue::Catalogue& catalogue,
                                        units::System system, draw::Paper paper);

}  // namespace bw::cli
