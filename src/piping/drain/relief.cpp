// SPDX-License-Identifier: MIT
// Reliefs: a valve on each heater's hot service valve and a full-size pipe of its own down to an air gap.

#include <fmt/format.h>

#include "piping/drain/drain.h"
#include "piping/kit/builder_extra.h"
#include "piping/kit/rack_room.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

/// Height of the discharge's end. The code has it at most 6 in above the floor (IPC 504.6, from memory) and not less
/// than two pipe diameters, an air gap; an inch less than the most leaves the fitter something.
constexpr double end_height = 5 * inch_m;
using units::tolerance;

Nominal outlet_size(const Item& valve, Nominal inlet) { return valve.branch.value_or(inlet); }

shape::Box straight_box(Vec from, double to_height, double radius) {
    const Vec low{from.x, from.y, to_height};
    return shape::bounds(shape::Cylinder{from - Vec{0, 0, grid}, low, radius});
}

/// Ends of the discharge worth trying: straight below, then a little out and aside.
std::vector<Vec> ends(Vec outlet, Vec out, double height) {
    const Vec along = shape::cross(shape::up, out);
    std::vector<Vec> all{{outlet.x, outlet.y, height}};
    for (const double forward : {0.0, 3.0, -3.0, 5.0})
        for (const double aside : {0.0, 4.0, -4.0, 7.0, -7.0}) {
            Vec end = outlet + (forward * inch_m) * out + (aside * inch_m) * along;
            end.z = height;
            all.push_back(end);
        }
    return all;
}

/// The fall from the valve's outlet to an end that is free, or what is in the way.
Result<std::vector<Vec>> fall(const Builder& b, const Line& line, PortRef open, Vec out, const Item& gap) {
    const Item* elbow = b.seek(Part::elbow, line);
    const auto* pipe = b.catalogue.pipe(line.material, line.size);
    if (!elbow || !pipe)
        return fail(fmt::format("{}: no copper of {} in to pipe it", line.name, units::print(line.size)),
                    "rows for pipe and elbow");
    const Vec from = b.at(open).at;
    const double height = from.z - snap(from.z - end_height), radius = elbow->outside.value() / 2;
    const double funnel = gap.outside.value() / 2, below = 2 * gap.run.value();
    Error last{line.name + ": no free way down beside the heater", "a layout with more room below the heaters", {}};
    for (const Vec& end : ends(from, out, height)) {
        const auto foot = shape::bounds(shape::Cylinder{end, end - Vec{0, 0, below}, funnel});
        if (b.space.taken(foot)) continue;
        const bool straight = std::abs(end.x - from.x) < tolerance && std::abs(end.y - from.y) < tolerance;
        if (straight) {
            if (!b.space.taken(straight_box(from, height, pipe->outside.value() / 2), open.piece))
                return std::vector<Vec>{end};
            continue;
        }
        RouteRequest ask{
            .from = from, .from_facing = shape::down, .to = on_grid_from(from, end, {}), .to_facing = shape::up};
        ask.radius = radius;
        ask.clearance = grid;
        ask.turn = elbow->run.value();
        ask.least = ask.first = ask.last = shortest(line.material, line.size);
        ask.from_owner = open.piece;
        ask.keep_off = rack_rooms(b, 0);
        if (auto corners = find_route_off_grid(b.space, ask)) return corners;
    }
    return tl::unexpected(last);
}

void relieve(Builder& b, const Standing& at) {
    const int number = at.stand->number;
    const PortRef open = b.port(fmt::format("heater-{}.hot.valve", number), "relief");
    const std::string name = fmt::format("heater-{}.relief", number);
    if (open == nowhere)
        return b.give_up(name + ": the hot service valve has no relief outlet", "one in its catalogue row");
    Line line{.service = Service::relief,
              .material = b.ground.water_pipe,
              .size = b.at(open).size,
              .name = name,
              .heater = number,
              .bank = at.bank->number};
    // discharge pipe must stand the temperature: copper whatever the plant's water pipe
    if (line.material != Material::copper_k && line.material != Material::copper_m) line.material = Material::copper_l;
    const Item* valve = b.item(Part::relief_valve, line);
    if (!valve) return;
    const Vec out = b.at(open).facing;
    const PortRef outlet = angle(b, line, open, valve, shape::down, Service::relief, "valve");
    line.size = outlet_size(*valve, line.size);
    const Item* gap = b.item(Part::air_gap, line);
    if (!b.ok()) return;
    PortRef end = outlet;
    if (const Item* adapter = b.adapter_for(line, valve)) end = b.attach(line, end, adapter);
    if (!b.ok()) return;
    const auto corners = fall(b, line, end, out, *gap);
    if (!corners) return b.give_up(corners.error().what, corners.error().expected);
    b.end(line, b.run(line, end, *corners), gap, "air-gap");
}

}  // namespace

std::vector<KeepOff> relief_rooms(const Builder& b) {
    constexpr double pipe_below = 6 * inch_m;
    std::vector<KeepOff> rooms;
    for (const auto& at : standings(b.layout)) {
        const PortRef open = b.port(fmt::format("heater-{}.hot.valve", at.stand->number), "relief");
        if (open == nowhere) continue;
        const Port& port = b.at(open);
        const Item* valve =
            b.seek(Part::relief_valve, {.service = Service::relief, .material = Material::copper_l, .size = port.size});
        if (!valve) continue;
        const double radius = valve->outside.value() / 2;
        const Vec end = port.at + (valve->run.value() + radius) * port.facing;
        auto room = shape::bounds(shape::Cylinder{port.at, end, radius});
        room.min.z -= pipe_below;
        rooms.push_back({room, fmt::format("heater {}'s relief valve", at.stand->number)});
    }
    return rooms;
}

void add_reliefs(Builder& b) {
    for (const auto& at : standings(b.layout)) {
        if (!b.ok()) return;
        relieve(b, at);
    }
}

}  // namespace bw::piping
