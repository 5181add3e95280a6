// SPDX-License-Identifier: MIT
#pragma once
// Sheets of diagrams, not to scale: what is joined to what, with sizes, lengths and what flows.

#include "draw/frame.h"

namespace bw::draw {

struct Planned {
    std::string title, file;
    std::function<std::string(Canvas&, const SheetContext&)> draw;  ///< gives the scale's name
};

/// Sheets of one diagram; more than one where the rows of heaters do not go on the first. None where the plant has no
/// such lines.
[[nodiscard]] std::vector<Planned> gas_riser(const SheetContext& context);
[[nodiscard]] std::vector<Planned> water_flow(const SheetContext& context);
[[nodiscard]] std::vector<Planned> vent_diagram(const SheetContext& context);
[[nodiscard]] std::vector<Planned> wiring(const SheetContext& context);

inline constexpr const char* not_to_scale = "not to scale";

/// Titles and files of a diagram that takes `count` sheets, drawn by row numbers from and to (not included).
[[nodiscard]] std::vector<Planned> in_sheets(const std::string& title, const std::string& file, int rows,
                                             int rows_a_sheet,
                                             const std::function<void(Canvas&, const SheetContext&, int, int)>& draw);

}  // namespace bw::draw
