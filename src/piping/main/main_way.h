// SPDX-License-Identifier: MIT
#pragma once
// The way a main takes: what it keeps off, and how it is sought.

#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

/// What mains keep off besides pieces: the banks with the room their vents will want, and the way in at doors.
[[nodiscard]] std::vector<KeepOff> kept_off_by_mains(const Builder& b);

/// Straight lengths wanted at the ends of a way, and those that changes of size alone take, metres.
struct WayEnds {
    double first = 0, last = 0, least_first = 0, least_last = 0;
};

/// Tries the straight lengths wanted at the ends first, quickly, then does without them. With `stub_turn`, what an
/// elbow of the connection's own size takes, a way that finds no room straight on may begin with an elbow made up on
/// the building's stub, turning up, down or aside at the wall (common practice, no source).
[[nodiscard]] Result<std::vector<Vec>> find_way(const ClearanceMap& space, const RouteRequest& ask, const WayEnds& ends,
                                                Thoroughness how, double stub_turn = 0);

/// A way that turns at once, `out` from the open end, up, aside or down, and then goes straight on for `straight`: room
/// for many things in line where the way out of the wall has none.
[[nodiscard]] Result<std::vector<Vec>> find_way_aside(const ClearanceMap& space, const RouteRequest& ask,
                                                      const WayEnds& ends, double out, double straight);

}  // namespace bw::piping
