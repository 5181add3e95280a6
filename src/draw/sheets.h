// SPDX-License-Identifier: MIT
#pragma once
// 2-D sheets: plan and elevations, dimensioned, with a title block.

#include <string>
#include <vector>

#include "design/design.h"

namespace bw::draw {

enum class Paper { a3, tabloid };

struct Sheets {
    std::string pdf;                                       ///< all sheets, one file
    std::vector<std::pair<std::string, std::string>> svg;  ///< file name, text; one a sheet
};

/// Draws the chosen plant. Deterministic bytes. Fails when nothing was chosen.
[[nodiscard]] bw::Result<Sheets> sheets(const design::Result& result, const catalogue::Catalogue& catalogue,
                                        units::System system, Paper paper = Paper::tabloid);

}  // namespace bw::draw
