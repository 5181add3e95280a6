// SPDX-License-Identifier: MIT
// The path search beside an exhaustive one: over the same crossings, at the same prices, every leg from every crossing
// is tried again and again until no way anywhere becomes cheaper.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <deque>
#include <random>

#include "route/planes.h"

namespace bw::piping {
namespace {

using namespace route;  // NOLINT

using shape::Vec;

constexpr double inch = 0.0254, tolerance = 1e-6, off_level = 1.35;

struct Room {
    ClearanceMap space;
    RouteRequest ask;
};

Room random_room(std::mt19937& rng) {
    const auto at = [&rng](int low, int high) {  // on a grid of four inches
        return 4 * inch * std::uniform_int_distribution<int>(low / 4, high / 4)(rng);
    };
    Room room{ClearanceMap({{0, 0}, {200 * inch, 0}, {200 * inch, 140 * inch}, {0, 140 * inch}}, {100 * inch}), {}};
    for (int k = 0; k < 4; ++k) {
        const Vec corner{at(24, 140), at(0, 100), at(0, 60)};
        room.space.take({corner, corner + Vec{at(8, 40), at(8, 60), at(8, 80)}}, ClearanceMap::kept_clear - k, "a box");
    }
    auto& ask = room.ask;
    ask.from = {0, at(16, 120), at(16, 80)};
    ask.from_facing = {1, 0, 0};
    ask.to = {200 * inch, at(16, 120), at(16, 80)};
    ask.to_facing = {-1, 0, 0};
    if (rng() % 2) ask.to = {at(60, 180), 140 * inch, at(16, 80)}, ask.to_facing = {0, -1, 0};
    ask.radius = 1.5 * inch;
    ask.clearance = inch;
    ask.turn = 3 * inch;
    ask.least = 2 * inch;
    ask.first = ask.last = static_cast<double>(rng() % 3) * inch;
    if (rng() % 2) ask.levels = {at(60, 88)};
    return room;
}

/// What a leg of a way costs beside its turn.
double leg_price(const RouteRequest& ask, const Vec& from, const Vec& to) {
    const double length = shape::distance(from, to);
    const bool upright = std::abs(from.z - to.z) > tolerance;
    const bool liked = ask.levels.empty() || std::any_of(ask.levels.begin(), ask.levels.end(), [&](double level) {
                           return std::abs(level - from.z) < tolerance;
                       });
    return length * (upright || liked ? 1 : off_level);
}

double price(const RouteRequest& ask, const std::vector<Vec>& way) {
    double sum = ask.turn_price * static_cast<double>(way.size() - 1);
    Vec from = ask.from;
    for (const Vec& corner : way) sum += leg_price(ask, from, corner), from = corner;
    return sum;
}

class Exhaustive {
public:
    Exhaustive(const Room& room, const Planes& planes) : room_(room), ask_(room.ask), planes_(planes) {
        for (int axis = 0; axis < 3; ++axis) n_[axis] = planes.count(axis);
        cheapest_.assign(static_cast<std::size_t>(n_[0] * n_[1] * n_[2]) * 6, never);
        free_.assign(static_cast<std::size_t>(n_[0] * n_[1] * n_[2]) * 3, -1);
    }

    /// The least price; infinite where there is no way.
    double find() {
        const int start = direction_of(ask_.from_facing), last = direction_of(-ask_.to_facing);
        const Node from = node(ask_.from), goal = node(ask_.to);
        std::deque<std::pair<Node, int>> again;
        const auto legs = [&](Node begin, int direction, double paid, bool first) {
            Node end = begin;
            for (;;) {
                if (!step(end, direction)) return;
                const double length = shape::distance(at(begin), at(end));
                const bool arrives = end == goal && direction == last;
                double least = first ? ask_.first + ask_.turn : 2 * ask_.turn + ask_.least;
                if (arrives) least = first ? std::max(ask_.least, ask_.first + ask_.last) : ask_.turn + ask_.last;
                if (length < least - tolerance) continue;
                const double sum = paid + leg_price(ask_, at(begin), at(end)) + (first ? 0 : ask_.turn_price);
                double& best = cheapest_[state(end, direction)];
                if (sum >= best - 1e-9) continue;
                best = sum;
                if (!arrives) again.emplace_back(end, direction);
            }
        };
        legs(from, start, 0, true);
        while (!again.empty()) {
            const auto [here, came] = again.front();
            again.pop_front();
            for (int direction = 0; direction < 6; ++direction)
                if (direction / 2 != came / 2) legs(here, direction, cheapest_[state(here, came)], false);
        }
        return cheapest_[state(goal, last)];
    }

    static constexpr double never = 1e30;

private:
    using Node = std::array<int, 3>;

    Node node(const Vec& p) const { return {planes_.index(0, p.x), planes_.index(1, p.y), planes_.index(2, p.z)}; }
    Vec at(const Node& n) const {
        return {planes_.at[0][static_cast<std::size_t>(n[0])], planes_.at[1][static_cast<std::size_t>(n[1])],
                planes_.at[2][static_cast<std::size_t>(n[2])]};
    }
    std::size_t index(const Node& n) const { return static_cast<std::size_t>((n[2] * n_[1] + n[1]) * n_[0] + n[0]); }
    std::size_t state(const Node& n, int direction) const { return index(n) * 6 + static_cast<std::size_t>(direction); }

    /// To the next crossing, if the pipe has room on the way.
    bool step(Node& n, int direction) {
        const auto axis = static_cast<std::size_t>(direction / 2);
        const Node before = n;
        n[axis] += direction % 2 ? -1 : 1;
        if (n[axis] < 0 || n[axis] >= n_[axis]) return false;
        const Node low = direction % 2 ? n : before;
        auto& known = free_[index(low) * 3 + axis];
        if (known < 0) {
            Node high = low;
            ++high[axis];
            known = room_for_pipe(at(low), at(high), static_cast<int>(axis));
        }
        return known > 0;
    }

    bool room_for_pipe(const Vec& low, const Vec& high, int axis) const {
        const auto body = [&](double by) {
            shape::Box box = shape::grown(shape::Box{low, high}, by);
            const auto end = [&](const Vec& p) {
                return shape::distance(p, ask_.from) < 1e-4 || shape::distance(p, ask_.to) < 1e-4;
            };
            if (end(low)) set(box.min, axis, part(low, axis));
            if (end(high)) set(box.max, axis, part(high, axis));
            return box;
        };
        if (!room_.space.in_room(body(ask_.radius))) return false;
        for (const auto& taken : room_.space.boxes())
            if (shape::overlap(taken.box, body(ask_.radius + ask_.clearance), tolerance)) return false;
        return true;
    }

    const Room& room_;
    const RouteRequest& ask_;
    const Planes& planes_;
    int n_[3] = {};
    std::vector<double> cheapest_;
    std::vector<signed char> free_;
};

struct Tally {
    int ways = 0, shut = 0;
    double longest = 1;  ///< price over the least
};

Tally beside_exhaustive(Detail detail, int rooms) {
    std::mt19937 rng(5);
    Tally tally;
    for (int k = 0; k < rooms; ++k) {
        Room room = random_room(rng);
        room.ask.detail = detail;
        const double least = Exhaustive(room, planes_of(room.space, room.ask, detail)).find();
        const auto way = find_route(room.space, room.ask);
        EXPECT_EQ(way.has_value(), least < Exhaustive::never) << "room " << k;
        if (!way) {
            ++tally.shut;
            continue;
        }
        ++tally.ways;
        const double ratio = price(room.ask, *way) / least;
        EXPECT_GT(ratio, 1 - 1e-5) << "cheaper than the cheapest, room " << k;
        tally.longest = std::max(tally.longest, ratio);
    }
    return tally;
}

TEST(RouteExhaustive, FewPlanesGiveTheCheapestWay) {
    const auto tally = beside_exhaustive(Detail::coarse, 200);
    EXPECT_GT(tally.ways, 100);
    EXPECT_GT(tally.shut, 0);
    EXPECT_LT(tally.longest, 1 + 1e-5);
}

TEST(RouteExhaustive, MorePlanesGiveTheCheapestWay) {
    const auto tally = beside_exhaustive(Detail::middle, 120);
    EXPECT_GT(tally.ways, 70);
    EXPECT_LT(tally.longest, 1 + 1e-5);
}

/// The finest detail hurries: it weighs what is still to go twice. It finds a way whenever there is one.
TEST(RouteExhaustive, TheFinestDetailFindsAWayNotFarFromTheCheapest) {
    const auto tally = beside_exhaustive(Detail::fine, 60);
    EXPECT_GT(tally.ways, 45);
    EXPECT_LT(tally.longest, 1.5);
}

}  // namespace
}  // namespace bw::piping
