// SPDX-License-Identifier: MIT
#pragma once
// Banks that stand together: one, several in line, or rows with an aisle between; and the space they take.

#include <vector>

#include "layout/measures.h"

namespace bw::layout {

/// A share of the heaters that makes one bank.
struct Share {
    int heaters = 0;
    int assembly = 1;
};
/// Evenly into assemblies of at most `most_in_assembly`, these evenly into banks of at most `most_in_line`.
[[nodiscard]] std::vector<Share> shares(int count, int most_in_line, int most_in_assembly);
/// The heaters shared out evenly to as few banks as may be, and to more, up to four: several short walls may carry what
/// no long one does.
[[nodiscard]] std::vector<std::vector<Share>> ways_to_share(int count, int most_in_line, int most_in_assembly);

/// What a part of a block's space is for: `heaters` with their clearance, `body` of headers, vents and frames, working
/// space, or a way round.
enum class Use { heaters, body, work, way };
[[nodiscard]] inline bool solid(Use use) { return use == Use::heaters || use == Use::body; }

/// A part of a block's space, in the block's frame: u from its low end, v from its reference line, w from the floor.
struct Zone {
    shape::Box box;
    Use use = Use::body;
    double least_ceiling = 0;  ///< over all of it, above the floor: heaters with their vents, a person upright
};

/// Where one can walk round a block that has work on more sides than one.
enum class WayRound { none, low_end, high_end };

struct Block {
    plant::Arrangement arrangement{};
    std::vector<plant::Bank> banks;  ///< placed in the block's frame, by half turns; heaters not yet numbered
    std::vector<Zone> zones;
    double length = 0;  ///< along u, banks and gaps
    int rows = 1;
    double above = 0;  ///< heaters and what vents take over them, from the heaters' bottom

    /// Banks stand in line, fed from the middle of their row.
    [[nodiscard]] bool in_line() const { return static_cast<int>(banks.size()) > rows; }
};

/// `rows` rows of banks, each row's banks in line. Rows of one-sided racks face each other across an aisle, then stand
/// back to back; a pair on one frame stands back to back alone; on a wall there is one row, `stand_off` from the wall's
/// face. Banks in line are fed from the middle of their row. All hang at one height.
struct BlockSpec {
    plant::Arrangement arrangement{};
    std::vector<Share> shares;
    Hang hang;
    int rows = 1;
    WayRound way_round = WayRound::none;
    double stand_off = 0;
    double more_between = 0;  ///< metres, between banks in line, besides what they need
    plant::stations::Rack rack = plant::stations::free_standing;  ///< of one-sided racks
};
[[nodiscard]] Block make_block(const Measures& measures, const BlockSpec& spec);

/// The block as a room sees it that is about to get `along` more at its far end and `across` more in front: without
/// what would stand there. How shortfalls are found.
[[nodiscard]] Block shrunk(Block block, double along, double across);

/// Stands a bank's heaters, not yet numbered, from its feed end on: at u = 0, or at u = length when mirrored.
void stand_heaters(plant::Bank& bank, const Measures& measures, int heaters, bool mirrored);

}  // namespace bw::layout
