// SPDX-License-Identifier: MIT
#include "proof/space/heater_stands.h"

namespace bw::proof {

std::vector<HeaterStand> heater_stands(const View& view) {
    std::vector<HeaterStand> found;
    for (const auto& bank : view.layout.banks)
        for (const auto& stand : bank.stands) {
            const int piece = view.heater_piece(stand.number);
            if (piece < 0 || view.piece(piece).solids.empty()) continue;
            const auto v = bank.place.turn({0, 1, 0});
            found.push_back({stand.number, piece, shape::bounds(view.piece(piece).solids.front()),
                             stand.side == 0 ? v : -v, bank.wall});
        }
    return found;
}

}  // namespace bw::proof
