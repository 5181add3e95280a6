// SPDX-License-Identifier: MIT
#pragma once
// What every search for candidates works on, and what it finds.

#include <array>
#include <string>
#include <vector>

#include "layout/block.h"
#include "layout/scene.h"
#include "layout/slide.h"

namespace bw::layout {

struct Job {
    const survey::Survey& survey;
    Measures measures;
    int count = 0;
    std::vector<Share> shares;
    std::array<View, 4> views;  ///< by quarter turns

    [[nodiscard]] const survey::Room& room() const { return survey.room; }
};
[[nodiscard]] Job make_job(const survey::Survey& survey, const catalogue::Heater& heater, int count);

/// A block put down in the room.
struct Placed {
    Block block;
    int turns = 0;        ///< of the block's frame
    double u = 0, v = 0;  ///< of the block's low end and reference line, in the view of these turns
    int wall = -1;        ///< it hangs on, or -1
};

/// Adds the placed block's space to every view, so that later blocks keep off it; `remove_last` takes it away again.
void add_to_views(Job& job, const Placed& placed);
void remove_from_views(Job& job, const Placed& placed);

/// A few distinct places to stop at on free stretches, on the grid: both ends and the middle of each.
[[nodiscard]] std::vector<double> stops(const std::vector<Stretch>& stretches);

struct Found {
    std::string family;    ///< candidates that differ only in position share one: "wall-2"
    plant::Layout layout;  ///< without id
    double travel = 0;     ///< metres from feed ends to the points of connection, for ranking
};

enum class Feed { nearest, farthest };
/// The layout of placed blocks: heaters numbered, spaces and floor taken found. A bank alone in its row is fed from the
/// end nearest to (or farthest from) the points of connection.
[[nodiscard]] Found assemble(const Job& job, std::string family, const std::vector<Placed>& placed, Feed feed);

/// Every wall and every combination of walls that carries all banks.
[[nodiscard]] std::vector<Found> on_walls(Job& job);
/// Racks of one kind, against walls or in the room.
[[nodiscard]] std::vector<Found> on_racks(Job& job, plant::Arrangement arrangement);

/// Reference lines at which a block could stand in a view so that one of its sides touches something, the room's
/// middle first.
[[nodiscard]] std::vector<double> lines_across(const View& view, const Block& block);
/// The smallest box around the room's plan in a view.
[[nodiscard]] shape::Box hull(const View& view);

/// The ways a rack may be made up of rows, and the ways round its ends.
struct RackShape {
    int rows = 1;
    WayRound way_round = WayRound::none;
};
[[nodiscard]] std::vector<RackShape> rack_shapes(plant::Arrangement arrangement, std::size_t banks);

}  // namespace bw::layout
