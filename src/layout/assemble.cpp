// SPDX-License-Identifier: MIT
// A sketch written out as a layout.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "layout/headroom.h"
#include "layout/sketch.h"
#include "units/amount.h"

namespace bw::layout {
namespace {

namespace stations = plant::stations;
using plant::Arrangement;
using plant::Bank;
using shape::Box;
using shape::Vec;

std::string printed(double metres, units::System system) {
    return units::print(units::amount(metres * units::metre), system);
}

Box box_in_room(const Bank& bank, Vec low, Vec high) { return shape::box_of(bank.place(low), bank.place(high)); }

double union_area(const std::vector<Box>& boxes) {
    std::vector<double> xs;
    for (const Box& b : boxes) xs.insert(xs.end(), {b.min.x, b.max.x});
    std::sort(xs.begin(), xs.end());
    double area = 0;
    for (std::size_t i = 0; i + 1 < xs.size(); ++i) {
        std::vector<std::pair<double, double>> spans;
        for (const Box& b : boxes)
            if (b.min.x <= xs[i] && b.max.x >= xs[i + 1]) spans.emplace_back(b.min.y, b.max.y);
        std::sort(spans.begin(), spans.end());
        double covered = 0, reached = -1e9;
        for (const auto& [low, high] : spans) {
            covered += std::max(0.0, high - std::max(low, reached));
            reached = std::max(reached, high);
        }
        area += covered * (xs[i + 1] - xs[i]);
    }
    return area;
}

void add_bank(plant::Layout& layout, const Job& job, Bank bank, const Placed& placed, unsigned far_fed) {
    const std::size_t at = layout.banks.size();
    if (!placed.block->in_line())
        stand_heaters(bank, job.measures, static_cast<int>(bank.stands.size()),
                      feeds_high(job, placed, bank, (far_fed >> at) & 1U));
    bank.place = in_room(placed, bank.place);
    bank.wall = placed.wall;
    bank.number = static_cast<int>(at) + 1;
    const bool wall = placed.block->arrangement == Arrangement::wall;
    const double floor = wall ? bank.bottom - bank.section.lowest() : 0;
    layout.envelopes.push_back(box_in_room(bank, {0, -bank.depth_back, floor},
                                           {bank.length, bank.depth_front, bank.bottom + placed.block->above}));
    layout.floor_length += bank.length;
    layout.banks.push_back(std::move(bank));
}

/// Level space before the heaters themselves, on each side that has some: at least as wide as the code asks.
void add_working_space(plant::Layout& layout, const Job& job, const Bank& bank) {
    for (int side = 0; side < 2; ++side) {
        double low = bank.length, high = 0;
        for (const plant::Stand& stand : bank.stands)
            if (stand.side == side) low = std::min(low, stand.u), high = std::max(high, stand.u + job.measures.width);
        if (high <= low) continue;
        const double lacks = std::max(0.0, stations::work_width - (high - low));
        const double before = std::min(low, bank.mirrored ? 0.0 : lacks);
        low -= before, high += lacks - before;
        const double face = bank.depth_front, out = face + job.measures.front, toward = side == 0 ? 1 : -1;
        layout.working_space.push_back(
            box_in_room(bank, {low, toward * face, 0}, {high, toward * out, stations::work_height}));
    }
}

/// Numbers run along side 0 of a bank and back along side 1, bank after bank.
void number_heaters(plant::Layout& layout) {
    int number = 0;
    for (Bank& bank : layout.banks) {
        for (plant::Stand& stand : bank.stands)
            if (stand.side == 0) stand.number = ++number;
        for (auto stand = bank.stands.rbegin(); stand != bank.stands.rend(); ++stand)
            if (stand->side == 1) stand->number = ++number;
    }
}

std::string place_of(const Bank& bank, const survey::Room& room, units::System system) {
    const auto told = [&](double metres) { return printed(metres, system); };
    const std::string fed = bank.mirrored ? "fed from its far end" : "fed from its near end";
    if (bank.wall >= 0) {
        const shape::Point start = room.plan[bank.wall];
        const double from = std::abs(bank.place.origin.x - start.x) + std::abs(bank.place.origin.y - start.y);
        return fmt::format("{} on wall {} from {} to {} along it, {}", bank.stands.size(), bank.wall + 1, told(from),
                           told(from + bank.length), fed);
    }
    const Vec a = bank.place({0, 0, 0}), b = bank.place({bank.length, 0, 0});
    return fmt::format("{} on a rack from ({}, {}) to ({}, {}), {}", bank.stands.size(), told(a.x), told(a.y),
                       told(b.x), told(b.y), fed);
}

/// Of the heaters' bottoms, each once.
std::string heights(const plant::Layout& layout, units::System system) {
    std::vector<double> seen;
    std::string out;
    for (const Bank& bank : layout.banks) {
        if (std::ranges::any_of(seen, [&](double s) { return std::abs(s - bank.bottom) < grid / 2; })) continue;
        seen.push_back(bank.bottom);
        out += (out.empty() ? "" : " and ") + printed(bank.bottom, system);
    }
    return out;
}

/// Ways the headers run, each once.
std::string sections(const plant::Layout& layout) {
    std::vector<std::string_view> seen;
    std::string out;
    for (const Bank& bank : layout.banks) {
        if (std::ranges::find(seen, bank.section.name) != seen.end()) continue;
        seen.push_back(bank.section.name);
        out += (out.empty() ? "" : " and ") + std::string(bank.section.name);
    }
    return out;
}

std::string sentence(const plant::Layout& layout, const Job& job, units::System system) {
    std::string where;
    for (const Bank& bank : layout.banks) where += (where.empty() ? "" : "; ") + place_of(bank, job.room(), system);
    return fmt::format("{} heaters, {} high to the bottom, headers {}: {}.", job.count, heights(layout, system),
                       sections(layout), where);
}

}  // namespace

double floor_area(const Sketch& sketch) {
    std::vector<Box> taken;
    for (const Placed& p : sketch.placed)
        for (const Zone& zone : p.block->zones)
            if (zone.use != Use::way) taken.push_back(box_in_room(p, zone));
    return union_area(taken);
}

plant::Layout written_out(const Job& job, const Sketch& sketch) {
    plant::Layout layout;
    layout.id = print(place_of(job, sketch));
    layout.family = sketch.family;
    layout.arrangement = sketch.placed.front().block->arrangement;
    layout.run = sketch.run;
    for (const Placed& p : sketch.placed)
        for (const Bank& bank : p.block->banks) add_bank(layout, job, bank, p, sketch.far_fed);
    for (const Bank& bank : layout.banks) add_working_space(layout, job, bank);
    layout.panel_space = panel_space(job.room(), bodies_of(sketch.placed)).box;
    layout.floor_area = floor_area(sketch);
    number_heaters(layout);
    layout.says = sentence(layout, job, units::System::us);
    layout.says_si = sentence(layout, job, units::System::si);
    return layout;
}

}  // namespace bw::layout
