// SPDX-License-Identifier: MIT
// How many circuits, of which breaker, and where things hang by the door.

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "code/clearances.h"
#include "piping/power/electric.h"
#include "piping/vent/vent.h"

namespace bw::piping {
namespace {

/// Trade size of the cable row that a breaker's rating asks for: 12 AWG copper to 20 A, 10 AWG to 30 A.
/// Source: NEC 240.4(D), from memory.
std::optional<Nominal> cable_for(const catalogue::Catalogue& catalogue, double rating) {
    const Nominal size{rating <= 20 ? 4 : 6};
    if (rating > 30 || !catalogue.pipe(Material::cable, size)) return std::nullopt;
    return size;
}

}  // namespace

Result<CircuitPlan> plan_circuits(const catalogue::Catalogue& catalogue, const catalogue::Heater& heater, int heaters) {
    const double each = std::max(heater.current_running.value(), heater.current_freeze.value());
    const int by_trip = heaters >= 2 ? heaters / 2 : 1;
    std::optional<CircuitPlan> best;
    double best_price = 0;
    for (const Item* breaker : catalogue.of(Part::panel_feed)) {
        const double rating = breaker->number("rating").value_or(0);
        const auto cable = cable_for(catalogue, rating);
        const int by_load = each > 0 ? static_cast<int>(std::floor(continuous_share * rating / each + 1e-9)) : 0;
        if (!cable || by_load < 1) continue;
        const int most = std::min(by_load, by_trip), circuits = (heaters + most - 1) / most;
        const double price = circuits * breaker->price;
        if (best && price >= best_price) continue;
        best = CircuitPlan{parted(heaters, circuits), breaker, each, rating, *cable};
        best_price = price;
    }
    if (!best)
        return fail(fmt::format("circuits: no breaker of the catalogue carries one {} of {:.1f} A", heater.key, each),
                    "a panel-feed row of a higher rating, up to 30 A, with its cable");
    return *best;
}

namespace {

/// Whether a small thing on a wall would stand in the panel's working space.
bool before_panel(const survey::Connection& panel, const Vec& at) {
    if (!panel.given) return false;
    const auto space = code::electrical_working_space().value;
    const Vec side = shape::cross(shape::up, panel.facing), off = at - panel.at;
    const double margin = 3 * inch_m, out = shape::dot(off, panel.facing);
    return std::abs(shape::dot(off, side)) < space.width.value() / 2 + margin && out > -margin &&
           out < space.depth.value() + margin;
}

/// Whether the emergency stop there, and the alarm above it, stand clear of everything.
bool stands_clear(const ClearanceMap& space, const AtDoor& at) {
    constexpr double half = 3.5 * inch_m, deep = 4 * inch_m;
    const Vec side = half * shape::cross(shape::up, at.facing), tall = half * shape::up;
    for (const Vec& middle : {at.at, at.at + alarm_above * shape::up})
        if (space.taken(shape::box_of(middle - side - tall, middle + side + tall + deep * at.facing))) return false;
    return true;
}

}  // namespace

AtDoor beside_door(const survey::Room& room, const ClearanceMap& space) {
    constexpr double away = 8 * inch_m, corner = 4 * inch_m, step = 3 * inch_m, by_the_door = 24 * inch_m;
    constexpr double nearer = 2.5 * inch_m;  ///< the box then begins 2 in from the jamb, past a door's frame
    constexpr std::array heights{48 * inch_m, 54 * inch_m, 42 * inch_m};  ///< within reach (common practice, no source)
    const auto& door = room.doors.front();
    const auto n = room.plan.size();
    const auto &a = room.plan[static_cast<std::size_t>(door.wall)],
               &c = room.plan[(static_cast<std::size_t>(door.wall) + 1) % n];
    const Vec wall{c.x - a.x, c.y - a.y, 0};
    const double length = shape::length(wall), near = door.offset.value() - away,
                 far = door.offset.value() + door.width.value() + away;
    const Vec way = (1 / length) * wall, facing = shape::cross(shape::up, way);
    // beside the latch, so that an open leaf does not cover it; on the other side, then a step farther, then higher or
    // lower, then close by the frame, where a corner, something that stands there or the panel's working space is in
    // the way
    const bool latch_near = *door.hinge_far;
    const double latch = latch_near ? near : far, hinge = latch_near ? far : near;
    const double onward = latch_near ? -1 : 1;  // from the latch, along the wall
    const auto at = [&](double s, double height) { return AtDoor{Vec{a.x, a.y, height} + s * way, facing}; };
    const auto on_wall = [&](double s) { return s >= corner && s <= length - corner; };
    const auto clear_between = [&](double from, double to, double height) -> std::optional<AtDoor> {
        for (double more = from; more < to; more += step)
            for (const double s : {latch + onward * more, hinge - onward * more}) {
                const AtDoor one = at(s, height);
                if (on_wall(s) && !before_panel(room.panel, one.at) && stands_clear(space, one)) return one;
            }
        return std::nullopt;
    };
    for (const double height : heights)
        if (const auto one = clear_between(0, by_the_door, height)) return *one;
    for (const double height : heights)
        if (const auto one = clear_between(-nearer, 0, height)) return *one;
    if (const auto one = clear_between(by_the_door, length, heights.front())) return *one;
    return at(on_wall(latch) ? latch : hinge, heights.front());
}

shape::Ceiling lane(const Builder& b, int circuit) {
    shape::Ceiling lane = b.space.ceiling();
    lane.origin -= (1 + circuit) * inch_m;
    return lane;
}

std::vector<Vec> cable_way(const survey::Room& room, const Port& from, double from_lead, const Port& to, double to_lead,
                           const shape::Ceiling& lane) {
    const Span gap = span_between(from, to);
    if (gap.ahead > 0 && gap.aside < 1e-4) return {to.at};
    const Vec out = from.at + from_lead * from.facing, in = to.at + to_lead * to.facing;
    const auto up = [&](double x, double y) { return Vec{x, y, lane.at(x, y)}; };
    const Vec high_out = up(out.x, out.y), high_in = up(in.x, in.y);
    const bool x_first = shape::inside(room.plan, {in.x, out.y});
    const Vec turn = x_first ? up(in.x, out.y) : up(out.x, in.y);
    return {out, high_out, turn, high_in, in, to.at};
}

void lay_cable(Builder& b, const Line& line, PortRef from, PortRef to, const std::vector<Vec>& way,
               std::string_view name) {
    if (!b.ok() || from == nowhere || to == nowhere) return;
    const auto* row = b.catalogue.pipe(line.material, line.size);
    if (!row) {
        return b.give_up(
            fmt::format("{}: the catalogue has no cable of trade size {}", line.name, units::print(line.size)),
            "a row for it under pipe");
    }
    const Port a = b.at(from), c = b.at(to);
    const double radius = row->outside.value() / 2;
    Piece piece;
    piece.id = b.id(line, Part::cable, name);
    piece.part = Part::cable;
    piece.service = line.service;
    piece.item = row->key;
    piece.size = line.size;
    piece.heater = line.heater;
    piece.bank = line.bank;
    piece.ports = {{"a", a.at, -a.facing, a.size, a.service}, {"b", c.at, -c.facing, c.size, c.service}};
    Vec before = a.at;
    double length = 0;
    for (const Vec& corner : way) {
        const double leg = shape::distance(before, corner);
        if (leg < 1e-6) continue;
        piece.solids.push_back(shape::Cylinder{before, corner, radius});
        length += leg;
        before = corner;
    }
    piece.cut = snap_up(length);
    piece.mass_dry = row->mass.value() * piece.cut;
    const int index = b.add(std::move(piece));
    b.join(from, {index, 0}, JointKind::wired);
    b.join({index, 1}, to, JointKind::wired);
}

}  // namespace bw::piping
