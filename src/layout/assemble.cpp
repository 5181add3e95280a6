// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "layout/job.h"
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

shape::Placement in_room(const Placed& placed, const shape::Placement& in_block) {
    const Vec at = in_block.origin + Vec{placed.u, placed.v, 0};
    return {(in_block.quarter_turns + placed.turns) & 3, shape::Placement{placed.turns, {}}(at)};
}

Box box_in_room(const Bank& bank, Vec low, Vec high) { return shape::box_of(bank.place(low), bank.place(high)); }

/// Plan distance from one end of a bank to the gas and water connections that are placed.
double travel_from(const Bank& bank, bool high_end, const survey::Room& room) {
    const Vec end = bank.place({high_end ? bank.length : 0, 0, 0});
    double sum = 0;
    for (const survey::Connection* c : {&room.gas, &room.cold, &room.hot})
        if (shape::length(c->facing) > 0) sum += std::abs(c->at.x - end.x) + std::abs(c->at.y - end.y);
    return sum;
}

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

void add_bank(Found& found, const Job& job, Bank bank, const Placed& placed, Feed feed) {
    bank.place = in_room(placed, bank.place);
    bank.wall = placed.wall;
    bank.number = static_cast<int>(found.layout.banks.size()) + 1;
    const bool in_line = static_cast<int>(placed.block.banks.size()) > placed.block.rows;
    if (!in_line) {
        const bool high_is_nearer = travel_from(bank, true, job.room()) < travel_from(bank, false, job.room());
        stand_heaters(bank, job.measures, static_cast<int>(bank.stands.size()),
                      high_is_nearer == (feed == Feed::nearest));
    }
    found.travel += travel_from(bank, bank.mirrored, job.room());
    const bool wall = placed.block.arrangement == Arrangement::wall;
    const double floor = wall ? bank.bottom - stations::condensate_below : 0;
    found.layout.envelopes.push_back(
        box_in_room(bank, {0, -bank.depth_back, floor}, {bank.length, bank.depth_front, job.measures.top()}));
    found.layout.floor_length += bank.length;
    found.layout.banks.push_back(std::move(bank));
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

std::string sentence(const plant::Layout& layout, const Job& job, units::System system) {
    std::string where;
    for (const Bank& bank : layout.banks) where += (where.empty() ? "" : "; ") + place_of(bank, job.room(), system);
    return fmt::format("{} heaters, {} high to the bottom: {}.", job.count, printed(job.measures.bottom, system),
                       where);
}

}  // namespace

Found assemble(const Job& job, std::string family, const std::vector<Placed>& placed, Feed feed) {
    Found found;
    found.family = std::move(family);
    found.layout.arrangement = placed.front().block.arrangement;
    std::vector<Box> taken;
    for (const Placed& p : placed) {
        for (const Bank& bank : p.block.banks) add_bank(found, job, bank, p, feed);
        const shape::Placement to_room{p.turns, {}};
        for (const Zone& zone : p.block.zones) {
            if (zone.use == Use::way) continue;
            const Vec at{p.u, p.v, 0};
            const Box box = shape::box_of(to_room(zone.box.min + at), to_room(zone.box.max + at));
            taken.push_back(box);
            if (zone.use == Use::work) found.layout.working_space.push_back(box);
        }
    }
    found.layout.floor_area = union_area(taken);
    number_heaters(found.layout);
    found.layout.says = sentence(found.layout, job, units::System::us);
    found.layout.says_si = sentence(found.layout, job, units::System::si);
    return found;
}

}  // namespace bw::layout
