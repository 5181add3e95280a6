// SPDX-License-Identifier: MIT
// One row's condensate: down in front of the headers, through a trap, back into a header under the heaters.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "network/run/fall.h"
#include "piping/drain/drain.h"
#include "plant/stations.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

using units::tolerance;

Line branch_line(const DrainSizes& sizes, std::string name, int heater, int bank) {
    return {.service = Service::condensate,
            .material = Material::pvc_drain,
            .size = sizes.branch,
            .name = std::move(name),
            .heater = heater,
            .bank = bank};
}

Line header_line(const DrainSizes& sizes, const DrainRow& row) {
    return {.service = Service::condensate,
            .material = Material::pvc_drain,
            .size = sizes.header,
            .name = row.name,
            .bank = row.bank->number};
}

/// The parts every station of a row needs.
struct Parts {
    const Item *trap, *tee, *elbow;
    double least;
};
Parts parts_of(const Builder& b, const DrainRow& row, const DrainSizes& sizes) {
    const Line line = branch_line(sizes, row.name, 0, row.bank->number);
    return {b.seek(Part::condensate_trap, line, sizes.branch), b.seek(Part::tee, header_line(sizes, row), sizes.branch),
            b.seek(Part::elbow, line), shortest(line.material, line.size)};
}

/// A point of the row: u along the bank, distance out from v = 0, height.
Vec point(const DrainRow& row, double u, double out, double height) {
    return row.bank->place({u, row.side == 0 ? out : -out, height});
}
double u_of(const DrainRow& row, Vec at) {
    return shape::dot(at - row.bank->place.origin, row.bank->place.turn({1, 0, 0}));
}
double out_of(const DrainRow& row, Vec at) { return shape::dot(at - row.bank->place.origin, row.out); }

PortRef port_of(const Builder& b, const Standing& at) {
    return b.port(fmt::format("heater-{}", at.stand->number), "condensate");
}

shape::Box trap_box(const DrainRow& row, const Parts& parts, const DrainPlan& plan, double u) {
    const double r = parts.trap->outside.value() / 2;
    const Vec middle = point(row, u, plan.trap_out, plan.height);
    return shape::bounds(shape::Cylinder{middle - Vec{0, 0, r / 2}, middle + Vec{0, 0, parts.trap->run.value()}, r});
}
shape::Box arm_box(const DrainRow& row, const Parts& parts, const DrainPlan& plan, double u) {
    return shape::bounds(shape::Cylinder{point(row, u, plan.trap_out, plan.height),
                                         point(row, u, plan.header_out, plan.height), parts.tee->outside.value() / 2});
}

struct Station {
    double u = 0;
    PortRef from;
    int heater = 0;  ///< 0 for a common vent's drain
};

bool meets(const std::vector<KeepOff>& rooms, const shape::Box& box) {
    return std::ranges::any_of(rooms, [&](const KeepOff& room) { return shape::overlap(room.box, box); });
}

/// A free place for a vent's trap near its low end, clear of the other stations.
std::optional<double> place_of_vent(const Builder& b, const DrainRow& row, const Parts& parts, const DrainSizes& sizes,
                                    const DrainPlan& plan, double wanted, const std::vector<Station>& stations) {
    const double apart = std::max(2 * parts.tee->run.value() + shortest(Material::pvc_drain, sizes.header),
                                  parts.trap->outside.value() + grid);
    const auto reliefs = relief_rooms(b);
    for (int k = 0; k <= 30; ++k) {
        for (const double sign : {1.0, -1.0}) {
            const double u = snap(wanted + sign * k * inch_m);
            const bool clear =
                std::ranges::all_of(stations, [&](const Station& s) { return std::abs(s.u - u) >= apart - tolerance; });
            if (!clear) continue;
            const auto trap = trap_box(row, parts, plan, u), arm = arm_box(row, parts, plan, u);
            if (b.space.in_room(trap) && !b.space.taken(trap) && !b.space.taken(arm) && !meets(reliefs, trap) &&
                !meets(reliefs, arm))
                return u;
        }
    }
    return std::nullopt;
}

/// Heaters' and vents' places along the header, the farthest from the drain first.
std::vector<Station> stations_of(Builder& b, const DrainRow& row, const Parts& parts, const DrainSizes& sizes,
                                 const DrainPlan& plan) {
    std::vector<Station> stations;
    for (const auto& at : row.heaters) {
        const PortRef port = port_of(b, at);
        stations.push_back({snap(u_of(row, b.at(port).at)), port, at.stand->number});
    }
    for (const PortRef vent : row.vents) {
        const auto u = place_of_vent(b, row, parts, sizes, plan, u_of(row, b.at(vent).at), stations);
        if (!u) {
            b.give_up(row.name + ": no free place below the common vent's low end for the trap of its drain",
                      "a layout with more room at the end of the row");
            return {};
        }
        stations.push_back({*u, vent, 0});
    }
    const Vec u_axis = row.bank->place.turn({1, 0, 0});
    const double sign = shape::dot(u_axis, row.along) > 0 ? 1 : -1;
    std::ranges::sort(stations, {}, [&](const Station& s) { return sign * s.u; });
    return stations;
}

/// A trap whose outlet stands on the room's grid: its inlet's socket takes up what a heater's own port is off it.
PortRef trap(Builder& b, const Line& line, PortRef open, const Item& item, Vec middle, Vec back) {
    const Port in = b.at(open);
    const Vec outlet = middle + item.stem.value() * back;
    const double r = item.outside.value() / 2;
    Piece piece = bare(b, line, item, "trap");
    piece.bore = b.bore(line);
    piece.ports = {{"a", in.at, -in.facing, in.size, Service::condensate},
                   {"b", outlet, back, item.branch.value_or(in.size), Service::condensate}};
    piece.solids = {shape::Cylinder{in.at, middle - Vec{0, 0, r / 2}, r}, shape::Cylinder{middle, outlet, r / 3}};
    const int index = b.add(std::move(piece));
    b.join(open, {index, 0}, JointKind::threaded);
    return {index, 1};
}

/// From the heater's port to the trap's inlet, or to the tee where the heater traps its condensate itself.
void drain_heater(Builder& b, const DrainRow& row, const Parts& parts, const DrainSizes& sizes, const DrainPlan& plan,
                  const Station& station, PortRef branch) {
    const Line line =
        branch_line(sizes, fmt::format("heater-{}.condensate", station.heater), station.heater, row.bank->number);
    const Port port = b.at(station.from);
    const double shift = snap(plan.trap_out - out_of(row, port.at));
    const double drop = parts.least + parts.elbow->run.value();
    const Vec low = port.at - Vec{0, 0, drop}, over = low + shift * row.out;
    if (b.heater.condensate_trap_built_in) {
        Vec foot = over;
        foot.z = b.at(branch).at.z;
        b.run_to(line, station.from, std::vector<Vec>{low, over, foot}, branch);
        return;
    }
    const double fall = snap(over.z - plan.height - parts.trap->run.value());
    const PortRef open = b.run(line, station.from, {low, over, over - Vec{0, 0, fall}});
    if (!b.ok()) return;
    b.close(line, trap(b, line, open, *parts.trap, point(row, station.u, plan.trap_out, plan.height), -row.out),
            branch);
}

void drain_vent(Builder& b, const DrainRow& row, const Parts& parts, const DrainSizes& sizes, const DrainPlan& plan,
                const Station& station, PortRef branch) {
    const std::string& vent = b.built.plant.pieces[static_cast<std::size_t>(station.from.piece)].id;
    const Line line = branch_line(sizes, vent.substr(0, vent.find('.')) + ".drain", 0, row.bank->number);
    const Port port = b.at(station.from);
    const Vec middle = point(row, station.u, plan.trap_out, plan.height);
    RouteRequest ask{.from = port.at,
                     .from_facing = port.facing,
                     .to = on_grid_from(port.at, middle + Vec{0, 0, parts.trap->run.value()}, {}),
                     .to_facing = shape::up};
    ask.radius = parts.elbow->outside.value() / 2;
    ask.clearance = grid;
    ask.turn = parts.elbow->run.value();
    ask.least = ask.first = ask.last = parts.least;
    ask.from_owner = station.from.piece;
    ask.highest = port.at.z;
    ask.keep_off = relief_rooms(b);
    const auto corners = find_route_off_grid(b.space, ask);
    if (!corners) return b.give_up(line.name + ": " + corners.error().what, corners.error().expected);
    const PortRef open = b.run(line, station.from, *corners);
    if (!b.ok()) return;
    b.close(line, trap(b, line, open, *parts.trap, middle, -row.out), branch);
}

/// Whether a row's header and traps find room, and as much above the header as its fall towards the drain lifts it:
/// the pipe down into each trap is cut so much shorter.
bool free_at(const Builder& b, const DrainRow& row, const Parts& parts, const DrainPlan& plan, double lifted) {
    double low = 1e9, high = -1e9;
    const double into_trap = std::max(parts.least, network::shortest_take_up) + lifted;
    for (const auto& at : row.heaters) {
        const PortRef port = port_of(b, at);
        const double u = u_of(row, b.at(port).at);
        low = std::min(low, u), high = std::max(high, u);
        // down, over, and down again into the trap
        const double down = b.heater.condensate_trap_built_in ? 2 * (parts.least + parts.elbow->run.value())
                                                              : parts.least + into_trap + 2 * parts.elbow->run.value();
        if (b.at(port).at.z - down < plan.height + parts.trap->run.value() - tolerance) return false;
        if (b.space.taken(trap_box(row, parts, plan, u)) || b.space.taken(arm_box(row, parts, plan, u))) return false;
        const Vec top = point(row, u, plan.trap_out, b.at(port).at.z - parts.least);
        const Vec foot = point(row, u, plan.trap_out, plan.height + parts.trap->run.value());
        if (b.space.taken(shape::bounds(shape::Cylinder{foot, top, parts.elbow->outside.value() / 2}))) return false;
    }
    const double end = parts.tee->run.value() + 2 * inch_m;
    auto header = shape::bounds(shape::Cylinder{point(row, low - end, plan.header_out, plan.height),
                                                point(row, high + end, plan.header_out, plan.height),
                                                parts.tee->outside.value() / 2});
    header.max.z += lifted;
    return b.space.in_room(header) && !b.space.taken(header);
}

}  // namespace

Result<DrainPlan> plan_row(const Builder& b, const DrainRow& row, const DrainSizes& sizes, double least, Vec drain) {
    const Parts parts = parts_of(b, row, sizes);
    if (!parts.trap || !parts.tee || !parts.elbow)
        return fail(fmt::format("{}: the catalogue lacks a trap, a tee or an elbow of {} in drain pipe", row.name,
                                units::print(sizes.branch)),
                    "rows for them");
    if (port_of(b, row.heaters.front()) == nowhere)
        return fail(fmt::format("{}: {} has no condensate port", row.name, b.heater.key), "one in its catalogue row");
    const double port_out = out_of(row, b.at(port_of(b, row.heaters.front())).at);
    const double front = row.bank->depth_front - parts.trap->outside.value() / 2 - 2 * grid;
    const double nearest = port_out + 2 * parts.elbow->run.value() + parts.least;
    const double usual = snap(row.bank->bottom - row.bank->section.condensate);
    const auto free_line = [&](double height, double lifted) -> std::optional<DrainPlan> {
        for (double out = std::floor(front / grid) * grid; out >= nearest - tolerance; out -= inch_m / 2) {
            DrainPlan plan{.trap_out = out, .height = height};
            plan.header_out = snap(out - parts.trap->stem.value() - parts.least - parts.tee->stem.value());
            if (free_at(b, row, parts, plan, lifted)) return plan;
        }
        return std::nullopt;
    };
    // an inch or two either way first; higher still, up to the traps' own reach, for the drain's sake
    const Vec far = row.bank->place({row.bank->length / 2, 0, 0}) - row.bank->length / 2 * row.along;
    const double way = std::abs(far.x - drain.x) + std::abs(far.y - drain.y), lift = way / 48;
    for (const auto& [at_least, lifted] : {std::pair{least, lift}, {least, 0.0}, {0.0, lift}, {0.0, 0.0}})
        for (const double higher : {0.0, 1.0,  2.0,  -1.0, 3.0,  4.0,  -2.0, 5.0,  6.0,  7.0,  8.0,
                                    9.0, 10.0, 12.0, 14.0, -3.0, -4.0, -5.0, -6.0, -8.0, -10.0})
            if (const double height = usual + higher * inch_m; height >= at_least - tolerance)
                if (auto plan = free_line(height, lifted)) return *plan;
    return fail(fmt::format("{}: no free line for the condensate header and its traps under the heaters", row.name),
                "heaters hung higher, or smaller headers");
}

PortRef lay_row(Builder& b, const DrainRow& row, const DrainSizes& sizes, const DrainPlan& plan) {
    const Parts parts = parts_of(b, row, sizes);
    const Line line = header_line(sizes, row);
    const auto stations = stations_of(b, row, parts, sizes, plan);
    PortRef open = nowhere;
    // vents wait until the heaters' own drains stand: theirs go straight down, the vents' find a way round them
    std::vector<std::pair<const Station*, PortRef>> vents;
    for (const auto& station : stations) {
        if (!b.ok()) return nowhere;
        const Vec middle = point(row, station.u, plan.header_out, plan.height);
        PortRef branch;
        if (open == nowhere) {
            const auto tee = b.free_tee(line, middle, row.along, row.out, sizes.branch);
            if (!b.ok()) return nowhere;
            b.cap(line, b.nipple(line, tee.back), "cap");
            open = tee.on;
            branch = tee.branch;
        } else {
            const double gap = shape::dot(middle - b.at(open).at, row.along) - parts.tee->run.value();
            const Fork fork = b.tee(line, b.pipe(line, open, gap), row.out, sizes.branch);
            if (!b.ok()) return nowhere;
            open = fork.on;
            branch = fork.branch;
        }
        if (station.heater > 0)
            drain_heater(b, row, parts, sizes, plan, station, branch);
        else
            vents.emplace_back(&station, branch);
    }
    for (const auto& [station, branch] : vents)
        if (b.ok()) drain_vent(b, row, parts, sizes, plan, *station, branch);
    return open;
}

}  // namespace bw::piping
