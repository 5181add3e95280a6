// SPDX-License-Identifier: MIT
#include "draw/bank_view.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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

std::vector<CeilingLine> ceiling_lines(const survey::Room& room, const BankView& view) {
    const auto ceiling = room.overhead();
    const auto hull = shape::bounds(room.plan);
    const auto& [right, up, towards] = view.axes;
    if (ceiling.level()) return {{view.low, ceiling.origin, view.high, ceiling.origin}};
    const auto within = [&](double at, shape::Vec way) {
        const double a = dot(hull.min, way), b = dot(hull.max, way);
        return std::clamp(at, std::min(a, b), std::max(a, b));
    };
    const double from = within(view.low, right), to = within(view.high, right);
    std::vector<CeilingLine> lines;
    for (const double near : {view.near_low, view.near_high}) {
        const shape::Vec depth = within(near, towards) * towards;
        const CeilingLine line{from, ceiling.at(from * right + depth), to, ceiling.at(to * right + depth)};
        if (lines.empty() || std::abs(line.left - lines.back().left) > 1e-6) lines.push_back(line);
    }
    return lines;
}

double top_of(const std::vector<CeilingLine>& lines) {
    double top = 0;
    for (const auto& line : lines) top = std::max({top, line.left, line.right});
    return top;
}

std::string ceiling_note(const std::vector<CeilingLine>& lines, units::System system) {
    const auto told = [&](double metres) { return units::print(units::amount(metres * units::metre), system); };
    const auto& back = lines.front();
    const bool slants = std::abs(back.left - back.right) > 1e-6;
    if (lines.size() == 1)
        return slants ? fmt::format("The ceiling is {} high at the left of the view, {} at its right.", told(back.left),
                                    told(back.right))
                      : "";
    return fmt::format("The ceiling is {} high at the back of the view, {} at its front{}.", told(back.left),
                       told(lines.back().left), slants ? ", both at its left" : "");
}

std::vector<double> bank_heights(const SheetContext& context, const plant::Bank& bank,
                                 const std::vector<CeilingLine>& ceiling) {
    const auto* heater = context.catalogue.heater(context.result.capacity.heater);
    const double top = bank.bottom + (heater ? heater->height.value() : 0);
    std::vector<double> heights{0,
                                bank.bottom - bank.section.gas.below,
                                bank.bottom - bank.section.cold.below,
                                bank.bottom - bank.section.hot.below,
                                bank.bottom,
                                top};
    for (const auto& line : ceiling) heights.push_back(line.left);
    return heights;
}

}  // namespace bw::draw
