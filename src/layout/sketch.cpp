// SPDX-License-Identifier: MIT
#include "layout/sketch.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace bw::layout {
namespace {

using plant::Bank;
using shape::Vec;

struct Ends {
    Vec low, high;
    bool fixed = false;  ///< in line: fed from the middle of its row
    bool mirrored = false;
    double free_low = 0, free_high = 0;  ///< metres beyond either end
    double easy = 0;                     ///< metres the mains like there: rows are fed side by side

    [[nodiscard]] bool tight() const { return !fixed && (mirrored ? free_high : free_low) < easy - grid; }
    [[nodiscard]] Vec feed() const { return mirrored ? high : low; }
    [[nodiscard]] Vec middle() const { return 0.5 * (low + high); }
};

double plan_distance(Vec a, Vec b) { return std::abs(a.x - b.x) + std::abs(a.y - b.y); }

bool placed_somewhere(const survey::Connection& c) { return shape::length(c.facing) > 0; }

/// Plan distance from one end of a bank to the gas and water connections that are placed.
double travel_from(Vec end, const survey::Room& room) {
    double sum = 0;
    for (const survey::Connection* c : {&room.gas, &room.cold, &room.hot})
        if (placed_somewhere(*c)) sum += plan_distance(c->at, end);
    return sum;
}

std::vector<Ends> ends_of(const Job& job, const std::vector<Placed>& placed) {
    std::vector<Ends> out;
    for (const Placed& p : placed)
        for (const Bank& bank : p.block->banks) {
            const auto place = in_room(p, bank.place);
            Ends e{place({0, 0, 0}),
                   place({bank.length, 0, 0}),
                   p.block->in_line(),
                   bank.mirrored,
                   p.free_low,
                   p.free_high,
                   std::min(p.block->rows, 2) * plant::stations::feed_easy};
            if (!e.fixed) e.mirrored = feeds_high(job, p, bank, false);
            out.push_back(e);
        }
    return out;
}

/// A main reaches the nearest bank and goes on from bank to bank.
double main_run(const std::vector<Ends>& banks, const survey::Connection& c) {
    double nearest = std::numeric_limits<double>::infinity(), between = 0;
    for (std::size_t i = 0; i < banks.size(); ++i) {
        nearest = std::min(nearest, plan_distance(c.at, banks[i].feed()));
        if (i > 0) between += plan_distance(banks[i].feed(), banks[i - 1].feed());
    }
    return nearest + between;
}

double run_of(const std::vector<Ends>& banks, const survey::Room& room) {
    double sum = 0;
    for (const survey::Connection* c : {&room.gas, &room.cold, &room.hot, &room.recirculation, &room.drain})
        if (placed_somewhere(*c)) sum += main_run(banks, *c);
    for (const survey::Connection* c : {&room.exhaust, &room.intake})
        for (const Ends& bank : banks)
            if (placed_somewhere(*c)) sum += plan_distance(c->at, bank.middle());
    constexpr double detour = 3 / plant::stations::feed_easy;  // metres that turns in a narrow feed end are worth
    for (const Ends& bank : banks) sum += bank.tight() ? detour * bank.easy : 0;
    return sum;
}

}  // namespace

shape::Placement in_room(const Placed& placed, const shape::Placement& in_block) {
    const Vec at = in_block.origin + Vec{placed.u, placed.v, 0};
    return {(in_block.quarter_turns + placed.turns) & 3, shape::Placement{placed.turns, {}}(at)};
}

shape::Box box_in_room(const Placed& placed, const Zone& zone) {
    const Vec at{placed.u, placed.v, 0};
    const shape::Placement to_room{placed.turns, {}};
    return shape::box_of(to_room(zone.box.min + at), to_room(zone.box.max + at));
}

std::vector<shape::Box> bodies_of(const std::vector<Placed>& placed) {
    std::vector<shape::Box> out;
    for (const Placed& p : placed)
        for (const Zone& zone : p.block->zones)
            if (solid(zone.use)) out.push_back(box_in_room(p, zone));
    return out;
}

bool feeds_high(const Job& job, const Placed& placed, const Bank& bank, bool far_fed) {
    const auto place = in_room(placed, bank.place);
    const bool high_is_nearer =
        travel_from(place({bank.length, 0, 0}), job.room()) < travel_from(place({0, 0, 0}), job.room());
    return high_is_nearer != far_fed;
}

void Sketches::weigh(const Job& job, const std::string& family, const std::vector<Placed>& placed) {
    const auto& place = job.place;
    if (place && place->family != family) return;
    if (job.panel_has_space && !panel_space(job.room(), bodies_of(placed)).is_free) return;
    const std::vector<Ends> banks = ends_of(job, placed);
    std::vector<Sketch>& kept = families_[family];
    for (unsigned far_fed = 0; (far_fed >> banks.size()) == 0; ++far_fed) {
        auto fed = banks;
        bool sense = true;
        for (std::size_t i = 0; i < fed.size(); ++i)
            if ((far_fed >> i) & 1U) {
                sense = sense && !fed[i].fixed;
                fed[i].mirrored = !fed[i].mirrored;
            }
        if (!sense || (place && place->exact() && place->far_fed != far_fed)) continue;
        ++weighed_;
        const double run = std::round(run_of(fed, job.room()) * 1e6) / 1e6;
        if (kept.size() == most_of_a_family) {
            if (run >= kept.back().run) continue;
            kept.pop_back();
        }
        double travel = 0;
        for (const Ends& bank : fed) travel += travel_from(bank.feed(), job.room());
        kept.insert(std::ranges::upper_bound(kept, run, {}, &Sketch::run), {family, placed, far_fed, run, travel});
    }
}

Place place_of(const Job& job, const Sketch& sketch) {
    Place place{sketch.family, {}, sketch.far_fed};
    for (const Placed& p : sketch.placed) {
        if (p.wall >= 0) {
            place.at.push_back(p.u - job.views[p.turns].plan[p.wall].x);
        } else {
            const Vec corner = in_room(p, {}).origin - hull(job.views[0]).min;
            place.at.insert(place.at.end(), {corner.x, corner.y});
        }
    }
    return place;
}

}  // namespace bw::layout
