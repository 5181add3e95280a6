// SPDX-License-Identifier: MIT
#pragma once
// The room in plan: walls, doors, obstacles, points of connection.

#include "draw/labels.h"
#include "survey/survey.h"

namespace bw::draw {

void draw_walls(const View& view, const survey::Room& room);
void draw_obstacles(const View& view, const survey::Room& room, Labels& labels);
void draw_connections(const View& view, const survey::Room& room, Labels& labels);

/// A door as it lies in plan: its jambs, the way through the wall, its hinge, and its leaf's end open and shut.
struct DoorInPlan {
    shape::Vec near, far, out, hinge, open, shut;
};
[[nodiscard]] DoorInPlan door_in_plan(const survey::Room& room, const survey::Door& door);

/// Each wall's number in a circle on its foot, moved along the wall from where a point of connection is.
void number_walls(const View& view, const survey::Room& room, Labels& labels);
[[nodiscard]] int number_of_wall(const survey::Room& room, std::size_t wall);

/// Points of connection by letter, in the order they are listed.
struct Marked {
    char letter;
    std::string_view name;
    const survey::Connection* connection;
    text::Service service;
};
[[nodiscard]] std::vector<Marked> marked(const survey::Room& room);

}  // namespace bw::draw
