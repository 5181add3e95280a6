// SPDX-License-Identifier: MIT
#include "piping/main/main_way.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <tuple>

#include "piping/kit/rack_room.h"

namespace bw::piping {
std::vector<KeepOff> kept_off_by_mains(const Builder& b) {
    // where the vents stand already, they are in the room themselves
    const double vent_room = b.ground.vents_first ? 0 : 30 * inch_m;
    constexpr double door_depth = 36 * inch_m;
    std::vector<KeepOff> boxes = rack_rooms(b, vent_room);
    for (const auto& bank : b.layout.banks) {
        if (bank.stands.empty()) continue;
        double low = 1e9, high = -1e9;
        for (const auto& stand : bank.stands) {
            low = std::min(low, stand.u);
            high = std::max(high, stand.u + b.heater.width.value());
        }
        const auto foot =
            shape::box_of(bank.place({low, -bank.depth_back, 0}), bank.place({high, bank.depth_front, 0}));
        const double top = std::min(bank.bottom + b.heater.height.value() + vent_room, b.space.ceiling().lowest(foot));
        const auto box =
            shape::box_of(bank.place({low, -bank.depth_back, 0}), bank.place({high, bank.depth_front, top}));
        boxes.push_back({box, fmt::format("bank {} with its vents", bank.number)});
    }
    for (const auto* outlet : {&b.ground.room.exhaust, &b.ground.room.intake}) {
        if (!outlet->given || b.ground.vents_first) continue;
        constexpr double half = 8 * inch_m, deep = 24 * inch_m;
        const Vec inward = outlet->at + deep * outlet->facing;
        const Vec across{std::abs(outlet->facing.x) > 0.5 ? 0 : half, std::abs(outlet->facing.y) > 0.5 ? 0 : half,
                         half};
        boxes.push_back({shape::joined(shape::box_of(outlet->at - across, outlet->at + across),
                                       shape::box_of(inward - across, inward + across)),
                         "the vent's way out"});
    }
    const auto& plan = b.ground.room.plan;
    for (std::size_t i = 0; i < b.ground.room.doors.size(); ++i) {
        const auto& door = b.ground.room.doors[i];
        const auto& from = plan[static_cast<std::size_t>(door.wall)];
        const auto& to = plan[(static_cast<std::size_t>(door.wall) + 1) % plan.size()];
        const double length = std::hypot(to.x - from.x, to.y - from.y);
        const Vec along{(to.x - from.x) / length, (to.y - from.y) / length, 0}, inward{-along.y, along.x, 0};
        const Vec near = Vec{from.x, from.y, 0} + door.offset.value() * along;
        const Vec far = near + door.width.value() * along + door_depth * inward + Vec{0, 0, door.height.value()};
        boxes.push_back({shape::box_of(near, far), fmt::format("the way through door {}", i + 1)});
    }
    return boxes;
}

namespace {

Result<std::vector<Vec>> ahead(const ClearanceMap& space, const RouteRequest& ask, double first, double last,
                               Detail detail) {
    RouteRequest now = ask;
    now.detail = detail;
    now.first = first, now.last = last;
    auto found = find_route(space, now);
    if (found && route::nears_itself(ask.from, *found, 2 * ask.radius + inch_m))
        return fail("the only way found passes too near itself", "another point of connection");
    return found;
}

/// Turning `out` from the open end: to every side, the one that leads on first.
Result<std::vector<Vec>> turning_at(const ClearanceMap& space, const RouteRequest& ask, double out, double straight,
                                    double last, Detail detail) {
    std::vector<Vec> sides;
    for (const Vec side : {shape::up, Vec{1, 0, 0}, Vec{-1, 0, 0}, Vec{0, 1, 0}, Vec{0, -1, 0}, shape::down})
        if (std::abs(shape::dot(side, ask.from_facing)) < 0.5) sides.push_back(side);
    std::ranges::stable_sort(sides, std::greater{}, [&](Vec side) { return shape::dot(side, ask.to - ask.from); });
    const Vec corner = ask.from + out * ask.from_facing;
    const auto body = shape::bounds(shape::Cylinder{ask.from, corner + ask.radius * ask.from_facing, ask.radius});
    if (!space.in_room(body) || space.taken(body, ask.from_owner))
        return fail("no room for an elbow at its beginning", "another point of connection");
    std::optional<Error> why;
    for (const Vec& side : sides) {
        RouteRequest turned = ask;
        turned.from = corner + ask.turn * side;
        turned.from_facing = side;
        auto found = ahead(space, turned, std::max(ask.first, straight), std::max(ask.last, last), detail);
        if (found) {
            found->insert(found->begin(), corner);
            return found;
        }
        if (!why) why = std::move(found.error());
    }
    return tl::unexpected(std::move(*why));
}

}  // namespace

Result<std::vector<Vec>> find_way(const ClearanceMap& space, const RouteRequest& ask, const WayEnds& ends,
                                  Thoroughness how, double stub_turn) {
    std::vector<std::pair<double, double>> wanted{{ends.first, ends.last},
                                                  {ends.first, ends.least_last},
                                                  {ends.least_first, ends.last},
                                                  {ends.least_first, ends.least_last},
                                                  {0, 0}};
    for (auto& [first, last] : wanted) first = std::max(first, ask.first), last = std::max(last, ask.last);
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    std::optional<Error> why;
    for (Detail detail : {Detail::coarse, Detail::middle}) {
        for (const auto& [first, last] : wanted) {
            auto found = ahead(space, ask, first, last, detail);
            if (found) return found;
            why = std::move(found.error());
        }
        if (stub_turn > 0)
            if (auto found = turning_at(space, ask, stub_turn, ends.least_first, ends.least_last, detail)) return found;
    }
    if (how == Thoroughness::simple) return tl::unexpected(std::move(*why));
    auto fine = ahead(space, ask, wanted.back().first, wanted.back().second, Detail::fine);
    if (!fine && stub_turn > 0)
        if (auto turned = turning_at(space, ask, stub_turn, ends.least_first, ends.least_last, Detail::fine))
            return turned;
    return fine;
}

Result<std::vector<Vec>> find_way_aside(const ClearanceMap& space, const RouteRequest& ask, const WayEnds& ends,
                                        double out, double straight) {
    for (const double last : {ends.last, ends.least_last})
        if (auto found = turning_at(space, ask, out, straight, last, Detail::coarse)) return found;
    return turning_at(space, ask, out, straight, ends.least_last, Detail::middle);
}

}  // namespace bw::piping
