// SPDX-License-Identifier: MIT
#pragma once
// Where things of a bank stand by default, metres: what `layout` keeps room for and `piping` builds into.
// Common practice, no source, where none is named.

namespace bw::plant::stations {

inline constexpr double inch = 0.0254;
inline constexpr double grid = inch / 16;

/// Header centre lines below the heaters' bottom: gas lowest of the headers, cold above it, hot highest.
inline constexpr double hot_below = 18 * inch, cold_below = 26 * inch, gas_below = 34 * inch,
                        condensate_below = 40 * inch;
/// Kept free between the condensate line and the floor.
inline constexpr double floor_clear = 4 * inch;
/// Least height of the heaters' bottom above the floor that leaves room for the stack.
inline constexpr double least_bottom = condensate_below + floor_clear;

/// Kept free above a heater's own top clearance for the vents.
inline constexpr double vent_room_single = 18 * inch, vent_room_common = 24 * inch;

/// Working space in front of heaters where the maker asks for less, and in front of a panel (NEC 110.26(A): 36 in deep,
/// 30 in wide, 6-1/2 ft high).
inline constexpr double work_depth = 36 * inch, panel_width = 30 * inch, work_height = 78 * inch;
/// Way to working space round the end of a rack, and in front of a door (IFGC 306.2: 36 in wide; from memory).
inline constexpr double passage = 36 * inch;
/// Kept free of banks in front of a point of connection, to turn a wrench in: half its width, and its depth.
inline constexpr double connection_half = 6 * inch, connection_depth = 12 * inch;

/// Half the depth of a two-sided rack: middle plane, where the headers hang, to the heaters' backs.
inline constexpr double rack_back_plane = 9 * inch;
/// Depth of a one-sided rack's frame behind the heaters' backs, and what it keeps off a wall behind it.
inline constexpr double rack_depth_back = 18 * inch, rack_behind = 1 * inch;
/// Between two banks in one line.
inline constexpr double in_line_gap = 12 * inch;

}  // namespace bw::plant::stations
