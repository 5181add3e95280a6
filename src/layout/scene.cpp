// SPDX-License-Identifier: MIT
#include "layout/scene.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

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
    return {box, Off::body, fmt::format("the door in wall {}", door.wall + 1)};
}

bool upright(Vec facing) { return std::abs(facing.z) > 0.5; }

/// A box before a panel's wall, `from` to `to` along it from the panel's middle, `deep` into the room.
Box before_panel(const survey::Connection& panel, double from, double to, double deep, double low, double high) {
    const Vec along{-panel.facing.y, panel.facing.x, 0}, foot{panel.at.x, panel.at.y, 0};
    return shape::box_of(foot + from * along + Vec{0, 0, low},
                         foot + to * along + deep * panel.facing + Vec{0, 0, high});
}

bool in_room(const survey::Connection& panel) { return shape::length(panel.facing) > 0 && !upright(panel.facing); }

void add_panel(std::vector<Blocker>& out, const survey::Room& room) {
    const survey::Connection& panel = room.panel;
    if (!in_room(panel)) return;
    const double half = stations::panel_body_width / 2;
    out.push_back({before_panel(panel, -half, half, stations::panel_depth, 0, stations::work_height), Off::body,
                   "the panel's working space"});
    out.push_back({before_panel(panel, -half, half, stations::panel_body_depth, stations::work_height,
                                std::max(stations::work_height, room.ceiling->value())),
                   Off::body, "the space over the panel"});
}

/// A pipe out of a wall keeps heaters off it; beside, below and above them it may come out behind the headers. Over a
/// hole in the floor all keep off by a little.
void add_connection(std::vector<Blocker>& out, const survey::Connection& point, std::string_view name) {
    if (shape::length(point.facing) == 0) return;
    const double half = stations::connection_half;
    Box box{point.at - Vec{half, half, half}, point.at + Vec{half, half, half}};
    if (upright(point.facing)) {
        box.min.z = point.at.z;
        box.max.z = point.at.z + stations::floor_clear * point.facing.z;
        if (box.min.z > box.max.z) std::swap(box.min.z, box.max.z);
    } else {
        // what stands above and below the heaters is a matter of their own zone, not of the pipe's
        box.min.z = box.max.z = point.at.z;
        box.min.z -= stations::grid, box.max.z += stations::grid;
    }
    out.push_back({box, Off::heaters, fmt::format("the {} connection", name)});
}

}  // namespace

std::vector<Blocker> blockers(const survey::Room& room) {
    std::vector<Blocker> out;
    for (const auto& door : room.doors) out.push_back(door_blocker(room, door));
    for (const auto& obstacle : room.obstacles) out.push_back({obstacle.box, Off::all, "the " + obstacle.name});
    add_panel(out, room);
    add_connection(out, room.gas, "gas");
    add_connection(out, room.cold, "cold water");
    add_connection(out, room.hot, "hot water");
    add_connection(out, room.recirculation, "recirculation");
    add_connection(out, room.drain, "drain");
    return out;
}

PanelSpace panel_space(const survey::Room& room, const std::vector<Box>& bodies) {
    const survey::Connection& panel = room.panel;
    if (!in_room(panel)) return {};
    constexpr double step = 8 * stations::grid, touch = 1e-6;
    const double half = stations::panel_width / 2, most = (stations::panel_width - stations::panel_body_width) / 2,
                 narrow = (stations::panel_width - stations::panel_narrow) / 2;
    const auto at = [&](double shift) {
        return before_panel(panel, shift - half, shift + half, stations::panel_depth, 0, stations::work_height);
    };
    const auto meets = [&](const Box& a, const Box& b) {
        return a.min.x < b.max.x - touch && a.max.x > b.min.x + touch && a.min.y < b.max.y - touch &&
               a.max.y > b.min.y + touch && a.min.z < b.max.z - touch && a.max.z > b.min.z + touch;
    };
    const auto fits_room = [&](const Box& box) {
        for (const double x : {box.min.x + touch, box.max.x - touch})
            for (const double y : {box.min.y + touch, box.max.y - touch})
                if (!shape::inside(room.plan, {x, y}, 1e-5)) return false;
        return std::ranges::none_of(room.obstacles, [&](const auto& o) { return meets(box, o.box); });
    };
    const auto is_free = [&](const Box& box) {
        return fits_room(box) && std::ranges::none_of(bodies, [&](const Box& b) { return meets(box, b); });
    };
    // the room itself may leave it no other place
    bool wide_fits = false;
    for (double shift = -most; shift <= most + touch; shift += step) wide_fits = wide_fits || fits_room(at(shift));
    // of the free ones that which shuts in the fewest points of connection, then the nearest to the middle; what only a
    // narrow panel allows is taken where it frees one more
    const auto shut_in = [&](const Box& box) {
        constexpr double hand = 6 * stations::inch;
        int count = 0;
        for (const auto* point : {&room.gas, &room.cold, &room.hot, &room.recirculation, &room.drain}) {
            if (shape::length(point->facing) == 0) continue;
            const Box reach = shape::box_of(point->at, point->at + hand * point->facing);
            // a drain takes an air gap's funnel, the others a hand and a wrench
            const double beside = point == &room.drain ? 2 * stations::inch : hand / 2;
            count += meets(box, shape::grown(reach, beside));
        }
        return count;
    };
    std::optional<Box> best;
    int least = 0;
    for (double shift = 0; shift <= narrow + touch; shift += step)
        for (const double aside : {shift, -shift}) {
            if (!is_free(at(aside))) continue;
            const int count = shut_in(at(aside));
            if (best && count >= least) continue;
            if (!best && wide_fits && shift > most + touch) continue;
            best = at(aside);
            least = count;
        }
    if (best) return {*best, true};
    return {at(0), false};
}

std::optional<int> turns_of_wall(const shape::Polygon& plan, int wall) {
    const shape::Point a = plan[wall], b = plan[(wall + 1) % plan.size()];
    if (a.y == b.y) return b.x > a.x ? 0 : 2;
    if (a.x == b.x) return b.y > a.y ? 1 : 3;
    return std::nullopt;
}

double wall_length(const shape::Polygon& plan, int wall) { return wall_line(plan, wall).length; }

void View::add(Box room_box, Off keeps_off, std::string name) {
    blockers.push_back({shape::box_of(from_room(room_box.min), from_room(room_box.max)), keeps_off, std::move(name)});
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
    for (const Blocker& b : blockers) v.add(b.box, b.keeps_off, b.name);
    return v;
}

}  // namespace bw::layout
