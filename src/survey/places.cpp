// SPDX-License-Identifier: MIT
// Places for connections the survey does not give: a guess a person on site can confirm or correct.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <numeric>

#include "survey/geometry.h"
#include "survey/room_parts.h"

namespace bw::survey {
namespace {

constexpr double in = 0.0254, ft = 12 * in;
/// Along a wall, tried in this order; from the middle out.
constexpr std::array shares{0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.28, 0.42, 0.58, 0.72, 0.05, 0.95};

std::vector<const Connection*> present(const Room& room) {
    std::vector<const Connection*> out;
    for (const auto* c :
         {&room.gas, &room.cold, &room.hot, &room.recirculation, &room.drain, &room.exhaust, &room.intake, &room.panel})
        if (c->given) out.push_back(c);
    return out;
}

bool has_door(const Room& room, std::size_t wall) {
    return std::any_of(room.doors.begin(), room.doors.end(),
                       [wall](const Door& d) { return d.wall == static_cast<int>(wall); });
}

bool before_door(const Room& room, std::size_t wall, double along) {
    return std::any_of(room.doors.begin(), room.doors.end(), [&](const Door& d) {
        return d.wall == static_cast<int>(wall) && along > d.offset.value() - 6 * in &&
               along < (d.offset + d.width).value() + 6 * in;
    });
}

bool is_free(const Room& room, shape::Vec at) {
    for (const auto* other : present(room))
        if (shape::distance(other->at, at) < 9 * in) return false;
    const auto box = shape::grown({at, at}, 4 * in);
    return std::none_of(room.obstacles.begin(), room.obstacles.end(),
                        [&](const Obstacle& o) { return shape::overlap(o.box, box); });
}

int connections_on(const Room& room, std::size_t wall) {
    int count = 0;
    for (const auto* c : present(room)) {
        const auto near = nearest_wall(room.plan, {c->at.x, c->at.y});
        count += near.wall == wall && near.distance < 2 * in ? 1 : 0;
    }
    return count;
}

/// Walls for pipes to come through: where others already do, then short walls without a door, so that long ones stay
/// free for the heaters.
std::vector<std::size_t> service_walls(const Room& room) {
    std::vector<std::size_t> order(room.plan.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto rank = [&](std::size_t w) {
        const double length = wall_length(room.plan, w);
        return std::tuple(-connections_on(room, w), length < 3 * ft, has_door(room, w), length, w);
    };
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return rank(a) < rank(b); });
    return order;
}

/// Outside walls first, those said to be inside last; of equals those under the higher part of a sloping ceiling.
std::vector<std::size_t> vent_walls(const Room& room) {
    auto order = service_walls(room);
    const auto rank = [&](std::size_t w) {
        return room.walls[w].outside.assumed ? 1 : room.walls[w].outside.value ? 0 : 2;
    };
    const auto ceiling = room.overhead();
    const auto over = [&](std::size_t w) { return ceiling.at(on_wall(room.plan, w, wall_length(room.plan, w) / 2)); };
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return std::pair(rank(a), -over(a)) < std::pair(rank(b), -over(b));
    });
    return order;
}

/// The exhaust's wall and those known to be outside: better a little near the exhaust than through a wall that may lead
/// into another room.
std::vector<std::size_t> intake_walls(const Room& room) {
    const auto exhaust = nearest_wall(room.plan, {room.exhaust.at.x, room.exhaust.at.y}).wall;
    std::vector<std::size_t> order{exhaust};
    for (const auto wall : vent_walls(room))
        if (wall != exhaust && !room.walls[wall].outside.assumed && room.walls[wall].outside.value)
            order.push_back(wall);
    return order;
}

std::vector<std::size_t> panel_walls(const Room& room) {
    auto order = service_walls(room);
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return has_door(room, a) && !has_door(room, b); });
    return order;
}

/// So high above the floor, but at least so far under the ceiling, metres.
struct Height {
    double wanted = 0, under = 6 * in;
    [[nodiscard]] double at(const shape::Ceiling& ceiling, shape::Point p) const {
        return std::min(wanted, ceiling.at(p) - under);
    }
};

std::optional<shape::Vec> spot(const Room& room, const std::vector<std::size_t>& walls, Height wanted,
                               const Connection* away_from = nullptr, double apart = 0,
                               const std::function<bool(shape::Vec, shape::Vec)>& suits = {}) {
    const auto ceiling = room.overhead();
    for (const auto wall : walls) {
        for (const double share : shares) {
            const double along = share * wall_length(room.plan, wall);
            const auto p = on_wall(room.plan, wall, along);
            const double height = wanted.at(ceiling, p);
            const shape::Vec at{snapped(p.x), snapped(p.y), snapped(height)};
            const bool far = away_from == nullptr || shape::distance(away_from->at, at) >= apart;
            if (far && is_free(room, at) && (height > 7 * ft || !before_door(room, wall, along)) &&
                (!suits || suits(at, inward(room.plan, wall))))
                return at;
        }
    }
    return std::nullopt;
}

shape::Vec floor_spot(const Room& room) {
    for (const double out : {24 * in, 36 * in, 12 * in, 6 * in}) {
        for (const auto wall : service_walls(room)) {
            const auto normal = inward(room.plan, wall);
            for (const double share : shares) {
                const auto p = on_wall(room.plan, wall, share * wall_length(room.plan, wall));
                const shape::Vec at{snapped(p.x + out * normal.x), snapped(p.y + out * normal.y), 0};
                if (shape::inside(room.plan, {at.x, at.y}) && is_free(room, at)) return at;
            }
        }
    }
    const auto p = on_wall(room.plan, 0, wall_length(room.plan, 0) / 2);
    return {snapped(p.x), snapped(p.y), 0};
}

class Placer {
public:
    explicit Placer(Survey& survey) : survey_(survey), room_(survey.room) {}

    void put(std::string_view name, Connection& c, shape::Vec at, shape::Vec facing, std::string why, bool safety) {
        c = {.given = true, .assumed_place = true, .at = at, .facing = facing, .size = {}};
        const auto written = [](double v) { return units::print_feet_inches(v * metre); };
        survey_.assumed.push_back({fmt::format("connections.{}", name),
                                   fmt::format("[\"{}\", \"{}\", \"{}\"]", written(at.x), written(at.y), written(at.z)),
                                   std::move(why), safety});
    }

    void on(std::string_view name, Connection& c, const std::vector<std::size_t>& walls, Height height, std::string why,
            bool safety, std::initializer_list<double> apart = {}) {
        if (c.given) return;
        std::optional<shape::Vec> at;
        for (const double distance : apart)
            if (!at) at = spot(room_, walls, height, &room_.exhaust, distance);
        if (!at) at = spot(room_, walls, height);
        put_at(name, c, walls, at, height, std::move(why), safety);
    }

    /// Where the space a person stands in at the panel holds no pipe's end and no obstacle.
    void panel(Connection& c, const std::vector<std::size_t>& walls, Height height, std::string why) {
        if (c.given) return;
        const auto at = spot(room_, walls, height, nullptr, 0, [&](shape::Vec place, shape::Vec facing) {
            const shape::Vec aside = 15 * in * shape::cross(shape::up, facing);
            const auto stand = shape::box_of(shape::Vec{place.x, place.y, 0} - aside,
                                             shape::Vec{place.x, place.y, 6.5 * ft} + aside + 36 * in * facing);
            return std::none_of(room_.obstacles.begin(), room_.obstacles.end(),
                                [&](const Obstacle& o) { return shape::overlap(o.box, stand); }) &&
                   std::ranges::none_of(present(room_), [&](const Connection* pipe) {
                       return shape::overlap(shape::grown({pipe->at, pipe->at}, 3 * in), stand);
                   });
        });
        put_at("panel", c, walls, at ? at : spot(room_, walls, height), height, std::move(why), true);
    }

private:
    void put_at(std::string_view name, Connection& c, const std::vector<std::size_t>& walls,
                std::optional<shape::Vec> at, Height height, std::string why, bool safety) {
        if (!at) {
            const auto p = on_wall(room_.plan, walls.front(), wall_length(room_.plan, walls.front()) / 2);
            at = shape::Vec{snapped(p.x), snapped(p.y), snapped(height.at(room_.overhead(), p))};
        }
        const auto near = nearest_wall(room_.plan, {at->x, at->y});
        put(name, c, *at, inward(room_.plan, near.wall), std::move(why), safety);
    }

    Survey& survey_;
    Room& room_;
};

}  // namespace

void place_missing(Survey& out) {
    auto& room = out.room;
    Placer place(out);
    const Height high{room.ceiling.value.value(), 12 * in};
    const std::string_view pipe = "not given: a wall that leaves the longest free for heaters";
    place.on("gas", room.gas, service_walls(room), {18 * in}, std::string(pipe), true);
    place.on("cold", room.cold, service_walls(room), {30 * in}, std::string(pipe), false);
    place.on("hot", room.hot, service_walls(room), {7 * ft}, std::string(pipe), false);
    if (out.recirculation.present.value)
        place.on("recirculation", room.recirculation, service_walls(room), {30 * in}, std::string(pipe), false);
    if (!room.drain.given)
        place.put("drain", room.drain, floor_spot(room), shape::up, "not given: a floor drain by the pipes' wall",
                  true);
    place.on("exhaust", room.exhaust, vent_walls(room), high, "not given: high on an outside wall", true);
    if (!out.preferences.room_air.value)
        place.on("intake", room.intake, intake_walls(room), high,
                 "not given: high on an outside wall, 10 ft from the exhaust where there is room", true,
                 {10 * ft, 6 * ft, 3 * ft});
    place.panel(room.panel, panel_walls(room), {5 * ft}, "not given: on the door's wall");
}

}  // namespace bw::survey
