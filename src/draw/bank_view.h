// SPDX-License-Identifier: MIT
#pragma once
// A bank from the front and from its end: which way one looks, what of the room is taken in, where dimensions stand.

#include "draw/frame.h"

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
/// Heights dimensioned: floor, headers, heaters' bottom and top, ceiling.
[[nodiscard]] std::vector<double> bank_heights(const Desk& desk, const plant::Bank& bank);

}  // namespace bw::draw
