// SPDX-License-Identifier: MIT
#include "piping/kit/rack_room.h"

#include <fmt/format.h>

namespace bw::piping {

std::vector<KeepOff> rack_rooms(const Builder& b, double above) {
    constexpr double posts = 5 * inch_m;
    std::vector<KeepOff> rooms;
    for (const auto& bank : b.layout.banks) {
        if (bank.wall >= 0 || bank.stands.empty()) continue;
        const double top = bank.bottom + b.heater.height.value() + above;
        const auto slab = [&](double from, double to) {
            rooms.push_back({shape::box_of(bank.place({0, from, 0}), bank.place({bank.length, to, top})),
                             fmt::format("the rack of bank {}", bank.number)});
        };
        if (bank.back_plane > 0) {
            slab(bank.back_plane - posts, bank.back_plane);
            slab(-bank.back_plane, posts - bank.back_plane);
        } else {
            slab(-bank.depth_back, 0);
        }
    }
    return rooms;
}

}  // namespace bw::piping
