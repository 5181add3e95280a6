// SPDX-License-Identifier: MIT
#pragma once
// A bank from the front and from its end: which way one looks, what of the room is taken in, where dimensions stand.

#include <string>
#include <vector>

#include "draw/frame.h"
#include "survey/survey.h"

namespace bw::draw {

struct BankView {
    Axes axes;
    double low = 0, high = 0;            ///< metres along the view's right
    double near_low = 0, near_high = 0;  ///< towards the reader
    std::vector<double> stations;        ///< dimensioned along the view's right
};

/// Side 1 exists on two-sided racks only.
[[nodiscard]] BankView front_view(const plant::Plant& plant, const plant::Bank& bank, int side);
/// From the feed end, along the headers.
[[nodiscard]] BankView end_view(const plant::Bank& bank);
/// Whether a piece's middle lies in what the view takes in.
[[nodiscard]] bool shows(const BankView& view, const plant::Piece& piece);
/// The ceiling as a view shows it: metres along the view's right and above the floor, at its left and right end. Where
/// it slopes it ends at the room's walls.
struct CeilingLine {
    double from = 0, left = 0, to = 0, right = 0;
};
/// One line; where the ceiling rises or falls away from the reader two, at the back of what is taken in and at its
/// front.
[[nodiscard]] std::vector<CeilingLine> ceiling_lines(const survey::Room& room, const BankView& view);
/// The greatest of their heights.
[[nodiscard]] double top_of(const std::vector<CeilingLine>& lines);
/// How a sloping ceiling lies in a view, in a sentence; empty for a level one.
[[nodiscard]] std::string ceiling_note(const std::vector<CeilingLine>& lines, units::System system);
/// Heights dimensioned: floor, headers, heaters' bottom and top, ceiling at the view's left end.
[[nodiscard]] std::vector<double> bank_heights(const SheetContext& context, const plant::Bank& bank,
                                               const std::vector<CeilingLine>& ceiling);

}  // namespace bw::draw
