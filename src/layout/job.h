// SPDX-License-Identifier: MIT
#pragma once
// What every search for candidates works on, and what it finds.

#include <array>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "layout/block.h"
#include "layout/place.h"
#include "layout/scene.h"
#include "layout/slide.h"

namespace bw::layout {

struct Job {
    const survey::Survey& survey;
    Measures measures;
    int count = 0;
    std::vector<std::vector<Share>> shares;  ///< ways to share the heaters out to banks, fewest banks first
    std::array<View, 4> views;               ///< by quarter turns
    std::deque<Block> blocks;                ///< that sketches stand by
    std::optional<Place> place;              ///< the only one wanted
    bool panel_has_space = true;             ///< in the empty room
    double single_vents = 0;                 ///< room single vents would take above the heaters, metres

    [[nodiscard]] const survey::Room& room() const { return survey.room; }
    [[nodiscard]] const std::vector<Share>& fewest() const { return shares.front(); }
};
[[nodiscard]] Job make_job(const survey::Survey& survey, const catalogue::Heater& heater, int count,
                           std::optional<Place> place, const catalogue::Catalogue* parts);

/// How far off a wall's face heaters hang: on strut across the studs of one that burns or is light.
[[nodiscard]] double stand_off(const survey::Wall& wall);
/// The block at the lowest height, as shortfalls are reckoned by.
[[nodiscard]] Block lowest_block(const Job& job, plant::Arrangement arrangement, int rows = 1,
                                 WayRound way_round = WayRound::none, double stand_off = 0,
                                 const plant::stations::Rack& rack = plant::stations::free_standing);

/// A block put down in the room.
struct Placed {
    const Block* block = nullptr;
    int turns = 0;                       ///< of the block's frame
    double u = 0, v = 0;                 ///< of the block's low end and reference line, in the view of these turns
    int wall = -1;                       ///< it hangs on, or -1
    double free_low = 1, free_high = 1;  ///< metres free beyond its ends, where that is looked at
};

/// A bank's place in the room from its place in its block.
[[nodiscard]] shape::Placement in_room(const Placed& placed, const shape::Placement& in_block);

[[nodiscard]] shape::Box box_in_room(const Placed& placed, const Zone& zone);

/// What stands and hangs of placed blocks, in the room.
[[nodiscard]] std::vector<shape::Box> bodies_of(const std::vector<Placed>& placed);

/// Whether a bank that is alone in its row is fed from its high end: the nearer to the connections, or the farther.
[[nodiscard]] bool feeds_high(const Job& job, const Placed& placed, const plant::Bank& bank, bool far_fed);

/// Adds the placed block's space to every view, so that later blocks keep off it; `remove_from_views` takes it away.
void add_to_views(Job& job, const Placed& placed);
void remove_from_views(Job& job, const Placed& placed);

/// A few distinct places for a block to stop at on free stretches, on the grid: both ends and the middle of each, and
/// where either of its ends stands abreast of a point of connection. Only `wanted` where that is given and free.
[[nodiscard]] std::vector<double> stops(const Job& job, const View& view, const Block& block,
                                        const std::vector<Stretch>& stretches, std::optional<double> wanted);

/// A way to stand the banks in the room, weighed before it is written out as a layout.
struct Sketch {
    std::string family;  ///< sketches that differ only in position share one: "wall-2"
    std::vector<Placed> placed;
    unsigned far_fed = 0;  ///< bit b: bank b, alone in its row, is fed from the end farther from the connections
    double run = 0;        ///< metres of mains and vents to the points of connection, in plan
    double travel = 0;  ///< of these from each bank's feed to the gas and water connections: mains in one another's way
};

inline constexpr std::size_t most_of_a_family = 12;  ///< sketches worth remembering

/// The sketches weighed, of each family those of the shortest run.
class Sketches {
public:
    /// Weighs every choice of feed ends for blocks put down. Banks in line are fed from the middle of their row.
    void weigh(const Job& job, const std::string& family, const std::vector<Placed>& placed);

    [[nodiscard]] int weighed() const { return weighed_; }
    [[nodiscard]] const std::map<std::string, std::vector<Sketch>>& families() const { return families_; }

private:
    int weighed_ = 0;
    std::map<std::string, std::vector<Sketch>> families_;  ///< each by rising run
};

/// Every wall and every combination of walls that carries all banks.
void on_walls(Job& job, const std::vector<Share>& shares, Sketches& found);
/// On two walls, or where nothing else fits on up to four: each carries as even a share as its room allows, where the
/// shares are not even anyway.
void on_walls_unevenly(Job& job, Sketches& found);
/// Racks of one kind, against walls or in the room.
void on_racks(Job& job, plant::Arrangement arrangement, const std::vector<Share>& shares, Sketches& found);

/// Reference lines at which a block could stand in a view so that one of its sides touches something, the room's
/// middle first.
[[nodiscard]] std::vector<double> lines_across(const View& view, const Block& block);
/// The smallest box around the room's plan in a view.
[[nodiscard]] shape::Box hull(const View& view);

/// The ways a rack may be made up of rows, and the ways round its ends.
struct RackShape {
    int rows = 1;
    WayRound way_round = WayRound::none;
    plant::stations::Rack rack = plant::stations::free_standing;
};
[[nodiscard]] std::vector<RackShape> rack_shapes(plant::Arrangement arrangement, std::size_t banks);

}  // namespace bw::layout
