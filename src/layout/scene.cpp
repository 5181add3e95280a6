// SPDX-License-Identifier: MIT
#include "layout/scene.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace bw::layout {
namespace {

namespace stations = plant::stations;
using shape::Box;
using shape::Vec;

struct Line {
    Vec start, along, inward;
    double length = 0;
};

Line wall_line(const shape::Polygon& plan, int wall) {
    const shape::Point a = plan[wall], b = plan[(wall + 1) % plan.size()];
    const Vec way{b.x - a.x, b.y - a.y, 0};
    const double whole = shape::length(way);
    const Vec along = (1 / whole) * way;
    return {{a.x, a.y, 0}, along, {-along.y, along.x, 0}, whole};
}

Blocker door_blocker(const survey::Room& room, const survey::Door& door) {
    const Line wall = wall_line(room.plan, door.wall);
    const double width = door.width.value();
    const double depth = *door.swings_in ? std::max(width, stations::passage) : stations::passage;
    const Vec near_jamb = wall.start + door.offset.value() * wall.along;
    const Vec far_jamb = near_jamb + width * wall.along;
    const Vec in = depth * wall.inward, high{0, 0, door.height.value()};
    const Box box =
        shape::joined(shape::box_of(near_jamb, far_jamb + high), shape::box_of(near_jamb + in, far_jamb + in));
    return {box, false, fmt::format("the door in wall {}", door.wall + 1)};
}

bool upright(Vec facing) { return std::abs(facing.z) > 0.5; }

void add_panel(std::vector<Blocker>& out, const survey::Connection& panel) {
    if (shape::length(panel.facing) == 0 || upright(panel.facing)) return;
    const Vec aside = stations::panel_width / 2 * Vec{-panel.facing.y, panel.facing.x, 0};
    const Vec foot{panel.at.x, panel.at.y, 0}, head{panel.at.x, panel.at.y, stations::work_height};
    const Vec out_of = stations::work_depth * panel.facing;
    const Box box = shape::joined(shape::box_of(foot - aside, head + aside + out_of),
                                  shape::box_of(foot + aside, head - aside + out_of));
    out.push_back({box, false, "the panel's working space"});
}

void add_connection(std::vector<Blocker>& out, const survey::Connection& point, std::string_view name) {
    if (shape::length(point.facing) == 0) return;
    const double half = stations::connection_half;
    Box box{point.at - Vec{half, half, half}, point.at + Vec{half, half, half}};
    if (upright(point.facing)) {
        // banks may stand over a hole in the floor as long as they keep off it
        box.min.z = point.at.z;
        box.max.z = point.at.z + stations::floor_clear * point.facing.z;
        if (box.min.z > box.max.z) std::swap(box.min.z, box.max.z);
    } else {
        box = shape::joined(box, {box.min + stations::connection_depth * point.facing,
                                  box.max + (stations::connection_depth - half) * point.facing});
    }
    out.push_back({box, false, fmt::format("the {} connection", name)});
}

}  // namespace

std::vector<Blocker> blockers(const survey::Room& room) {
    std::vector<Blocker> out;
    for (const auto& door : room.doors) out.push_back(door_blocker(room, door));
    for (const auto& obstacle : room.obstacles) out.push_back({obstacle.box, true, "the " + obstacle.name});
    add_panel(out, room.panel);
    add_connection(out, room.gas, "gas");
    add_connection(out, room.cold, "cold water");
    add_connection(out, room.hot, "hot water");
    add_connection(out, room.recirculation, "recirculation");
    add_connection(out, room.drain, "drain");
    return out;
}

std::optional<int> turns_of_wall(const shape::Polygon& plan, int wall) {
    const shape::Point a = plan[wall], b = plan[(wall + 1) % plan.size()];
    if (a.y == b.y) return b.x > a.x ? 0 : 2;
    if (a.x == b.x) return b.y > a.y ? 1 : 3;
    return std::nullopt;
}

double wall_length(const shape::Polygon& plan, int wall) { return wall_line(plan, wall).length; }

void View::add(Box room_box, bool work, std::string name) {
    blockers.push_back({shape::box_of(from_room(room_box.min), from_room(room_box.max)), work, std::move(name)});
}

View view(const survey::Room& room, const std::vector<Blocker>& blockers, int turns) {
    View v;
    v.turns = turns;
    v.plan.reserve(room.plan.size());
    for (const shape::Point& p : room.plan) {
        const Vec turned = v.from_room({p.x, p.y, 0});
        v.plan.push_back({turned.x, turned.y});
    }
    v.ceiling = room.overhead().placed({4 - turns, {}});
    v.blockers.reserve(blockers.size() + 4);
    for (const Blocker& b : blockers) v.add(b.box, b.work, b.name);
    return v;
}

}  // namespace bw::layout
