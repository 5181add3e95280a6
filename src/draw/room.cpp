// SPDX-License-Identifier: MIT
#include "draw/room.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/palette.h"
#include "survey/points.h"

namespace bw::draw {

namespace {

constexpr double wall_thickness = 0.15;  // drawn only; the survey gives faces

shape::Vec corner(const survey::Room& room, std::size_t i) {
    const auto& p = room.plan[i % room.plan.size()];
    return {p.x, p.y, 0};
}

/// Unit vectors along a wall and into the room (plans run counter-clockwise).
struct WallAxes {
    shape::Vec start, along, in;
    double length;
};
WallAxes axes_of(const survey::Room& room, std::size_t wall) {
    const auto a = corner(room, wall), b = corner(room, wall + 1);
    const double length = shape::distance(a, b);
    const auto along = (1 / length) * (b - a);
    return {a, along, {-along.y, along.x, 0}, length};
}

void draw_door(const View& view, const survey::Room& room, const survey::Door& door) {
    const auto d = door_in_plan(room, door);
    auto& canvas = view.canvas();
    canvas.fill({view(d.near), view(d.far), view(d.far + d.out), view(d.near + d.out)}, white);
    for (const auto& jamb : {d.near, d.far}) canvas.line(view(jamb), view(jamb + d.out), {.width = 0.9});
    canvas.line(view(d.hinge), view(d.open), {.width = 1.1});
    std::vector<At> arc;
    for (int i = 0; i <= 24; ++i) {
        const double t = i / 24.0 * std::numbers::pi / 2;
        arc.push_back(view(d.hinge + std::cos(t) * (d.open - d.hinge) + std::sin(t) * (d.shut - d.hinge)));
    }
    canvas.polyline(arc, {.width = 0.4, .dash = {3, 2}});
}

}  // namespace

DoorInPlan door_in_plan(const survey::Room& room, const survey::Door& door) {
    const auto w = axes_of(room, static_cast<std::size_t>(door.wall));
    const double width = door.width.value();
    DoorInPlan d;
    d.near = w.start + door.offset.value() * w.along, d.far = d.near + width * w.along;
    d.out = -wall_thickness * w.in;
    d.hinge = *door.hinge_far ? d.far : d.near, d.shut = *door.hinge_far ? d.near : d.far;
    d.open = d.hinge + (*door.swings_in ? width : -width) * w.in;
    return d;
}

void draw_walls(const View& view, const survey::Room& room) {
    std::vector<At> outline;
    for (std::size_t i = 0; i < room.plan.size(); ++i) outline.push_back(view(corner(room, i)));
    auto& canvas = view.canvas();
    canvas.polyline(outline, {.width = 2 * view.points(wall_thickness), .colour = {0.72, 0.72, 0.74}}, true);
    canvas.polygon(outline, {.width = 1.1}, white);
    for (const auto& door : room.doors) draw_door(view, room, door);
}

int number_of_wall(const survey::Room& room, std::size_t wall) {
    return room.walls[wall].number > 0 ? room.walls[wall].number : static_cast<int>(wall) + 1;
}

void number_walls(const View& view, const survey::Room& room, Labels& labels) {
    constexpr double radius = 7.5, apart = 16;  // points
    for (std::size_t i = 0; i < room.plan.size(); ++i) {
        const auto w = axes_of(room, i);
        const auto on = [&](double share) {
            return view(w.start + share * w.length * w.along - (wall_thickness / 2) * w.in);
        };
        At at = on(0.5);
        for (const double share : {0.5, 0.42, 0.58, 0.3, 0.7, 0.2, 0.8}) {
            const At tried = on(share);
            const auto near = [&](const Marked& m) {
                const At p = view(m.connection->at);
                return std::hypot(p.x - tried.x, p.y - tried.y) < apart;
            };
            if (std::ranges::any_of(marked(room), near)) continue;
            at = tried;
            break;
        }
        view.canvas().circle(at, radius, {.width = 0.5}, white);
        view.canvas().text({at.x, at.y - 4}, "W" + std::to_string(number_of_wall(room, i)),
                           {.size = 6.6, .bold = true, .anchor = Anchor::centre});
        labels.keep_off({at.x - radius, at.y - radius, 2 * radius, 2 * radius});
    }
}

void draw_obstacles(const View& view, const survey::Room& room, Labels& labels) {
    for (const auto& o : room.obstacles) {
        const At a = view(o.box.min), b = view(o.box.max);
        const std::vector<At> outline{a, {b.x, a.y}, b, {a.x, b.y}};
        view.canvas().hatch(outline, 5, {.width = 0.25, .colour = grey});
        view.canvas().polyline(outline, {.width = 0.7}, true);
        labels.put({(a.x + b.x) / 2, (a.y + b.y) / 2}, o.name, {.size = 7, .italic = true});
    }
}

std::vector<Marked> marked(const survey::Room& room) {
    std::vector<Marked> out;
    for (const auto& point : survey::points())
        if (const auto& connection = room.*point.place.value; connection.given)
            out.push_back({point.letter, point.title, &connection, point.service});
    return out;
}

void draw_connections(const View& view, const survey::Room& room, Labels& labels) {
    for (const auto& m : marked(room)) {
        const At at = view(m.connection->at);
        view.canvas().circle(at, 6.5, {.width = 1.1, .colour = ink(m.service)}, white);
        view.canvas().text({at.x, at.y - 4.5}, std::string(1, m.letter),
                           {.size = 7.5, .bold = true, .colour = ink(m.service), .anchor = Anchor::centre});
        labels.keep_off({at.x - 8, at.y - 8, 16, 16});
    }
}

}  // namespace bw::draw
