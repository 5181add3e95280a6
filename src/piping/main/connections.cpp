// SPDX-License-Identifier: MIT
#include "piping/main/connections.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "piping/kit/builder.h"
#include "survey/points.h"
#include "units/amount.h"

namespace bw::piping {
namespace {

constexpr double step = 3 * inch_m;    ///< of a connection moved, and of the cells of the room
constexpr double most = 240 * inch_m;  ///< a connection is not moved farther

std::string feet(double metres) { return units::print_feet_inches(metres * units::metre); }

ClearanceMap with_obstacles(const survey::Room& room, int but = -1) {
    ClearanceMap space(room.plan, room.overhead());
    for (int k = 0; k < static_cast<int>(room.obstacles.size()); ++k) {
        const auto& obstacle = room.obstacles[static_cast<std::size_t>(k)];
        if (k != but) space.take(obstacle.box, ClearanceMap::kept_clear - k, obstacle.name);
    }
    return space;
}

/// Where the middle of a pipe of some width may be: cells of the room, those that hang together with one number.
class Cells {
public:
    Cells(const ClearanceMap& space, double width) : half_(width / 2) {
        const shape::Box& hull = space.hull();
        corner_ = hull.min;
        const Vec size = hull.max - hull.min;
        count_ = {1 + static_cast<int>(size.x / step), 1 + static_cast<int>(size.y / step),
                  1 + static_cast<int>(size.z / step)};
        number_.assign(static_cast<std::size_t>(count_[0] * count_[1] * count_[2]), shut);
        for (std::size_t i = 0; i < number_.size(); ++i) {
            const Vec middle = place(static_cast<int>(i));
            const auto box = shape::grown({middle, middle}, half_ - 1e-6);
            if (space.in_room(box) && !space.taken(box)) number_[i] = unseen;
        }
        for (std::size_t i = 0; i < number_.size(); ++i)
            if (number_[i] == unseen) fill(static_cast<int>(i));
    }

    /// Whether a pipe from a point, looking along `facing`, comes into the greatest space of the room.
    [[nodiscard]] bool opens(const Vec& from, const Vec& facing) const {
        for (double ahead = half_; ahead < half_ + 3 * step; ahead += step / 2) {
            const Vec p = from + ahead * facing - corner_;
            const std::array<int, 3> n{static_cast<int>(std::lround(p.x / step)),
                                       static_cast<int>(std::lround(p.y / step)),
                                       static_cast<int>(std::lround(p.z / step))};
            bool in = true;
            for (std::size_t axis = 0; axis < 3; ++axis) in = in && n[axis] >= 0 && n[axis] < count_[axis];
            if (in && number_[static_cast<std::size_t>(index(n))] == greatest_) return true;
        }
        return false;
    }

private:
    static constexpr int shut = -1, unseen = 0;

    [[nodiscard]] int index(const std::array<int, 3>& n) const { return (n[2] * count_[1] + n[1]) * count_[0] + n[0]; }
    [[nodiscard]] Vec place(int i) const {
        return corner_ + step * Vec{static_cast<double>(i % count_[0]), static_cast<double>(i / count_[0] % count_[1]),
                                    static_cast<double>(i / count_[0] / count_[1])};
    }

    void fill(int first) {
        const int number = ++last_;
        std::vector<int> reached{first};
        number_[static_cast<std::size_t>(first)] = number;
        for (std::size_t k = 0; k < reached.size(); ++k) {
            const int here = reached[k];
            const std::array<int, 3> n{here % count_[0], here / count_[0] % count_[1], here / count_[0] / count_[1]};
            for (std::size_t axis = 0; axis < 3; ++axis)
                for (const int by : {-1, 1}) {
                    auto next = n;
                    next[axis] += by;
                    if (next[axis] < 0 || next[axis] >= count_[axis]) continue;
                    auto& mark = number_[static_cast<std::size_t>(index(next))];
                    if (mark != unseen) continue;
                    mark = number;
                    reached.push_back(index(next));
                }
        }
        if (reached.size() > largest_) largest_ = reached.size(), greatest_ = number;
    }

    double half_;
    Vec corner_;
    std::array<int, 3> count_{};
    std::vector<int> number_;
    int last_ = 0, greatest_ = -2;
    std::size_t largest_ = 0;
};

/// An elbow close to a pipe as small as the building's: what any main needs at the least.
RouteRequest least_ask(const survey::Connection& connection) {
    RouteRequest ask;
    ask.from = snap(connection.at);
    ask.from_facing = connection.facing;
    ask.to = ask.from + 1e3 * connection.facing;  // far off: only the beginning is looked at
    ask.to_facing = connection.facing;
    ask.radius = connection.size ? connection.size->eighths / 16.0 * inch_m : inch_m / 4;
    ask.clearance = inch_m;
    ask.turn = ask.first = inch_m;
    return ask;
}

double width_of(const RouteRequest& ask) { return 2 * (ask.radius + ask.clearance); }

struct Trouble {
    std::string what;
    double need = 0, have = 0;
};

class Connections {
public:
    /// `widest` is the greatest width any of them wants.
    Connections(const survey::Survey& survey, double widest)
        : room_(survey.room), space_(with_obstacles(survey.room)), common_(space_, widest) {}

    std::optional<plant::Shortfall> judge(const std::string& name, const survey::Connection& connection) const {
        const RouteRequest ask = least_ask(connection);
        const auto trouble = trouble_of(name, ask);
        if (!trouble) return std::nullopt;
        return plant::Shortfall{"connections." + name, trouble->what, trouble->need, trouble->have,
                                remedy(name, connection, ask, Cells(space_, width_of(ask)))};
    }

private:
    [[nodiscard]] std::optional<Trouble> trouble_of(const std::string& name, const RouteRequest& ask) const {
        const double straight = ask.first + ask.turn + ask.radius;
        for (const auto& obstacle : room_.obstacles)
            if (const double depth = inside(obstacle.box, ask.from); depth > 1e-6)
                return Trouble{
                    fmt::format("the {} connection stands {} deep inside {}", name, feet(depth), obstacle.name),
                    straight, 0};
        if (const auto what = in_front(space_, ask, ask.from, ask.from_facing, ask.first)) {
            double clear = 0;
            RouteRequest less = ask;
            less.turn = 0;
            for (double ahead = 0; ahead < straight; ahead += inch_m / 4) {
                less.first = ahead;
                if (in_front(space_, less, less.from, less.from_facing, less.first)) break;
                clear = ahead;
            }
            return Trouble{fmt::format("before the {} connection {} leaves {} clear, {} is needed for an elbow and a "
                                       "pipe of its size",
                                       name, *what, feet(clear), feet(straight)),
                           straight, clear};
        }
        if (common_.opens(ask.from, ask.from_facing) || Cells(space_, width_of(ask)).opens(ask.from, ask.from_facing))
            return std::nullopt;
        double narrow = 0, wide = width_of(ask);
        while (wide - narrow > inch_m / 2) {
            const double middle = (narrow + wide) / 2;
            (Cells(space_, middle).opens(ask.from, ask.from_facing) ? narrow : wide) = middle;
        }
        return Trouble{
            narrow > inch_m / 2
                ? fmt::format("the {} connection is walled in: the widest way from it into the room is about "
                              "{} wide, its pipe needs {}",
                              name, feet(narrow), feet(width_of(ask)))
                : fmt::format(
                      "the {} connection is walled in: no way leads from it into the room, its pipe needs one {} "
                      "wide",
                      name, feet(width_of(ask))),
            width_of(ask), narrow > inch_m / 2 ? narrow : 0};
    }

    /// How deep a point stands in a box, from its nearest side or its top: 0 outside.
    static double inside(const shape::Box& box, const Vec& p) {
        if (p.z < box.min.z) return 0;
        return std::max(
            0.0, std::min({p.x - box.min.x, box.max.x - p.x, p.y - box.min.y, box.max.y - p.y, box.max.z - p.z}));
    }

    [[nodiscard]] bool serves(RouteRequest ask, const Cells& cells, const Vec& at) const {
        ask.from = at;
        const auto point = shape::Box{at, at};
        if (!space_.in_room(point)) return false;
        for (const auto& obstacle : room_.obstacles)
            if (inside(obstacle.box, at) > 0) return false;
        return !in_front(space_, ask, at, ask.from_facing, ask.first) && cells.opens(at, ask.from_facing);
    }

    [[nodiscard]] std::string remedy(const std::string& name, const survey::Connection& connection,
                                     const RouteRequest& ask, const Cells& cells) const {
        std::string says;
        const auto to = nearest(ask, cells);
        if (to)
            says = fmt::format("move the {} connection {} to ({}, {}, {})", name, feet(shape::distance(*to, ask.from)),
                               feet(to->x), feet(to->y), feet(to->z));
        for (int k = 0; k < static_cast<int>(room_.obstacles.size()); ++k) {
            const ClearanceMap without = with_obstacles(room_, k);
            if (in_front(without, ask, ask.from, ask.from_facing, ask.first) ||
                !Cells(without, width_of(ask)).opens(connection.at, ask.from_facing))
                continue;
            says += fmt::format("{}take {} away from before it", says.empty() ? "" : ", or ",
                                room_.obstacles[static_cast<std::size_t>(k)].name);
            break;
        }
        return says.empty() ? "another place for the connection, and fewer things about it" : says;
    }

    /// The nearest place along its wall, up and down it or across the floor, that serves.
    [[nodiscard]] std::optional<Vec> nearest(const RouteRequest& ask, const Cells& cells) const {
        for (double by = step; by <= most; by += step)
            for (const Vec way : {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}})
                for (const double sign : {1.0, -1.0}) {
                    if (std::abs(shape::dot(way, ask.from_facing)) > 0.5) continue;
                    const Vec at = ask.from + sign * by * way;
                    if (serves(ask, cells, at)) return at;
                }
        return std::nullopt;
    }

    const survey::Room& room_;
    ClearanceMap space_;
    Cells common_;  ///< what is open to the widest is open to all
};

}  // namespace

std::optional<Error> shut_connection(const survey::Survey& survey, const plant::Layout& layout) {
    const auto& room = survey.room;
    const ClearanceMap space = space_of(room, layout);
    using Named = std::pair<const char*, const survey::Connection*>;
    for (const auto& [name, connection] : {Named{"gas", &room.gas}, Named{"cold", &room.cold}, Named{"hot", &room.hot},
                                           Named{"recirculation", &room.recirculation}}) {
        if (!connection->given) continue;
        const RouteRequest ask = least_ask(*connection);
        const auto what = in_front(space, ask, ask.from, ask.from_facing, ask.first);
        if (!what) continue;
        return Error{fmt::format("{} connection: {} leaves no room to begin a pipe", name, *what),
                     "the connection, the panel or the heaters elsewhere",
                     {}};
    }
    return std::nullopt;
}

std::vector<plant::Shortfall> unreachable_connections(const survey::Survey& survey) {
    const auto& room = survey.room;
    std::vector<plant::Shortfall> found;
    std::vector<std::pair<std::string, const survey::Connection*>> all;
    for (const auto& point : survey::points())
        if (point.service != text::Service::power) all.emplace_back(point.key, &(room.*point.place.value));
    double widest = 0;
    for (const auto& [name, connection] : all)
        if (connection->given) widest = std::max(widest, width_of(least_ask(*connection)));
    const Connections connections(survey, widest);
    for (const auto& [name, connection] : all) {
        if (!connection->given) continue;
        if (auto shortfall = connections.judge(name, *connection)) found.push_back(std::move(*shortfall));
    }
    return found;
}

}  // namespace bw::piping
