// SPDX-License-Identifier: MIT
#pragma once
// How much longer or deeper a room would have to be for a block to fit.

#include <functional>
#include <optional>

#include "layout/block.h"

namespace bw::layout {

/// Metres missing along a block and across it. Where either alone would do, only the lesser is above zero.
struct Shortage {
    double along = 0, across = 0;
};

/// Whether a block fits when it is shrunk by so much along and across.
using Fits = std::function<bool(double along, double across)>;

/// The least shortage, to 1/16 in; nullopt when no length and depth would do. The block's own
/// length and depth bound the search.
[[nodiscard]] std::optional<Shortage> shortage(const Fits& fits, double block_length, double block_depth);

}  // namespace bw::layout
