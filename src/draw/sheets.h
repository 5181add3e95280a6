// SPDX-License-Identifier: MIT
#pragma once
// 2-D sheets with a title block: plan and elevations, dimensioned, and diagrams of what is joined to what.

#include <string>
#include <vector>

#include "design/design.h"

namespace bw::draw {

enum class Paper { a3, a4, tabloid, letter };
/// The usual paper where quantities are in one system: tabloid, or A3.
[[nodiscard]] Paper usual_paper(units::System system);

struct Sheets {
    std::string pdf;                                       ///< all sheets, one file
    std::vector<std::pair<std::string, std::string>> svg;  ///< file name, text; one a sheet
};

/// Draws the chosen plant. Deterministic bytes. Fails when nothing was chosen.
[[nodiscard]] bw::Result<Sheets> sheets(const design::Result& result, const catalogue::Catalogue& catalogue,
                                        units::System system, Paper paper);

/// Plan and every elevation side by side in one DXF (release 12), full size in inches or millimetres: a layer a
/// service, a block for whatever repeats, dimensions as lines and text. Deterministic bytes. Fails when nothing was
/// chosen.
[[nodiscard]] bw::Result<std::string> dxf(const design::Result& result, const catalogue::Catalogue& catalogue,
                                          units::System system);

}  // namespace bw::draw
