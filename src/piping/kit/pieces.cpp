// SPDX-License-Identifier: MIT
// Single pieces: what a row of the catalogue becomes when it is set on an open port.

#include <fmt/format.h>

#include "piping/kit/builder.h"
#include "text/material.h"
#include "text/spoken.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

using units::pi;
constexpr double tolerance = 1e-7;  // metres: rounding of coordinates

bool carries_water(Service service) {
    return service == Service::cold || service == Service::hot || service == Service::recirculation;
}

bool is_vent(Material material) { return text::family(material) == text::Family::vent; }

Part vent_kind(Part part, Material material) {
    if (!is_vent(material)) return part;
    if (part == Part::elbow) return Part::vent_elbow;
    if (part == Part::tee) return Part::vent_tee;
    return part;
}

}  // namespace

PortRef Builder::attach(const Line& line, PortRef from, const Item* item, std::string_view name, Vec side) {
    if (!ok() || from == nowhere || !item) return nowhere;
    const Port open_end = at(from);
    const double run = item->run.value();
    const Vec ahead = open_end.facing, middle = open_end.at + run * ahead, far = open_end.at + (2 * run) * ahead;
    Piece piece = blank(line, item->part, item, name);
    const bool changes = item->part == Part::reducer || item->part == Part::adapter || item->part == Part::vent_adapter;
    Nominal far_size = open_end.size;
    if (changes && item->branch && item->size) far_size = open_end.size == *item->size ? *item->branch : *item->size;
    piece.size = open_end.size;
    piece.ports = {{"a", open_end.at, -ahead, open_end.size, line.service}, {"b", far, ahead, far_size, line.service}};
    const double radius = item->outside.value() / 2;
    piece.solids.push_back(shape::Cylinder{open_end.at, far, radius});
    if (shape::length(side) > 0.5) {
        const double stem = item->stem.value() > 0 ? item->stem.value() : snap_up(radius);
        const Vec outlet = middle + stem * side;
        piece.ports.push_back({item->part == Part::service_valve_hot ? "relief" : "branch", outlet, side,
                               item->branch.value_or(open_end.size), line.service});
        piece.solids.push_back(shape::Cylinder{middle, outlet, radius * 0.7});
    }
    if (carries_water(line.service)) piece.water = pi / 4 * piece.bore * piece.bore * 2 * run;
    const int index = add(std::move(piece));
    join(from, {index, 0}, joint_of(line.material, open_end.size));
    return {index, 1};
}

PortRef Builder::fit(const Line& line, PortRef from, const Item* item, std::string_view name, Vec side, bool last) {
    if (!ok() || from == nowhere || !item) return nowhere;
    if (!on_pipe(from)) from = nipple(line, from);
    const Item* adapter = adapter_for(line, item);
    if (adapter) from = attach(line, from, adapter);
    from = attach(line, from, item, name, side);
    return adapter && !last ? attach(line, from, adapter) : from;
}

int Builder::end(const Line& line, PortRef from, const Item* item, std::string_view name) {
    if (!ok() || from == nowhere || !item) return -1;
    const Port open_end = at(from);
    Piece piece = blank(line, item->part, item, name);
    piece.size = open_end.size;
    piece.ports = {{"a", open_end.at, -open_end.facing, open_end.size, line.service}};
    const double length =
        std::max({2 * item->run.value(), item->number("length").value_or(0), item->number("height").value_or(0)});
    piece.solids.push_back(shape::Cylinder{open_end.at, open_end.at + std::max(length, grid) * open_end.facing,
                                           item->outside.value() / 2});
    if (carries_water(line.service)) piece.water = item->number("volume").value_or(0);
    const int index = add(std::move(piece));
    join(from, {index, 0}, joint_of(line.material, open_end.size));
    return index;
}

void Builder::cap(const Line& line, PortRef from, std::string_view name) {
    if (!ok() || from == nowhere) return;
    Line here = line;
    here.size = at(from).size;
    end(here, from, item(Part::cap, here), name);
}

PortRef Builder::elbow(const Line& line, PortRef from, Vec toward, std::string_view name) {
    if (!ok() || from == nowhere) return nowhere;
    const Item* row = item(vent_kind(Part::elbow, line.material), line);
    if (!row) return nowhere;
    const Port open_end = at(from);
    const double leg = row->run.value(), radius = row->outside.value() / 2;
    const Vec corner = open_end.at + leg * open_end.facing, far = corner + leg * toward;
    Piece piece = blank(line, row->part, row, name);
    piece.ports = {{"a", open_end.at, -open_end.facing, line.size, line.service},
                   {"b", far, toward, line.size, line.service}};
    piece.solids = {shape::Cylinder{open_end.at, corner, radius}, shape::Cylinder{corner, far, radius}};
    if (carries_water(line.service)) piece.water = pi / 4 * piece.bore * piece.bore * 2 * leg;
    const int index = add(std::move(piece));
    join(from, {index, 0}, joint_of(line.material, line.size));
    return {index, 1};
}

const Item* Builder::seek_tee(const Line& line, Nominal outlet) const {
    for (int eighths = outlet.eighths; eighths <= line.size.eighths; ++eighths)
        if (const Item* row = seek(vent_kind(Part::tee, line.material), line, Nominal{eighths})) return row;
    return nullptr;
}

Builder::Free Builder::free_tee(const Line& line, Vec middle, Vec along, Vec branch_facing, Nominal wanted,
                                std::string_view name) {
    const Free none{nowhere, nowhere, nowhere};
    if (!ok()) return none;
    const Item* row = seek_tee(line, wanted);
    if (!row) {
        (void)item(vent_kind(Part::tee, line.material), line, wanted);
        return none;
    }
    const double run = row->run.value(), radius = row->outside.value() / 2;
    // the outlet's leg is no thicker than its share of the body
    const double stem_radius =
        radius * row->branch.value_or(line.size).eighths / std::max(1, line.size.eighths) + 3 * grid;
    const Vec near = middle - run * along, far = middle + run * along;
    const Nominal outlet_size = row->branch.value_or(line.size);
    const Vec outlet = middle + row->stem.value() * branch_facing;
    Piece piece = blank(line, row->part, row, name);
    piece.ports = {{"a", near, -along, line.size, line.service},
                   {"b", far, along, line.size, line.service},
                   {"branch", outlet, branch_facing, outlet_size, line.service}};
    piece.solids = {shape::Cylinder{near, far, radius}, shape::Cylinder{middle, outlet, std::min(radius, stem_radius)}};
    if (carries_water(line.service)) piece.water = pi / 4 * piece.bore * piece.bore * 2 * run;
    const int index = add(std::move(piece));
    Free made{{index, 0}, {index, 1}, {index, 2}};
    if (outlet_size != wanted) {
        Line smaller = line;
        smaller.size = outlet_size;
        made.branch = reduce(smaller, nipple(smaller, made.branch), wanted);
    }
    return made;
}

Fork Builder::tee(const Line& line, PortRef from, Vec branch_facing, std::optional<Nominal> branch,
                  std::string_view name) {
    if (!ok() || from == nowhere) return {nowhere, nowhere};
    const Nominal wanted = branch.value_or(line.size);
    const Item* row = seek_tee(line, wanted);
    const Port open_end = at(from);
    const Vec middle = open_end.at + (row ? row->run.value() : 0) * open_end.facing;
    const Free made = free_tee(line, middle, open_end.facing, branch_facing, wanted, name);
    if (made.back == nowhere) return {nowhere, nowhere};
    join(from, made.back, joint_of(line.material, line.size));
    return {made.on, made.branch};
}

Fork Builder::tee_by_branch(const Line& line, PortRef from, Vec along, std::string_view name) {
    if (!ok() || from == nowhere) return {nowhere, nowhere};
    const Item* row = item(vent_kind(Part::tee, line.material), line, line.size);
    if (!row) return {nowhere, nowhere};
    const Port open_end = at(from);
    const double run = row->run.value(), radius = row->outside.value() / 2;
    const Vec middle = open_end.at + row->stem.value() * open_end.facing;
    const Vec on = middle + run * along, other = middle - run * along;
    Piece piece = blank(line, row->part, row, name);
    piece.ports = {{"a", on, along, line.size, line.service},
                   {"b", other, -along, line.size, line.service},
                   {"branch", open_end.at, -open_end.facing, line.size, line.service}};
    piece.solids = {shape::Cylinder{on, other, radius}, shape::Cylinder{open_end.at, middle, radius}};
    if (carries_water(line.service)) piece.water = pi / 4 * piece.bore * piece.bore * 2 * run;
    const int index = add(std::move(piece));
    join(from, {index, 2}, joint_of(line.material, line.size));
    return {{index, 0}, {index, 1}};
}

const Item* Builder::reducer_towards(const Line& line, Nominal to) const {
    const bool down = line.size > to;
    for (int eighths = to.eighths; eighths != line.size.eighths; eighths += down ? 1 : -1) {
        Line large = line;
        large.size = down ? line.size : Nominal{eighths};
        if (const Item* row = seek(Part::reducer, large, down ? Nominal{eighths} : line.size)) return row;
    }
    return nullptr;
}

double Builder::reducing(const Line& line, Nominal to) const {
    double length = 0;
    Line here = line;
    while (here.size != to) {
        const Item* row = reducer_towards(here, to);
        if (!row) return length;
        length += shortest(here.material, here.size) + 2 * row->run.value();
        here.size = here.size > to ? row->branch.value_or(to) : row->size.value_or(to);
    }
    return length + shortest(here.material, here.size);
}

PortRef Builder::reduce(const Line& line, PortRef from, Nominal to) {
    if (!ok() || from == nowhere) return nowhere;
    Line here = line;
    here.size = at(from).size;
    while (ok() && here.size != to) {
        const Item* row = reducer_towards(here, to);
        if (!row) {
            Line large = line;
            large.size = std::max(here.size, to);
            (void)item(Part::reducer, large, std::min(here.size, to));
            return nowhere;
        }
        from = fit(here, from, row);
        if (from == nowhere) return nowhere;
        here.size = at(from).size;
    }
    return from;
}

PortRef Builder::lengthen(const Line& line, PortRef from, double by) {
    Piece& piece = built.plant.pieces[static_cast<std::size_t>(from.piece)];
    Port& end_port = piece.ports[static_cast<std::size_t>(from.port)];
    const Vec start = end_port.at;
    end_port.at = start + by * end_port.facing;
    const auto* row = catalogue.pipe(line.material, line.size);
    auto& bar = std::get<shape::Cylinder>(piece.solids.front());
    (shape::distance(bar.b, start) < tolerance ? bar.b : bar.a) = end_port.at;
    piece.cut = snap(piece.cut + by);
    piece.mass_dry += row->mass.value() * by;
    if (carries_water(line.service)) piece.water += pi / 4 * piece.bore * piece.bore * by;
    space.take(shape::bounds(shape::Cylinder{start, end_port.at, bar.radius}), from.piece);
    return from;
}

PortRef Builder::lay(const Line& line, PortRef from, double length, std::string_view name) {
    const auto* row = catalogue.pipe(line.material, line.size);
    const Port open_end = at(from);
    const Vec far = open_end.at + length * open_end.facing;
    Piece piece = blank(line, pipe_part(line), nullptr, name);
    piece.item = row->key;
    piece.cut = snap(length);
    piece.mass_dry = row->mass.value() * length;
    piece.ports = {{"a", open_end.at, -open_end.facing, line.size, line.service},
                   {"b", far, open_end.facing, line.size, line.service}};
    piece.solids = {shape::Cylinder{open_end.at, far, row->outside.value() / 2}};
    if (carries_water(line.service)) piece.water = pi / 4 * piece.bore * piece.bore * length;
    const int index = add(std::move(piece));
    join(from, {index, 0}, joint_of(line.material, line.size));
    return {index, 1};
}

PortRef Builder::pipe(const Line& line, PortRef from, double length, std::string_view name) {
    if (!ok() || from == nowhere) return nowhere;
    const auto* row = catalogue.pipe(line.material, line.size);
    if (!row) {
        give_up(fmt::format("{}: the catalogue has no {} pipe of {} in", line.name, text::spoken(line.material),
                            units::print(line.size)),
                "a row for it under pipe, or another material in the survey's preferences");
        return nowhere;
    }
    const double least = shortest(line.material, line.size), stock = row->stock.value();
    const bool longer = on_pipe(from) && at(from).size == line.size;
    if (length < (longer ? -tolerance : least - tolerance)) {
        give_up(fmt::format("{}: {:.2f} in of pipe is wanted between two fittings", line.name, length / inch_m),
                fmt::format("at least {:.2f} in, so that it can be made up", least / inch_m));
        return nowhere;
    }
    const double already = longer ? built.plant.pieces[static_cast<std::size_t>(from.piece)].cut : 0;
    if (already + length <= stock + tolerance)
        return longer ? lengthen(line, from, length) : lay(line, from, length, name);
    const Item* joiner = item(Part::coupling, line);
    if (!joiner) return nowhere;
    if (longer) {  // the joint costs the coupling's gap
        from = attach(line, from, joiner);
        length -= 2 * joiner->run.value();
    }
    const double piece_length = std::floor(stock / grid + 0.5) * grid;
    while (ok() && length > piece_length + tolerance) {
        const double rest = length - piece_length - 2 * joiner->run.value();
        const double now = rest < least ? piece_length - snap_up(least - rest) : piece_length;
        from = attach(line, lay(line, from, now, name), joiner);
        length -= now + 2 * joiner->run.value();
    }
    return lay(line, from, snap(length), {});
}

}  // namespace bw::piping
