// SPDX-License-Identifier: MIT
#include <array>

#include "serve/view_parts.h"
#include "survey/points.h"

namespace bw::serve {
namespace {

void write_point(Writer& out, shape::Vec v) { out.open('[').place(v.x).place(v.y).place(v.z).close(']'); }

/// Of the ceiling over the plan's corners.
void write_heights(Writer& out, const survey::Room& room) {
    const auto ceiling = room.overhead();
    out.key("heights").open('[');
    for (const auto& corner : room.plan) out.place(ceiling.at(corner));
    out.close(']');
}

void write_connection(Writer& out, std::string_view name, const survey::Connection& c) {
    if (!c.given) return;
    out.open('{').key("name").text(name).key("at");
    write_point(out, c.at);
    out.key("facing");
    write_point(out, c.facing);
    if (c.size) out.key("size").text(units::print(*c.size));
    out.key("assumed").flag(c.assumed_place).close('}');
}

}  // namespace

std::string room_text(const survey::Room& room) {
    Writer out;
    out.open('{').key("plan").open('[');
    for (const auto& p : room.plan) out.open('[').place(p.x).place(p.y).close(']');
    out.close(']').key("ceiling").place(room.ceiling->value());
    if (room.slope) write_heights(out, room);
    out.key("walls").open('[');
    for (const auto& wall : room.walls)
        out.open('{')
            .key("number")
            .whole(wall.number)
            .key("build")
            .text(survey::name(*wall.build))
            .key("combustible")
            .flag(*wall.combustible)
            .key("outside")
            .flag(*wall.outside)
            .key("rated")
            .flag(*wall.rated)
            .close('}');
    out.close(']').key("doors").open('[');
    for (const auto& door : room.doors)
        out.open('{')
            .key("wall")
            .whole(door.wall)
            .key("offset")
            .place(door.offset.value())
            .key("width")
            .place(door.width.value())
            .key("height")
            .place(door.height.value())
            .key("swings-in")
            .flag(*door.swings_in)
            .key("hinge-far")
            .flag(*door.hinge_far)
            .close('}');
    out.close(']').key("obstacles").open('[');
    for (const auto& obstacle : room.obstacles) {
        const auto& [min, max] = obstacle.box;
        out.open('{').key("name").text(obstacle.name).key("box").open('[');
        for (const double at : {min.x, min.y, min.z, max.x, max.y, max.z}) out.place(at);
        out.close(']').close('}');
    }
    out.close(']').key("connections").open('[');
    for (const auto& point : survey::points()) write_connection(out, point.key, room.*point.place.value);
    return out.close(']').close('}').take();
}

}  // namespace bw::serve
