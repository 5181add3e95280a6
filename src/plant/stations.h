// SPDX-License-Identifier: MIT
#pragma once
// Where things of a bank stand by default, metres: what `layout` keeps room for and `piping` builds into.
// Common practice, no source, where none is named.

#include <algorithm>
#include <array>
#include <string_view>

#include "code/clearances.h"
#include "units/constants.h"

namespace bw::plant::stations {

inline constexpr double inch = 0.0254;
using units::grid;

/// Kept free between the lowest line of a bank and the floor.
inline constexpr double floor_clear = 4 * inch;

/// Working space in front of heaters where the maker asks for less (IFGC 306.1: 30 in by 30 in, level; from memory).
inline constexpr double work_depth = 30 * inch, work_width = 30 * inch;
/// In front of a panel, wherever it covers the panel, and the panel's own body (common practice), whose footprint stays
/// free of pipe up to 6 ft above it (110.26(E)).
inline constexpr double panel_depth = code::electrical_space.depth.value(),
                        panel_width = code::electrical_space.width.value(),
                        work_height = code::electrical_space.height.value();
inline constexpr double panel_body_width = 20 * inch, panel_body_depth = 6 * inch, panel_dedicated = 72 * inch;
inline constexpr double panel_narrow = 14.5 * inch;  ///< the narrowest body usual (common practice, no source)
/// Way to working space round the end of a rack, and in front of a door (IFGC 306.2: 36 in wide; from memory), and the
/// height kept over it.
inline constexpr double passage = 36 * inch, passage_height = 80 * inch;
/// A pipe that comes out of a wall keeps heaters off by so much all round, and so much above and below them.
inline constexpr double connection_half = 4 * inch, heater_above = 1 * inch, heater_below = 2 * inch;

/// Half the depth of a two-sided rack: middle plane, where the headers hang, to the heaters' backs.
inline constexpr double rack_back_plane = 9 * inch;
/// What keeps the top of a one-sided rack from tipping.
enum class Tied { feet, wall, ceiling };
/// The frame of a one-sided rack. One that its feet do not hold has one row of posts, and rails before them.
struct Rack {
    double depth = 0;   ///< behind the heaters' backs
    double behind = 0;  ///< free behind it
    Tied tied = Tied::feet;
    bool paired = false;  ///< two stand back to back
    bool operator==(const Rack&) const = default;
};
/// Post and rail of single strut make 3-1/4 in; two posts on feet of their own stand free.
inline constexpr Rack wall_backed{3.25 * inch, 1 * inch, Tied::wall}, back_to_back{3.25 * inch, 0, Tied::ceiling, true},
    free_standing{18 * inch, 1 * inch};
/// Strut across the studs of a wall that burns or is light: the heaters' backs stand so far off its face.
inline constexpr double stand_off = 1.625 * inch;
/// Free length past the feed end that mains like to have besides: their turns then need not stand in one another's way.
inline constexpr double feed_easy = 18 * inch;
/// Between two banks in one line, besides the heaters' own side gap: a union.
inline constexpr double in_line_union = 3.5 * inch;

/// Above a heater's top for its vent, where the manufacturer's own top gap is not greater: collar, elbow and its
/// radius; for a common vent collar, damper, tee and radius. A level run takes its fall besides.
inline constexpr double vent_single = 8 * inch, vent_common = 15 * inch;
/// As much as vents like to have above the heaters, top gap included.
inline constexpr double vent_easy_single = 30 * inch, vent_easy_common = 36 * inch;
/// Fall of what drains back along its run: 1/4 in a foot.
inline constexpr double fall = 1.0 / 48;
/// Neutralizer, drop and air gap under the end of a condensate line.
inline constexpr double drain_end = 6.5 * inch;
/// The same into a condensate pump on the floor.
inline constexpr double pump_end = 12 * inch;

/// Of a heater's gas branch below its header's axis: tee, 3 in of pipe (IFGC 408.4) and cap.
inline constexpr double drip_leg = 5.125 * inch;

/// Where a header's axis runs: below the heaters' bottom, and out from their back plane's zero.
struct Level {
    double below = 0, out = 0;
    bool operator==(const Level&) const = default;
};

/// How the lines of a bank run beside its heaters. Another way of running them is another row below.
struct Section {
    std::string_view name;
    Level hot, cold, gas;
    double condensate = 0;    ///< of its header's axis below the heaters' bottom
    double least_bottom = 0;  ///< of the heaters above the floor
    /// Lengths kept free of heaters: for turns at the feed end, for caps at the other. Valves stand in riser or main.
    double feed_end = 12 * inch, cap_end = 4 * inch;

    /// Of all its lines and the gas line's drip legs, below the heaters' bottom.
    [[nodiscard]] constexpr double lowest() const {
        return std::max({hot.below, cold.below, gas.below + drip_leg, condensate});
    }
    bool operator==(const Section&) const = default;
};

/// Roomiest first. Gas lies lowest of the headers; strainer, service valves and the shortest
/// flexible connector set how near hot and cold come to the heaters.
inline constexpr std::array sections{
    Section{.name = "stacked",
            .hot = {18 * inch, 4 * inch},
            .cold = {26 * inch, 4 * inch},
            .gas = {34 * inch, 4 * inch},
            .condensate = 40 * inch,
            .least_bottom = 44 * inch},
    Section{.name = "stacked, condensate high",
            .hot = {18 * inch, 4 * inch},
            .cold = {26 * inch, 4 * inch},
            .gas = {34 * inch, 4 * inch},
            .condensate = 7 * inch,
            .least_bottom = 43 * inch},
    Section{.name = "stacked close",
            .hot = {16 * inch, 4 * inch},
            .cold = {22 * inch, 4 * inch},
            .gas = {28 * inch, 4 * inch},
            .condensate = 34 * inch,
            .least_bottom = 38 * inch},
    Section{.name = "stacked close, condensate high",
            .hot = {16 * inch, 4 * inch},
            .cold = {22 * inch, 4 * inch},
            .gas = {28 * inch, 4 * inch},
            .condensate = 7 * inch,
            .least_bottom = 37 * inch},
    Section{.name = "cold before gas, condensate high",
            .hot = {16 * inch, 3.5 * inch},
            .cold = {22 * inch, 10 * inch},
            .gas = {25 * inch, 4 * inch},
            .condensate = 7 * inch,
            .least_bottom = 33 * inch},
};

/// Least height any section hangs at.
inline constexpr double least_bottom = std::ranges::min_element(sections, {}, &Section::least_bottom)->least_bottom;

}  // namespace bw::plant::stations
