// SPDX-License-Identifier: MIT
#include "plant/layout.h"

#include <cassert>
#include <cstdlib>

namespace bw::plant {

std::string_view name(Arrangement arrangement) {
    switch (arrangement) {
        case Arrangement::wall: return "wall";
        case Arrangement::rack_one_sided: return "rack-one-sided";
        case Arrangement::rack_two_sided: return "rack-two-sided";
    }
    assert(false && "an arrangement without a name");
    std::abort();
}

shape::Placement heater_place(const Bank& bank, const Stand& stand, double heater_width) {
    if (stand.side == 0) return {bank.place.quarter_turns, bank.place({stand.u, bank.back_plane, bank.bottom})};
    const shape::Vec corner{stand.u + heater_width, -bank.back_plane, bank.bottom};
    return {(bank.place.quarter_turns + 2) & 3, bank.place(corner)};
}

}  // namespace bw::plant
