// SPDX-License-Identifier: MIT
#pragma once
// Where a block can stand along a line: the block slides, and what is in its way blocks stretches of its travel.

#include <vector>

#include "layout/block.h"
#include "layout/scene.h"

namespace bw::layout {

/// What ends a stretch of free travel.
struct Cause {
    enum class Kind { limit, wall, blocker, ceiling } kind = Kind::limit;
    int index = 0;  ///< of the room's wall or the view's blocker
};

/// Free travel of the block's low end along u, metres in the view's frame; low may equal high where it fits exactly.
struct Stretch {
    double low = 0, high = 0;
    Cause low_cause, high_cause;
};

/// All free stretches of a block whose reference line stands at v = `across`, between two limits, rising. Exact for
/// every axis-aligned box, every polygon edge and a sloping ceiling.
[[nodiscard]] std::vector<Stretch> slide(const View& view, const Block& block, double across, double low, double high);

/// Whether there is any.
[[nodiscard]] inline bool slides(const View& view, const Block& block, double across, double low, double high) {
    return !slide(view, block, across, low, high).empty();
}

}  // namespace bw::layout
