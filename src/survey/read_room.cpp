// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <cmath>

#include "survey/geometry.h"
#include "survey/parts.h"
#include "survey/room_parts.h"

namespace bw::survey {
namespace {

constexpr double steepest = 1;  ///< metres a metre

Result<void> read_way_in(const std::optional<text::Node>& node, Survey& out) {
    auto& way = out.room.way_in;
    Table t("room.way-in", node, out.assumed);
    const bool corridor = t.take_or_default("corridor", way.corridor);
    if (!t.take("corridor-after-turn", way.corridor_after_turn))
        t.fall_back("corridor-after-turn", way.corridor_after_turn,
                    corridor ? Fallback{"0 in", "no turn was named"}
                             : Fallback{"36 in", "one turn, as narrow as the corridor"});
    const double turn = way.corridor_after_turn.value.value();
    if (t.ok() && turn > 0 && turn < 16 * 0.0254)
        t.refuse("corridor-after-turn",
                 units::print_feet_inches(way.corridor_after_turn.value) + " is too narrow to pass",
                 "at least 16 in, or 0 in where the corridor does not turn");
    t.take_or_default("ceiling", way.ceiling);
    return t.finish();
}

/// Numbers of the walls that no part of the plan lies behind.
std::string walls_along_the_edge(const Plan& plan) {
    std::string list;
    for (int number = 1; number <= static_cast<int>(plan.corners.size()); ++number)
        if (behind(plan.corners, plan.wall(number)) < grid / 2)
            list += fmt::format("{}{}", list.empty() ? "" : ", ", number);
    return list;
}

Result<void> read_slope(const std::optional<text::Node>& node, const Plan& plan, Survey& out) {
    if (!node) return {};
    auto& room = out.room;
    CeilingSlope slope;
    int number = 0;
    Table t("room.ceiling-slope", *node, out.assumed);
    t.take("wall", number);
    t.take("low", slope.low);
    if (!t.ok()) return t.finish();
    const int walls = static_cast<int>(plan.corners.size());
    const auto feet = [](double metres) { return units::print_feet_inches(metres * metre); };
    if (number > walls) {
        t.refuse("wall", fmt::format("there is no wall {}", number), fmt::format("1 to {}", walls));
        return t.finish();
    }
    const auto wall = plan.wall(number);
    const double high = room.ceiling.value.value(), fall = high - slope.low.value();
    if (std::abs(fall) < grid / 2) return t.finish();  // level after all
    if (behind(plan.corners, wall) > grid / 2)
        t.refuse("wall", fmt::format("the room reaches behind wall {}, where the ceiling would be lower still", number),
                 fmt::format("a wall that no part of the room lies behind: {}", walls_along_the_edge(plan)));
    else if (fall < 0)
        t.refuse("low", fmt::format("the ceiling falls to {}, and is {} high", feet(slope.low.value()), feet(high)),
                 "no more than room.ceiling, which is the greatest height");
    else if (fall > steepest * depth_before(plan.corners, wall))
        t.refuse("low", fmt::format("the ceiling falls {} over {}", feet(fall), feet(depth_before(plan.corners, wall))),
                 "a slope of 45 degrees at most: what is steeper is a wall");
    slope.wall = static_cast<int>(wall);
    room.slope = slope;
    return t.finish();
}

Result<void> read_shell(Table& t, Survey& out) {
    auto& room = out.room;
    const auto node = t.child("plan");
    if (t.ok() && !node)
        return fail("missing key 'plan'", "the room's corners: [[\"0 ft\", \"0 ft\"], [\"20 ft\", \"0 ft\"], ...]",
                    t.place());
    if (!node) return t.finish();
    const auto plan = read_plan(*node);
    if (!plan) return tl::unexpected(plan.error());
    room.plan = plan->corners;
    t.take("ceiling", room.ceiling);
    if (!t.ok()) return t.finish();
    if (auto done = read_slope(t.child("ceiling-slope"), *plan, out); !done) return done;
    if (auto done = read_walls(t, *plan, out); !done) return done;
    if (auto done = read_doors(t, *plan, out); !done) return done;
    if (t.ok() && room.doors.empty()) return fail("the room has no door", "at least one [[room.door]]", t.place());
    return read_obstacles(t, out);
}

}  // namespace

Result<void> read_room(const Top& top, Survey& out) {
    auto& room = out.room;
    Table t("room", top.room, out.assumed);
    if (auto done = read_shell(t, out); !done) t.fail(done.error());
    if (t.ok())
        if (auto done = read_way_in(t.child("way-in"), out); !done) t.fail(done.error());
    t.take_or_default("air-changes", room.air_changes);
    t.take_or_default("freezing", room.freezing);
    t.take_or_default("terminal-clear", room.terminal_clear);
    if (auto done = t.finish(); !done) return done;
    if (auto done = read_connections(top.connections, out); !done) return done;
    place_missing(out);
    fill_walls(out);
    return {};
}

}  // namespace bw::survey
