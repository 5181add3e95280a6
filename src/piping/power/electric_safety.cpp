// SPDX-License-Identifier: MIT
// Link chain, bond of the gas pipe, carbon monoxide alarm.

#include <fmt/format.h>

#include <cmath>

#include "piping/power/electric.h"
#include "piping/vent/vent.h"
#include "reason/register/register.h"

namespace bw::piping {
namespace {

constexpr double slack = 6 * inch_m;  // of a link cable, for its drip loop

double along_axes(Vec a, Vec c) { return std::abs(a.x - c.x) + std::abs(a.y - c.y) + std::abs(a.z - c.z); }

void plug(Builder& b, const Line& line, PortRef port) {
    if (port != nowhere) b.end(line, port, b.item(Part::link_plug, line));
}

const Item* link_for(const Builder& b, double length) {
    const Item* best = nullptr;
    for (const Item* row : b.catalogue.of(Part::link_cable)) {
        const double reach = row->number("length").value_or(0);
        if (reach >= length && (!best || reach < best->number("length").value_or(0))) best = row;
    }
    return best;
}

void too_far(Builder& b, int heater, double length) {
    auto check = reason::new_check(
        "electric.link.heater-<n>",
        {{.clause = "longest link cable of the catalogue", .standing = reason::Standing::maker}}, {{"n", heater}});
    check.status = reason::Status::fail;
    check.says =
        fmt::format("{:.0f} ft of link cable are needed and the catalogue has none as long; the chain is parted here.",
                    length / 0.3048);
    check.pieces = {fmt::format("heater-{}", heater)};
    b.finding(std::move(check));
}

/// Beside a heater, in the gap to its neighbour, at a height: where a cable rises to the ceiling.
Vec beside(const Builder& b, int heater, double height) {
    for (const auto& at : standings(b.layout)) {
        if (at.stand->number != heater) continue;
        const int piece = b.built.plant.find(fmt::format("heater-{}", heater));
        const auto box = shape::bounds(b.built.plant.pieces[static_cast<std::size_t>(piece)].solids.front());
        const Vec u = at.bank->place.turn({1, 0, 0}), middle = 0.5 * (box.min + box.max);
        const double half = b.heater.width.value() / 2 + std::min(b.heater.gap_side.value() / 2, 1.25 * inch_m);
        Vec place = middle + half * u;
        place.z = height;
        return place;
    }
    return {};
}

/// The way of a cable from port to port: under the heaters along a bank, under the ceiling from bank to bank, where
/// nobody walks into it.
std::vector<Vec> link_way(const Builder& b, const Port& a, const Port& c, int heater, bool across) {
    const double drop = 2 * inch_m;
    const Vec low_a = a.at + drop * a.facing, low_c = c.at + drop * c.facing;
    if (!across) return {a.at, low_a, {low_c.x, low_a.y, low_a.z}, low_c, c.at};
    const auto high = lane(b, 0);
    const auto up = [&](double x, double y) { return Vec{x, y, high.at(x, y)}; };
    const Vec up_a = beside(b, heater, low_a.z), up_c = beside(b, heater + 1, low_c.z);
    return {a.at, low_a, up_a, up(up_a.x, up_a.y), up(up_c.x, up_a.y), up(up_c.x, up_c.y), up_c, low_c, c.at};
}

/// One cable between two heaters; false where none is long enough.
bool link(Builder& b, const Line& line, PortRef out, PortRef in, bool across) {
    const Port a = b.at(out), c = b.at(in);
    const auto way = link_way(b, a, c, line.heater, across);
    double length = slack;
    for (std::size_t i = 0; i + 1 < way.size(); ++i) length += along_axes(way[i], way[i + 1]);
    const Item* row = link_for(b, length);
    if (!row) {
        too_far(b, line.heater, length);
        return false;
    }
    Piece piece = bare(b, line, *row, "cable");
    piece.ports = {{"a", a.at, -a.facing, a.size, a.service}, {"b", c.at, -c.facing, c.size, c.service}};
    const double radius = std::max(row->outside.value() / 2, grid);
    for (std::size_t i = 0; i + 1 < way.size(); ++i)
        if (shape::distance(way[i], way[i + 1]) > 1e-6)
            piece.solids.push_back(shape::Cylinder{way[i], way[i + 1], radius});
    const int index = b.add(std::move(piece));
    b.join(out, {index, 0}, JointKind::wired);
    b.join({index, 1}, in, JointKind::wired);
    return true;
}

/// The pipe nearest to where the building's gas comes in.
std::optional<int> first_gas_pipe(const Builder& b) {
    const auto& pieces = b.built.plant.pieces;
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (pieces[i].part == Part::pipe && pieces[i].service == Service::gas && pieces[i].heater == 0 &&
            pieces[i].cut >= 3 * inch_m && pieces[i].id.starts_with("main."))
            return static_cast<int>(i);
    for (std::size_t i = 0; i < pieces.size(); ++i)
        if (pieces[i].part == Part::pipe && pieces[i].service == Service::gas) return static_cast<int>(i);
    return std::nullopt;
}

const Item* variant(const Builder& b, Part part, std::string_view with, std::optional<Nominal> size) {
    for (const Item* row : b.catalogue.of(part))
        if (row->key.find(with) != std::string::npos && (!size || row->size == size)) return row;
    return nullptr;
}

}  // namespace

void lay_links(Builder& b) {
    const auto stands = standings(b.layout);
    const auto groups = catalogue::linked_groups(b.heater, static_cast<int>(stands.size()));
    std::size_t group = 0;
    int linked = 0;
    PortRef open = nowhere;
    for (std::size_t i = 0; i < stands.size() && b.ok(); ++i) {
        const int number = stands[i].stand->number;
        const Line line{.service = Service::link,
                        .material = Material::cable,
                        .name = fmt::format("heater-{}.link", number),
                        .heater = number,
                        .bank = stands[i].bank->number};
        const PortRef in = b.port(fmt::format("heater-{}", number), "link-in");
        if (in == nowhere) return;
        Line before = line;
        if (i > 0)
            before.heater = stands[i - 1].stand->number, before.name = fmt::format("heater-{}.link", before.heater);
        const bool joined = open != nowhere && linked < groups[group] &&
                            link(b, before, open, in, stands[i].bank != stands[i - 1].bank);
        if (!joined) {
            plug(b, before, open);
            plug(b, line, in);
            group += i > 0 && linked == groups[group] ? 1 : 0;
        }
        linked = joined ? linked + 1 : 1;
        open = b.port(fmt::format("heater-{}", number), "link-out");
        if (i + 1 == stands.size()) plug(b, line, open);
    }
}

void lay_bond(Builder& b) {
    const auto pipe = first_gas_pipe(b);
    if (!b.ok() || !pipe) return;
    const Piece& gas = b.built.plant.pieces[static_cast<std::size_t>(*pipe)];
    const Line line{.service = Service::gas, .size = gas.size, .name = "main.gas.bond"};
    const Item *clamp = variant(b, Part::bond, "clamp", gas.size), *jumper = variant(b, Part::bond, "jumper", {});
    if (!clamp || !jumper) {
        return b.give_up(
            fmt::format("gas bond: the catalogue has no clamp of {} in or no jumper", units::print(gas.size)),
            "rows `bond` for them");
    }
    const Vec middle = 0.5 * (gas.ports[0].at + gas.ports[1].at), along = gas.ports[0].facing;
    const Vec side = std::abs(along.z) > 0.5 ? Vec{1, 0, 0} : shape::down;
    const double radius = clamp->outside.value() / 2;
    const Vec face = middle + radius * side, lug = face + inch_m * side;
    const PortRef on_pipe = b.tap(*pipe, {"bond", face, side, {}, Service::power});
    Piece held = bare(b, line, *clamp, "clamp");
    held.service = Service::power;
    held.ports = {{"a", face, -side, {}, Service::power}, {"lug", lug, side, {}, Service::power}};
    held.solids = {shape::Cylinder{face, lug, inch_m / 2}};
    const int held_at = b.add(std::move(held));
    b.join(on_pipe, {held_at, 0}, JointKind::bolted);
    Piece wire = bare(b, line, *jumper, "jumper");
    wire.service = Service::power;
    const Vec end = lug + 2 * inch_m * side;
    wire.ports = {{"a", lug, -side, {}, Service::power}, {"b", end, side, {}, Service::power}};
    wire.solids = {shape::Cylinder{lug, end, jumper->outside.value() / 2}};
    const int wire_at = b.add(std::move(wire));
    b.join({held_at, 1}, {wire_at, 0}, JointKind::bolted);
    b.join({wire_at, 1}, b.site("site.earth", Service::power, end, -side, {}), JointKind::bolted);
}

void lay_co_alarm(Builder& b, const AtDoor& door) {
    if (!b.ok() || !b.ground.co_alarm) return;
    const Line line{.service = Service::power, .material = Material::cable, .name = "room"};
    const Item* row = b.item(Part::co_alarm, line);
    if (!row) return;
    // by the door, above the emergency stop, where whoever opens the door sees it first
    const Vec at = door.at + alarm_above * shape::up, face = at + 2 * inch_m * door.facing;
    Piece piece = bare(b, line, *row, "co-alarm");
    piece.ports = {{"wall", at, -door.facing, {}, Service::power}};
    piece.solids = {shape::Cylinder{at, face, row->outside.value() / 2}};
    const int index = b.add(std::move(piece));
    b.join({index, 0}, b.site("site.co-alarm", Service::power, at, door.facing, {}), JointKind::bolted);
}

}  // namespace bw::piping
