// SPDX-License-Identifier: MIT
// What stands in the room before any pipe: obstacles, and the spaces people work in.

#include <array>

#include "piping/kit/builder.h"

namespace bw::piping {
namespace {

/// What of a working space is kept clear of pipe: all of it, but for a strip along the room's walls near the floor,
/// where a drain fixed to the wall is in nobody's way (common practice, no source).
std::array<shape::Box, 2> kept_clear(const ClearanceMap& space, const shape::Box& box) {
    constexpr double low = 15 * inch_m, strip = 4 * inch_m, reach = 6 * inch_m;
    shape::Box above = box, below = box;
    above.min.z = std::max(box.min.z, low);
    below.max.z = std::min(box.max.z, low);
    const Vec middle = 0.5 * (box.min + box.max);
    const auto by_wall = [&](double x, double y) { return !shape::inside(space.plan(), {x, y}); };
    if (by_wall(box.min.x - reach, middle.y)) below.min.x += strip;
    if (by_wall(box.max.x + reach, middle.y)) below.max.x -= strip;
    if (by_wall(middle.x, box.min.y - reach)) below.min.y += strip;
    if (by_wall(middle.x, box.max.y + reach)) below.max.y -= strip;
    return {above, below};
}

/// The panel's own footprint, from the top of its working space to 6 ft above it (NEC 110.26(E)).
shape::Box over_panel(const survey::Connection& panel, double ceiling) {
    namespace stations = plant::stations;
    const Vec side = stations::panel_body_width / 2 * shape::cross(shape::up, panel.facing);
    const Vec foot{panel.at.x, panel.at.y, stations::work_height};
    const double high = std::min(stations::panel_dedicated, std::max(0.0, ceiling - stations::work_height));
    return shape::box_of(foot - side, foot + side + stations::panel_body_depth * panel.facing + high * shape::up);
}

}  // namespace

ClearanceMap space_of(const survey::Room& room, const plant::Layout& layout) {
    ClearanceMap space(room.plan, room.overhead());
    int owner = ClearanceMap::kept_clear;
    for (const auto& obstacle : room.obstacles) space.take(obstacle.box, owner--, obstacle.name);
    for (const auto& box : layout.working_space)
        for (const auto& part : kept_clear(space, box))
            space.take(part, owner--, "the working space in front of the heaters");
    if (layout.panel_space) {
        space.take(*layout.panel_space, owner--, "the working space in front of the panel");
        space.take(over_panel(room.panel, space.top()), owner--, "the space over the panel");
    }
    // overhead over a passage, and along walls and banks, pipe is in nobody's way (common practice, no source)
    constexpr double overhead = 80 * inch_m, along_walls = 10 * inch_m, along_banks = 6 * inch_m;
    std::vector<shape::Box> aside;
    for (const auto& box : layout.envelopes) aside.push_back(shape::grown(box, along_banks));
    for (const auto& obstacle : room.obstacles) aside.push_back(shape::grown(obstacle.box, along_walls));
    space.keep_walkable(overhead, along_walls, std::move(aside));
    return space;
}

}  // namespace bw::piping
