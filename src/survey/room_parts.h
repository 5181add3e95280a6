// SPDX-License-Identifier: MIT
#pragma once
// What the room's readers share.

#include "survey/section.h"
#include "survey/survey.h"

namespace bw::survey {

/// The plan as read: counter-clockwise, and how the file's wall numbers fall on it.
struct Plan {
    shape::Polygon corners;
    bool turned = false;  ///< the file's plan goes clockwise
    /// Index of the wall the file numbers `number`, from 1.
    [[nodiscard]] std::size_t wall(int number) const;
    [[nodiscard]] int number(std::size_t wall) const;
};

[[nodiscard]] Result<Plan> read_plan(const text::Node& node);

/// What the file says of its walls; defaults follow once it is known what goes through them.
[[nodiscard]] Result<void> read_walls(Table& room_table, const Plan& plan, Survey& out);
[[nodiscard]] Result<void> read_doors(Table& room_table, const Plan& plan, Survey& out);
[[nodiscard]] Result<void> read_obstacles(Table& room_table, Survey& out);
void fill_walls(Survey& out);

/// Connections the file gives, judged against the room.
[[nodiscard]] Result<void> read_connections(const std::optional<text::Node>& node, Survey& out);
/// Sensible places for what the plant needs and the file does not give.
void place_missing(Survey& out);

}  // namespace bw::survey
