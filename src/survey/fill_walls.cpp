// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "survey/geometry.h"
#include "survey/room_parts.h"

namespace bw::survey {
namespace {

/// Whether a connection goes through this wall.
bool goes_through(const Room& room, const Connection& connection, std::size_t wall) {
    if (!connection.given || connection.facing.z != 0) return false;
    const auto near = nearest_wall(room.plan, {connection.at.x, connection.at.y});
    return near.wall == wall;
}

Fallback outside_of(const Room& room, std::size_t wall) {
    const bool vented = goes_through(room, room.exhaust, wall) || goes_through(room, room.intake, wall);
    return vented ? Fallback{"true", "exhaust or intake goes out through it", true}
                  : Fallback{"false", "neither exhaust nor intake goes out through it", true};
}

}  // namespace

void fill_walls(Survey& out) {
    auto& room = out.room;
    for (std::size_t i = 0; i < room.walls.size(); ++i) {
        auto& wall = room.walls[i];
        Table t("room.wall", {}, out.assumed, fmt::format("room.wall.{}", wall.number));
        if (wall.build.assumed) t.take_or_default("build", wall.build);
        if (wall.combustible.assumed) {
            const bool burns = wall.build.value == WallBuild::wood_stud;
            t.fall_back(
                "combustible", wall.combustible,
                burns ? Fallback{"true", "wood studs, or not known: the safe side", true}
                      : Fallback{"false", fmt::format("{}; its face was not looked at", name(wall.build.value)), true});
        }
        if (wall.outside.assumed) t.fall_back("outside", wall.outside, outside_of(room, i));
        if (wall.rated.assumed)
            t.fall_back("rated", wall.rated,
                        wall.outside.value ? Fallback{"false", "an outside wall", true}
                                           : Fallback{"true", "the safe side: holes are firestopped", true});
    }
}

}  // namespace bw::survey
