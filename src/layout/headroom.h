// SPDX-License-Identifier: MIT
#pragma once
// What a sloping ceiling leaves over a block.

#include <optional>
#include <vector>

#include "layout/job.h"

namespace bw::layout {

/// What a block needs over the part of it where the ceiling is shortest of that, and what it has there, metres.
struct Headroom {
    double need = 0, have = 0;
    Use over = Use::body;
    [[nodiscard]] double lacks() const { return need - have; }
};
/// Of a block with its low end at u and its reference line at v = `across`.
[[nodiscard]] Headroom headroom(const View& view, const Block& block, double u, double across);

/// The view as it would be if no ceiling were too low.
[[nodiscard]] View without_ceiling(View view);

/// Reference lines at which the ceiling just suffices a part of a block, where it slopes across the block alone.
[[nodiscard]] std::vector<double> lines_under(const View& view, const Block& block);

/// Of the places where all but the sloping ceiling lets a block stand, the one that lacks least height.
class LeastLacking {
public:
    explicit LeastLacking(const Job& job);
    void slide(int turns, const Block& block, double across, double low, double high);
    [[nodiscard]] const std::optional<Headroom>& found() const { return least_; }
    /// The view of these turns without its ceiling.
    [[nodiscard]] const View& view(int turns) const { return views_[static_cast<std::size_t>(turns)]; }

private:
    const Job& job_;
    std::vector<View> views_;
    std::optional<Headroom> least_;
};

}  // namespace bw::layout
