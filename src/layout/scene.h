// SPDX-License-Identifier: MIT
#pragma once
// The room as a bank sees it: what stands in its way, turned so that the bank's length runs along u.

#include <string>
#include <vector>

#include "plant/stations.h"
#include "survey/survey.h"

namespace bw::layout {

/// A box that something of a bank must keep off.
struct Blocker {
    shape::Box box;
    bool work = false;  ///< keeps working space off too, not only heaters and frames
    std::string name;   ///< "the door in wall 1"
};

/// Door leaves and the way in front of doors, obstacles, the panel's working space, points of connection.
[[nodiscard]] std::vector<Blocker> blockers(const survey::Room& room);

/// Quarter turns of a bank that hangs on a wall, u along the wall and v into the room; nullopt where the wall stands at
/// an angle.
[[nodiscard]] std::optional<int> turns_of_wall(const shape::Polygon& plan, int wall);
[[nodiscard]] double wall_length(const shape::Polygon& plan, int wall);

/// Room, ceiling and blockers in the frame of banks turned by quarter turns about the room's origin.
struct View {
    int turns = 0;
    shape::Polygon plan;
    shape::Ceiling ceiling;
    std::vector<Blocker> blockers;

    [[nodiscard]] shape::Vec from_room(shape::Vec p) const { return shape::Placement{4 - turns, {}}.turn(p); }
    void add(shape::Box room_box, bool work, std::string name);
};
[[nodiscard]] View view(const survey::Room& room, const std::vector<Blocker>& blockers, int turns);

}  // namespace bw::layout
