// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <array>

#include "survey/geometry.h"
#include "survey/points.h"
#include "survey/room_parts.h"
#include "units/amount.h"

namespace bw::survey {
namespace {

constexpr double slack = 0.0254 + grid / 2;  // an inch, whichever way it rounds

shape::Vec direction(std::string_view word) {
    constexpr std::array<shape::Vec, 6> vectors{{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, shape::up, shape::down}};
    const auto words = facing_words();
    return vectors[static_cast<std::size_t>(std::find(words.begin(), words.end(), word) - words.begin())];
}

bool in_room(const Room& room, shape::Vec p, double tolerance) {
    return shape::inside(room.plan, {p.x, p.y}, tolerance) && p.z >= -tolerance &&
           p.z <= room.overhead().at(p) + tolerance;
}

/// Onto the wall, floor or ceiling a place lies just outside of.
shape::Vec brought_in(const Room& room, shape::Vec at) {
    if (!shape::inside(room.plan, {at.x, at.y})) {
        const auto near = nearest_wall(room.plan, {at.x, at.y});
        const auto normal = inward(room.plan, near.wall);
        at.x = snapped(at.x + near.distance * normal.x);
        at.y = snapped(at.y + near.distance * normal.y);
    }
    const double over = room.overhead().at(at);
    at.z = std::clamp(at.z, 0.0, room.slope ? snapped_down(over) : over);
    return at;
}

/// By how much a point stands above the ceiling or below the floor; else nothing.
std::string out_by(const Room& room, shape::Vec at) {
    const double ceiling = room.overhead().at(at);
    const auto feet = [](double metres) { return units::print_feet_inches(metres * units::metre); };
    if (at.z > ceiling)
        return fmt::format(", {} above the ceiling of {}{}", feet(at.z - ceiling), feet(ceiling),
                           room.slope ? " there" : "");
    if (at.z < 0) return fmt::format(", {} below the floor", feet(-at.z));
    return {};
}

void read_size(Table& t, Connection& out) {
    Nominal size;
    if (!t.take("size", size)) return;
    if (size.eighths < 2 || size.eighths > 24 * 8)
        t.refuse("size", fmt::format("{} in is out of range", units::print(size)), "1/4 to 24 in");
    out.size = size;
}

Result<Connection> read_connection(std::string_view name, const text::Node& node, Survey& survey) {
    const auto& room = survey.room;
    Connection out{.given = true};
    std::string facing;
    Table t("connections", node, survey.assumed);
    t.take("at", out.at);
    read_size(t, out);
    const bool stated = t.take("facing", facing);
    if (t.ok() && !in_room(room, out.at, slack))
        t.refuse("at", fmt::format("the {} connection is outside the room{}", name, out_by(room, out.at)),
                 "on or inside the walls, the floor and the ceiling");
    if (t.ok()) {
        out.at = brought_in(room, out.at);
        out.facing = stated ? direction(facing) : facing_of(room.plan, room.overhead().at(out.at), out.at);
        if (!in_room(room, out.at + 0.15 * out.facing, 1e-9))
            t.refuse("facing", fmt::format("the {} connection would look out of the room", name),
                     "a direction into the room");
    }
    if (auto done = t.finish(); !done) {
        auto error = done.error();
        error.what = fmt::format("connections.{}: {}", name, error.what);
        return tl::unexpected(error);
    }
    return out;
}

}  // namespace

Result<void> read_connections(const std::optional<text::Node>& node, Survey& out) {
    if (!node) return {};
    text::TableReader reader(*node);
    for (const auto& point : points()) {
        const std::string_view name = point.key;
        Connection Room::*const which = point.place;
        const auto child = reader.child(name);
        if (!child) continue;
        auto connection = read_connection(name, *child, out);
        if (!connection) return tl::unexpected(connection.error());
        out.room.*which = *connection;
    }
    return reader.finish();
}

}  // namespace bw::survey
