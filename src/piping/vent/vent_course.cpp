// SPDX-License-Identifier: MIT
// The ways vents take: what is asked of the room, what a listing counts of it, and the hole at its end.

#include <fmt/format.h>

#include <cmath>

#include "piping/kit/rack_room.h"
#include "piping/vent/vent.h"
#include "plant/stations.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

using units::tolerance;
constexpr double clearance = 0.5 * inch_m;  // between vents and everything else, for hands and hangers

Vec unit(Vec v) { return (1 / shape::length(v)) * v; }

/// The room before a hole in the wall in which its pipe turns.
shape::Box way_in(const survey::Connection& hole, double radius) {
    constexpr double deep = 14 * inch_m;
    const double half = radius + clearance;
    const Vec across{std::abs(hole.facing.x) > 0.5 ? 0 : half, std::abs(hole.facing.y) > 0.5 ? 0 : half,
                     std::abs(hole.facing.z) > 0.5 ? 0 : half};
    const Vec end = hole.at + deep * hole.facing;
    return shape::joined(shape::box_of(hole.at - across, hole.at + across), shape::box_of(end - across, end + across));
}

Vec before_last(const Course& course) {
    return course.corners.size() > 1 ? course.corners[course.corners.size() - 2] : course.from;
}

double outside_of(const Item* item) { return item ? item->outside.value() : 0; }

}  // namespace

double Course::length() const {
    double sum = 0;
    Vec before = from;
    for (const Vec& corner : corners) {
        sum += shape::distance(before, corner);
        before = corner;
    }
    return sum;
}

int Course::turns() const {
    int count = 0;
    Vec before = from, way = facing;
    for (const Vec& corner : corners) {
        if (shape::distance(before, corner) < tolerance) continue;
        const Vec leg = unit(corner - before);
        if (shape::distance(leg, way) > tolerance) ++count;
        way = leg;
        before = corner;
    }
    return count;
}

double radius_of(const Builder& b, const Line& line) {
    const auto* pipe = b.catalogue.pipe(line.material, line.size);
    const double body = std::max({pipe ? pipe->outside.value() : 0, outside_of(b.seek(Part::vent_elbow, line)),
                                  outside_of(b.seek(Part::coupling, line))});
    return body / 2;
}

double spacing_of(const Builder& b, const Line& line) {
    const Part part = line.service == Service::exhaust ? Part::vent_terminal : Part::intake_terminal;
    const Item* terminal = b.seek(part, line);
    const double listed = terminal ? terminal->number("spacing").value_or(0) : 0;
    const double body = std::max(2 * radius_of(b, line), outside_of(terminal));
    return snap_up(std::max({terminal_spacing, listed, body + 2 * clearance}));
}

RouteRequest ask_for(const Builder& b, const Line& line, Vec from, Vec facing, Vec to, const survey::Connection& outlet,
                     double behind) {
    const Item* elbow = b.seek(Part::vent_elbow, line);
    RouteRequest ask;
    ask.from = from;
    ask.from_facing = facing;
    ask.to = on_grid_from(from, to, outlet.facing);
    ask.to_facing = outlet.facing;
    ask.radius = radius_of(b, line);
    ask.clearance = clearance;
    ask.turn = elbow ? elbow->run.value() : 0;
    ask.least = shortest(line.material, line.size);
    ask.first = ask.last = ask.least;
    if (std::abs(outlet.facing.z) < 0.5) ask.levels = {ask.to.z};
    // its far end stands higher than drawn by the fall of its whole way
    const Vec way = ask.to - from;
    const double lifted = (std::abs(way.x) + std::abs(way.y) + behind) * plant::stations::fall;
    if (line.service == Service::exhaust) ask.rises = lifted;
    if (std::abs(outlet.facing.z) < 0.5)
        ask.highest =
            std::max(ask.to.z, snap_down(b.space.ceiling().lowest(shape::box_of(from, ask.to)) - ask.radius - lifted));
    ask.keep_off = rack_rooms(b, 6 * inch_m);
    // the way in before the other outlet stays free: whichever is laid second must still reach its hole
    const auto& room = b.ground.room;
    const auto& other = line.service == Service::exhaust ? room.intake : room.exhaust;
    if (other.given) ask.keep_off.push_back({way_in(other, ask.radius), "the way to the other vent's hole"});
    return ask;
}

double mouth_of(const Builder& b, const Line& line) {
    const Part part = line.service == Service::exhaust ? Part::vent_terminal : Part::intake_terminal;
    return std::max(radius_of(b, line), outside_of(b.seek(part, line)) / 2);
}

void take_starts(ClearanceMap& space, const Builder& b, Service service, Material material) {
    for (const auto& at : standings(b.layout)) {
        const PortRef port = heater_port(b, at.stand->number, service);
        if (port == nowhere) continue;
        const Port& open = b.at(port);
        const Line line{.service = service, .material = material, .size = open.size};
        const Vec top = open.at + start_length(b, line, open.size, open.size) * open.facing;
        space.take(shape::bounds(shape::Cylinder{open.at, top, radius_of(b, line)}), port.piece);
    }
}

void take(ClearanceMap& space, const Course& course, Girth girth, int owner, Service service, double behind) {
    if (!course.corners.empty()) {
        const Vec& hole = course.corners.back();
        const Vec along = shape::distance(hole, before_last(course)) > 1e-6 ? unit(hole - before_last(course)) : Vec{};
        space.take(shape::bounds(shape::Cylinder{hole - inch_m * along, hole, girth.mouth}), owner);
    }
    Vec before = course.from;
    for (const Vec& corner : course.corners) {
        auto leg = shape::bounds(shape::Cylinder{before, corner, girth.radius});
        behind += std::hypot(corner.x - before.x, corner.y - before.y);
        if (service == Service::exhaust) leg.max.z += behind * plant::stations::fall;
        space.take(leg, owner);
        before = corner;
    }
}

std::vector<survey::Connection> places_to_leave(const Builder& b, const std::vector<Flue>& all,
                                                const survey::Connection& outlet, const Line& line) {
    auto places = places_along(b.ground.room, outlet);
    if (line.service != Service::exhaust || std::abs(outlet.facing.z) > 0.5) return places;
    constexpr double detour = 24 * inch_m;
    const double half = mouth_of(b, line);
    std::vector<survey::Connection> out;
    for (const auto& place : places) {
        double run = 0;
        for (const auto& flue : all)
            for (const int heater : flue.heaters) {
                const Vec way = place.at - b.at(heater_port(b, heater, line.service)).at;
                run = std::max(run, std::abs(way.x) + std::abs(way.y) + detour);
            }
        const double top = place.at.z + run * plant::stations::fall + half;
        const double lower = snap_up(top - b.ground.room.overhead().at(place.at));
        if (lower > 0) {
            out.push_back(place);
            out.back().at.z -= lower;
        }
        out.push_back(place);
    }
    return out;
}

Result<std::vector<Vec>> find_vent(const ClearanceMap& space, RouteRequest ask, Thoroughness how) {
    auto found = find_route_off_grid(space, ask, how);
    if (found || ask.rises <= 0) return found;
    ask.rises = 0;
    return find_route_off_grid(space, ask, how);
}

std::vector<std::vector<Vec>> assignments(const std::vector<Vec>& holes) {
    std::vector<std::vector<Vec>> orders{holes};
    if (holes.size() > 1) orders.emplace_back(holes.rbegin(), holes.rend());
    return orders;
}

reason::Step fall_step(double length) {
    const double fall = length * plant::stations::fall;
    return {.says =
                "Drawn level. Laid to fall 1/4 in a foot back to its drain, so its far end stands higher than drawn by "
                "this.",
            .formula = "fall = length / 48",
            .given = {{"length", "centre line", units::amount(length * units::metre)}},
            .result = reason::Term{"fall", "headroom the fall needs", units::amount(fall * units::metre)}};
}

PortRef heater_port(const Builder& b, int heater, Service service) {
    return b.port(fmt::format("heater-{}", heater), text::name(service));
}

namespace {

Line sized(Line line, Nominal size) {
    line.size = size;
    return line;
}

}  // namespace

PortRef start_vent(Builder& b, const Line& line, PortRef port, Nominal to) {
    if (!b.ok() || port == nowhere) return nowhere;
    const Nominal here = b.at(port).size;
    const PortRef collar = b.attach(sized(line, here), port, b.item(Part::vent_collar, sized(line, here)),
                                    fmt::format("collar-{}", line.heater));
    if (here == to) return collar;
    return b.attach(sized(line, here), collar,
                    b.item(Part::vent_adapter, sized(line, std::max(here, to)), std::min(here, to)));
}

double start_length(const Builder& b, const Line& line, Nominal port, Nominal to) {
    const Item* collar = b.seek(Part::vent_collar, sized(line, port));
    const Item* adapter =
        port == to ? nullptr : b.seek(Part::vent_adapter, sized(line, std::max(port, to)), std::min(port, to));
    return (collar ? 2 * collar->run.value() : 0) + (adapter ? 2 * adapter->run.value() : 0);
}

namespace {

void stop_fire(Builder& b, const Line& line, int pipe, Vec hole) {
    const Item* row = b.item(Part::firestop, line);
    if (!row) return;
    Piece piece = bare(b, line, *row, "firestop");
    piece.ports = {{"a", hole, shape::down, {}, Service::structure}};
    const PortRef ring = b.tap(pipe, {"firestop", hole, shape::up, {}, Service::structure});
    b.join(ring, {b.add(std::move(piece)), 0}, JointKind::slip);
}

}  // namespace

void lay_outlet(Builder& b, const Line& line, PortRef from, const FluePlan& plan, int outlet_number) {
    const bool exhaust = line.service == Service::exhaust;
    auto corners = plan.course.corners;
    const Vec hole = corners.back();
    corners.back() = hole - through_wall * plan.outlet_facing;
    const PortRef outside = b.run(line, from, corners);
    const Item* row = b.item(exhaust ? Part::vent_terminal : Part::intake_terminal, line);
    const PortRef mouth = b.attach(line, outside, row, "terminal");
    if (!b.ok()) return;
    const std::string point = exhaust ? "site.exhaust" : "site.intake";
    const PortRef open_air = b.site(outlet_number == 1 ? point : fmt::format("{}-{}", point, outlet_number),
                                    line.service, b.at(mouth).at, -b.at(mouth).facing, b.at(mouth).size);
    b.join(mouth, open_air, JointKind::slip);
    const auto& room = b.ground.room;
    const auto wall = wall_of(room, exhaust ? room.exhaust : room.intake);
    if (wall && *room.walls[*wall].rated) stop_fire(b, line, outside.piece, hole);
}

}  // namespace bw::piping
