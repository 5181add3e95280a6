// SPDX-License-Identifier: MIT
#pragma once
// The room as a bank sees it: what stands in its way, turned so that the bank's length runs along u.

#include <optional>
#include <string>
#include <vector>

#include "plant/stations.h"
#include "survey/survey.h"

namespace bw::layout {

/// What a box keeps off: the heaters alone, all that stands or hangs, or working space too.
enum class Off { heaters, body, all };

/// A box that something of a bank must keep off.
struct Blocker {
    shape::Box box;
    Off keeps_off = Off::body;
    std::string name;  ///< "the door in wall 1"
};

/// Door leaves and the way in front of doors, obstacles, what of the panel's working space stays wherever that is put,
/// points of connection.
[[nodiscard]] std::vector<Blocker> blockers(const survey::Room& room);

/// The panel's working space: 30 in wide anywhere that covers the panel (NEC 110.26(A)(2)), as near to its middle as
/// walls, obstacles and `bodies` leave it. Nothing where the room has no panel; the middle where no place is free.
struct PanelSpace {
    std::optional<shape::Box> box;
    bool is_free = true;
};
[[nodiscard]] PanelSpace panel_space(const survey::Room& room, const std::vector<shape::Box>& bodies);

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
    void add(shape::Box room_box, Off keeps_off, std::string name);
};
[[nodiscard]] View view(const survey::Room& room, const std::vector<Blocker>& blockers, int turns);

}  // namespace bw::layout
