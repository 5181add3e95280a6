// SPDX-License-Identifier: MIT
#pragma once
// The build package: every document of a designed job.

#include "cli/output.h"
#include "design/design.h"

namespace bw::cli {

/// report.pdf, sheets.pdf, sheet-*.svg, parts.csv and result.json; where nothing fits, report and result alone.
[[nodiscard]] bw::Result<Files> package(const design::Result& result, const catalogue::Catalogue& catalogue,
                                        units::System system);

}  // namespace bw::cli
