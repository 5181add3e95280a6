// SPDX-License-Identifier: MIT
#pragma once
// Headers and branches of one bank, in the bank's own frame.

#include <array>
#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

/// Where one heater's branch of one service goes, bank frame, metres.
struct Branch {
    const plant::Stand* stand = nullptr;
    PortRef port;      ///< the heater's
    Vec at;            ///< the port's place
    double side = 1;   ///< +1 or -1: which way along v the heater stands
    double riser = 0;  ///< u of the riser
    double tee = 0;    ///< u of the header tee
    double out = 0;    ///< distance of arm and riser from v = 0, to the branch's side
    bool arm = false;  ///< goes along the header before it rises
};

/// What a heater's branch consists of, from the header to the flexible connector.
struct BranchSpec {
    Line header, line;             ///< `header.size` is its first length's, `line.size` the branch's
    std::vector<Nominal> lengths;  ///< size of each header length, from the feed end
    std::size_t joint_after = 1;   ///< branches on a length
    Part flexible{};
    double level = 0;                                             ///< w of the header
    double axis = 0;                                              ///< v of the header
    double toward = 1;                                            ///< its outlets look away from the wall, or -1: to it
    bool trap = false;                                            ///< gas: rises out of a sediment trap
    std::vector<std::pair<const Item*, std::string>> arm, riser;  ///< in line; the riser's last is bare at its far end
};

/// Least straight length of the arm: its fittings and what stands in it.
[[nodiscard]] double arm_length(const Builder& b, const BranchSpec& recipe);
/// Length of riser from the turn up to the flexible connector that its fittings need.
[[nodiscard]] double riser_length(const Builder& b, const BranchSpec& recipe);
/// Chooses tee stations, keeping tees of a header clear of one another and room for the joints between its lengths.
/// Stations rise away from the feed end.
void choose_stations(const Builder& b, const plant::Bank& bank, const BranchSpec& recipe,
                     std::vector<Branch>& branches);
/// Straight length a header wants between two tees besides the shortest pipe, where a joint stands before branch `i`.
[[nodiscard]] double joint_length(const Builder& b, const BranchSpec& recipe, std::size_t i);
/// Lays one branch from its header tee to the heater.
void lay_branch(Builder& b, const plant::Bank& bank, const BranchSpec& recipe, const Branch& branch, PortRef outlet);

}  // namespace bw::piping
