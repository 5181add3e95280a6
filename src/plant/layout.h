// SPDX-License-Identifier: MIT
#pragma once
// Where heaters, banks and frames stand in the room: what `layout` finds and `piping` builds.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "plant/stations.h"
#include "shape/polygon.h"
#include "shape/solid.h"
#include "units/amount.h"

namespace bw::plant {

enum class Arrangement { wall, rack_one_sided, rack_two_sided };
[[nodiscard]] std::string_view name(Arrangement arrangement);  // "wall", "rack-one-sided", "rack-two-sided"

/// One heater's stand. Local frame of its bank: u along the header from the feed end, v out from the wall or, on a
/// two-sided rack, from the frame's middle plane (side 0 looks to +v, side 1 to -v), w up from the floor.
struct Stand {
    int number = 0;  ///< 1-based over the whole plant
    int side = 0;    ///< 0, or 1 on the far side of a two-sided rack
    double u = 0;    ///< metres, the edge of the heater at lower u, on either side
    bool operator==(const Stand&) const = default;
};

struct Bank {
    int number = 0;          ///< 1-based
    shape::Placement place;  ///< bank frame (u, v, w) to room; u axis along the wall
    bool mirrored = false;   ///< feed end at high u: headers are fed from u = length, capped at u = 0
    int wall = -1;           ///< index of the room's wall it hangs on; -1 on a rack
    double length = 0;       ///< metres along u, heaters and end clearances included
    double back_plane =
        0;  ///< metres from v = 0 to the heaters' backs: half the rack's depth on a two-sided rack, else 0
    double depth_front = 0;  ///< metres from v = 0 to the heater's front
    double depth_back = 0;   ///< metres behind v = 0: on a wall the strut it stands off by, of a rack its frame
    double bottom = 0;       ///< metres, w of the heaters' bottom
    stations::Section section = stations::sections.front();  ///< how its headers run beside the heaters
    double behind = 0;                                       ///< metres free behind a rack's frame
    stations::Rack rack = {};                                ///< of a one-sided rack, else without depth
    std::vector<Stand> stands;                               ///< by rising u, side 0 before side 1 at equal u
    int assembly = 1;  ///< 1-based: banks of one assembly share headers' mains and are at most most_in_assembly heaters
    bool operator==(const Bank&) const = default;
};

/// A heater's own frame (x along its width, y out of its back, z up, from its lower back corner) to the room.
[[nodiscard]] shape::Placement heater_place(const Bank& bank, const Stand& stand, double heater_width);

struct Layout {
    std::string
        id;  ///< "wall-2-at-30", "rack-two-sided-1-at-48-66": its place, so that it stays while others come and go
    std::string family;  ///< candidates that differ only in position and feed end share one: "wall-2"
    Arrangement arrangement{};
    std::vector<Bank> banks;
    double floor_length = 0;                ///< metres of wall or rack taken, all banks
    double floor_area = 0;                  ///< m2, footprint with working space
    std::vector<shape::Box> working_space;  ///< kept clear in front of heaters
    std::vector<shape::Box> envelopes;      ///< each bank with its headers, for drawing and for others to keep off
    std::optional<shape::Box> panel_space;  ///< kept clear in front of the panel, where one is in the room
    double run = 0;             ///< metres of mains and vents to the points of connection, in plan: an estimate
    std::string says, says_si;  ///< one sentence: where it stands
    [[nodiscard]] const std::string& in_words(units::System system) const {
        return system == units::System::us ? says : says_si;
    }
    bool operator==(const Layout&) const = default;
};

/// Why a way of arranging does not fit: what is short and by how much.
struct Shortfall {
    std::string arrangement;
    std::string what;    ///< "wall 2 is 8 ft 3 in clear between the door swing and the corner"
    double need = 0;     ///< metres
    double have = 0;     ///< metres
    std::string remedy;  ///< the nearest change that would let it fit
};

struct Layouts {
    std::vector<Layout> candidates;  ///< of those that fit, the ones most worth building, first to be built first
    int weighed = 0;                 ///< all that fit
    std::vector<Shortfall> shortfalls;
};

}  // namespace bw::plant
