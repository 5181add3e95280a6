// SPDX-License-Identifier: MIT
// The heaters on their stands.

#include <fmt/format.h>

#include "piping/kit/builder.h"

namespace bw::piping {

void add_heaters(Builder& b) {
    const auto& model = b.heater;
    for (const auto& bank : b.layout.banks) {
        for (const auto& stand : bank.stands) {
            Piece piece;
            piece.id = fmt::format("heater-{}", stand.number);
            piece.part = Part::heater;
            piece.service = Service::structure;
            piece.item = model.key;
            piece.heater = stand.number;
            piece.bank = bank.number;
            piece.mass_dry = model.mass.value();
            piece.water = model.water.value();
            for (const auto& port : model.ports)
                piece.ports.push_back({port.name, heater_point(bank, stand, model, port.at),
                                       heater_direction(bank, stand, port.facing), port.size, port.service});
            const Vec far{model.width.value(), model.depth.value(), model.height.value()};
            piece.solids = {
                shape::box_of(heater_point(bank, stand, model, {0, 0, 0}), heater_point(bank, stand, model, far))};
            b.add(std::move(piece));
        }
    }
}

}  // namespace bw::piping
