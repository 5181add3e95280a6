// SPDX-License-Identifier: MIT
#include "draw/bank_view.h"

#include <algorithm>

#include "plant/stations.h"

namespace bw::draw {
namespace {

void add_heater_edges(BankView& view, const plant::Plant& plant, const plant::Bank& bank, int side) {
    for (const auto& stand : bank.stands) {
        const int at = plant.find("heater-" + std::to_string(stand.number));
        if (stand.side != side || at < 0) continue;
        const auto box = shape::bounds(plant.pieces[static_cast<std::size_t>(at)].solids.front());
        for (const auto& corner : {box.min, box.max}) view.stations.push_back(dot(corner, view.axes.right));
    }
}

}  // namespace

BankView front_view(const plant::Plant& plant, const plant::Bank& bank, int side) {
    const shape::Vec u = bank.place.turn({1, 0, 0}), v = bank.place.turn({0, 1, 0});
    // facing the front from outside: with v towards the reader, u runs to the left when (u, v, up) is right-handed
    BankView view{.axes = side == 0 ? Axes{-u, {0, 0, 1}, v} : Axes{u, {0, 0, 1}, -v}};
    const double a = dot(bank.place({0, 0, 0}), view.axes.right),
                 b = dot(bank.place({bank.length, 0, 0}), view.axes.right);
    view.low = std::min(a, b) - 0.3, view.high = std::max(a, b) + 0.3;
    const double middle = dot(bank.place({0, 0, 0}), view.axes.towards);
    view.near_low = middle - (side == 1 || bank.depth_back > 0 ? 0.12 : 0.3);
    view.near_high = middle + bank.depth_front + 0.45;
    add_heater_edges(view, plant, bank, side);
    view.stations.insert(view.stations.end(), {std::min(a, b), std::max(a, b)});
    return view;
}

BankView end_view(const plant::Bank& bank) {
    const shape::Vec u = bank.place.turn({1, 0, 0}), v = bank.place.turn({0, 1, 0});
    BankView view{.axes = bank.mirrored ? Axes{-v, {0, 0, 1}, u} : Axes{v, {0, 0, 1}, -u}};
    const double middle = dot(bank.place({0, 0, 0}), view.axes.right), sign = bank.mirrored ? -1 : 1;
    const double front = middle + sign * (bank.depth_front + 0.75), back = middle - sign * (bank.depth_back + 0.35);
    view.low = std::min(front, back), view.high = std::max(front, back);
    const double a = dot(bank.place({0, 0, 0}), view.axes.towards),
                 b = dot(bank.place({bank.length, 0, 0}), view.axes.towards);
    view.near_low = std::min(a, b), view.near_high = std::max(a, b);
    view.stations = {middle, middle + sign * bank.depth_front, middle - sign * bank.depth_back};
    if (bank.back_plane > 0)
        view.stations.insert(view.stations.end(), {middle + sign * bank.back_plane, middle - sign * bank.back_plane});
    return view;
}

bool shows(const BankView& view, const plant::Piece& piece) {
    if (piece.part == text::Part::connection || piece.solids.empty()) return false;
    const auto box = shape::bounds(piece.solids);
    const auto middle = 0.5 * (box.min + box.max);
    const double r = dot(middle, view.axes.right), n = dot(middle, view.axes.towards);
    return r >= view.low && r <= view.high && n >= view.near_low && n <= view.near_high;
}

std::vector<double> bank_heights(const Desk& desk, const plant::Bank& bank) {
    namespace st = plant::stations;
    const auto* heater = desk.catalogue.heater(desk.result.capacity.heater);
    const double top = bank.bottom + (heater ? heater->height.value() : 0);
    return {0,
            bank.bottom - st::gas_below,
            bank.bottom - st::cold_below,
            bank.bottom - st::hot_below,
            bank.bottom,
            top,
            desk.result.survey.room.ceiling->value()};
}

}  // namespace bw::draw
