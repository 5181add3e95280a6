// SPDX-License-Identifier: MIT
#pragma once
// Room that pieces want about them beyond their own bodies. Called by `check_clash`; each adds one check, or none where
// the plant has nothing of the kind.

#include "proof/base/new_check.h"
#include "proof/view.h"

namespace bw::proof {

/// Insulation of hot, return and cold pipe round its own thickness, clear of other bodies. Short: `refer`.
void check_insulation_room(const View& view, Checks& checks);
/// Cables off insulated hot pipe and off vents. Nearer than they should: `refer`, since cables give way on site.
void check_cables_off_heat(const View& view, Checks& checks);
/// What is turned, opened or cleaned can be reached by a hand from one side at least. No finger's room: `fail`; less
/// than a hand's: `refer`.
void check_hand_room(const View& view, Checks& checks);
/// Hot pipe and vents off combustible walls.
void check_combustible(const View& view, Checks& checks);

}  // namespace bw::proof
