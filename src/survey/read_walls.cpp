// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <set>

#include "survey/geometry.h"
#include "survey/room_parts.h"

namespace bw::survey {
namespace {

constexpr double half_step = grid / 2;

std::string feet(double metres) { return units::print_feet_inches(metres * metre); }

Result<void> read_wall(const text::Node& node, const Plan& plan, std::set<int>& seen, Survey& out) {
    int number = 0;
    Table t("room.wall", node, out.assumed);
    t.take("number", number);
    if (t.ok() && number > static_cast<int>(plan.corners.size()))
        t.refuse("number", fmt::format("there is no wall {}", number), fmt::format("1 to {}", plan.corners.size()));
    if (t.ok() && !seen.insert(number).second)
        t.refuse("number", fmt::format("wall {} is given twice", number), "each wall once");
    if (!t.ok()) return t.finish();
    auto& wall = out.room.walls[plan.wall(number)];
    t.take("build", wall.build);
    t.take("combustible", wall.combustible);
    t.take("outside", wall.outside);
    t.take("rated", wall.rated);
    return t.finish();
}

/// The lowest ceiling over a door whose place is still in the file's own direction.
double over_door(const Plan& plan, int number, const Room& room, const Door& door) {
    const auto wall = plan.wall(number);
    const double whole = wall_length(plan.corners, wall), near = door.offset.value(), far = near + door.width.value();
    const auto ceiling = room.overhead();
    const auto at = [&](double along) {
        return ceiling.at(on_wall(plan.corners, wall, std::clamp(plan.turned ? whole - along : along, 0.0, whole)));
    };
    return std::min(at(near), at(far));
}

/// Where the door stands on its wall, judged in the file's own direction, then turned to the plan's.
void set_on_wall(Table& t, const Plan& plan, int number, const Room& room, Door& door) {
    if (!t.ok()) return;
    if (number > static_cast<int>(plan.corners.size()))
        return t.refuse("wall", fmt::format("there is no wall {}", number),
                        fmt::format("1 to {}", plan.corners.size()));
    const auto wall = plan.wall(number);
    const double whole = wall_length(plan.corners, wall), width = door.width.value(), offset = door.offset.value();
    if (width > whole + half_step)
        return t.refuse("width",
                        fmt::format("the door is {} wide, wall {} is {} long", feet(width), number, feet(whole)),
                        "a door no wider than its wall");
    if (offset + width > whole + half_step)
        return t.refuse("offset",
                        fmt::format("the door ends {} from the corner, wall {} is {} long", feet(offset + width),
                                    number, feet(whole)),
                        fmt::format("at most {}", feet(whole - width)));
    const double ceiling = over_door(plan, number, room, door);
    if (door.height.value() > ceiling + half_step)
        return t.refuse(
            "height",
            fmt::format("the door is {} high, the {} {}", feet(door.height.value()),
                        room.slope ? "ceiling over it" : "room", feet(ceiling)),
            room.slope ? "a door no higher than the ceiling at its wall" : "a door no higher than the room");
    door.wall = static_cast<int>(wall);
    if (plan.turned) {
        door.offset = snapped(std::max(0.0, whole - offset - width)) * metre;
        door.hinge_far.value = !door.hinge_far.value;
    }
}

Result<Door> read_door(const text::Node& node, std::size_t count, const Plan& plan, Survey& out) {
    Door door;
    int number = 0;
    Table t("room.door", node, out.assumed, fmt::format("room.door.{}", count));
    t.take("wall", number);
    t.take("offset", door.offset);
    t.take("width", door.width);
    if (!t.take("height", door.height)) {
        const auto& spec = field("room.door.height");
        const bool on_a_wall = number >= 1 && number <= static_cast<int>(plan.corners.size());
        const double ceiling =
            snapped_down(on_a_wall ? over_door(plan, number, out.room, door) : out.room.ceiling.value.value());
        const bool low = ceiling < 80 * 0.0254;
        t.fall_back(
            "height", door.height,
            {low ? feet(ceiling) : std::string(spec.fallback), low ? "as high as the room" : std::string(spec.why)});
    }
    t.take_or_default("swings-in", door.swings_in);
    t.take_or_default("hinge-far", door.hinge_far);
    set_on_wall(t, plan, number, out.room, door);
    if (auto done = t.finish(); !done) return tl::unexpected(done.error());
    return door;
}

bool share_wall(const Door& a, const Door& b) {
    return a.wall == b.wall && a.offset.value() + a.width.value() > b.offset.value() + half_step &&
           b.offset.value() + b.width.value() > a.offset.value() + half_step;
}

Result<shape::Box> read_box(const text::Node& node, Obstacle& out, std::vector<Assumption>& assumed) {
    shape::Vec from, to;
    Table t("room.obstacle", node, assumed);
    t.take("name", out.name);
    t.take("from", from);
    t.take("to", to);
    const auto box = shape::box_of(from, to);
    if (t.ok() &&
        (box.max.x - box.min.x < half_step || box.max.y - box.min.y < half_step || box.max.z - box.min.z < half_step))
        t.refuse("to", "the two corners leave no solid between them",
                 "opposite corners that differ in x, y and height");
    if (auto done = t.finish(); !done) return tl::unexpected(done.error());
    return box;
}

/// An obstacle stands in the room and leaves some of it free.
Result<void> judge_obstacle(const text::Node& node, const Obstacle& obstacle, const Room& room) {
    const auto& box = obstacle.box;
    constexpr double slack = 0.0254;
    const double over = room.overhead().lowest(box);
    if (room.slope && box.max.z > over + slack && box.max.z <= room.ceiling.value.value() + slack)
        return node.get("to")->error(
            fmt::format("obstacle '{}' reaches {} through the sloping ceiling", obstacle.name, feet(box.max.z - over)),
            fmt::format("a top no higher than {}, the lowest ceiling over it", feet(snapped_down(over))));
    if (!shape::contains(room.plan, box, slack) || box.min.z < -slack || box.max.z > room.ceiling.value.value() + slack)
        return node.get("from")->error(fmt::format("obstacle '{}' reaches outside the room", obstacle.name),
                                       "corners within the plan, from the floor to the ceiling");
    const double covers = (box.max.x - box.min.x) * (box.max.y - box.min.y), whole = shape::signed_area(room.plan);
    if (covers > 0.9 * whole)
        return node.get("from")->error(fmt::format("obstacle '{}' covers the room", obstacle.name),
                                       "at most nine tenths of the floor");
    return {};
}

}  // namespace

Result<void> read_walls(Table& room_table, const Plan& plan, Survey& out) {
    out.room.walls.resize(plan.corners.size());
    for (std::size_t i = 0; i < out.room.walls.size(); ++i) out.room.walls[i].number = plan.number(i);
    std::set<int> seen;
    for (const auto& node : room_table.list("wall"))
        if (auto done = read_wall(node, plan, seen, out); !done) return done;
    return {};
}

Result<void> read_doors(Table& room_table, const Plan& plan, Survey& out) {
    auto& doors = out.room.doors;
    for (const auto& node : room_table.list("door")) {
        auto door = read_door(node, doors.size() + 1, plan, out);
        if (!door) return tl::unexpected(door.error());
        if (std::any_of(doors.begin(), doors.end(), [&](const Door& other) { return share_wall(*door, other); }))
            return node.get("offset")->error("this door overlaps another on the same wall", "doors side by side");
        doors.push_back(*door);
    }
    return {};
}

Result<void> read_obstacles(Table& room_table, Survey& out) {
    for (const auto& node : room_table.list("obstacle")) {
        Obstacle obstacle;
        const auto box = read_box(node, obstacle, out.assumed);
        if (!box) return tl::unexpected(box.error());
        obstacle.box = *box;
        if (auto fine = judge_obstacle(node, obstacle, out.room); !fine) return fine;
        out.room.obstacles.push_back(std::move(obstacle));
    }
    return {};
}

}  // namespace bw::survey
