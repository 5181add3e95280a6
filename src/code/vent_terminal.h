// SPDX-License-Identifier: MIT
#pragma once
// Where a vent may end. Source: IFGC 2018 503.8 (NFPA 54 2018 12.9).

#include <vector>

#include "code/clause.h"

namespace bw::code {

/// One distance the surroundings of a terminal must keep.
struct TerminalDistance {
    std::string from;  ///< "door, operable window or gravity air inlet"
    Clause<Length> least;
};
/// Mechanical-draft terminal of appliances that take room air.
[[nodiscard]] std::vector<TerminalDistance> mechanical_draft_distances();
/// Direct-vent terminal, by input. Above 65 kBtu/h the appliance's own instructions decide and the list says so.
[[nodiscard]] std::vector<TerminalDistance> direct_vent_distances(Power input);
/// Through-wall category II and IV terminals keep off public walkways and places where wet vapour is a nuisance.
[[nodiscard]] Clause<bool> condensing_terminal_walkway();
/// Fire-rated penetrations are firestopped to the wall's rating; IBC 2018 714.
[[nodiscard]] Clause<bool> penetration_firestop();

}  // namespace bw::code
