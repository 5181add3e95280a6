// SPDX-License-Identifier: MIT
#include "piping/power/electric.h"
#include "reason/document.h"

#include <fmt/format.h>

#include <cmath>

namespace bw::piping {
namespace {

constexpr double lead = 2 * inch_m;  // a cable leaves panel and stop this far before it turns

/// The panel as the building's boundary: one port a circuit, an inch above one another.
int panel(Builder& b, int circuits) {
    const auto& place = b.ground.room.panel;
    Piece piece;
    piece.id = "site.panel";
    piece.part = Part::connection;
    piece.service = Service::power;
    for (int i = 0; i < circuits; ++i)
        piece.ports.push_back({i == 0 ? "a" : fmt::format("circuit-{}", i + 1),
                               place.at + Vec{0, 0, i * inch_m},
                               place.facing,
                               {},
                               Service::power});
    return b.add(std::move(piece));
}

/// A breaker in a slot of the panel; its outgoing port.
PortRef breaker(Builder& b, const Item& row, PortRef place, int number) {
    const Line line{.service = Service::power, .name = fmt::format("circuit-{}", number)};
    const Port slot = b.at(place);
    const double deep = 3 * inch_m;
    Piece piece = bare(b, line, row, "breaker");
    piece.ports = {{"a", slot.at, -slot.facing, {}, Service::power},
                   {"b", slot.at + deep * slot.facing, slot.facing, {}, Service::power}};
    piece.solids = {shape::Cylinder{slot.at, slot.at + deep * slot.facing, row.outside.value() / 2 - grid}};
    const int index = b.add(std::move(piece));
    b.join(place, {index, 0}, JointKind::wired);
    return {index, 1};
}

/// Those of the heaters' circuits; their outgoing ports.
std::vector<PortRef> breakers(Builder& b, const CircuitPlan& plan, int site) {
    std::vector<PortRef> feeds;
    for (int i = 0; i < static_cast<int>(plan.sizes.size()); ++i)
        feeds.push_back(breaker(b, *plan.breaker, {site, i}, i + 1));
    return feeds;
}

/// Where a condensate pump takes its power, or nowhere.
PortRef pump_power(const Builder& b) { return b.port("main.condensate.pump", "power"); }

/// The pump on a breaker of its own, which nothing else trips and no stop cuts.
void feed_pump(Builder& b, const CircuitPlan& plan, int site, int number) {
    const PortRef power = pump_power(b);
    const double drawn = b.catalogue.item(b.built.plant.pieces[static_cast<std::size_t>(power.piece)].item)
                             ->number("rating")
                             .value_or(0);
    for (const Item* row : b.catalogue.of(Part::panel_feed)) {
        if (continuous_share * row->number("rating").value_or(0) < drawn) continue;
        const PortRef feed = breaker(b, *row, {site, number - 1}, number);
        const Line line{.service = Service::power,
                        .material = Material::cable,
                        .size = plan.cable,
                        .name = fmt::format("circuit-{}", number)};
        return lay_cable(b, line, feed, power,
                         cable_way(b.ground.room, b.at(feed), lead, b.at(power), lead, lane(b, number)), "pump");
    }
    b.give_up("circuits: no breaker of the catalogue carries the condensate pump",
              "a panel-feed row of a higher rating");
}

/// The pump's overflow switch in series with the coil of the stop's contactor: an overfull tank cuts every heater.
void guard_pump(Builder& b, const Line& line, PortRef coil) {
    const PortRef alarm = b.port("main.condensate.overflow-switch", "alarm");
    Line own = line;
    own.name = "main.condensate.overflow-switch";
    lay_cable(b, own, alarm, coil, cable_way(b.ground.room, b.at(alarm), lead, b.at(coil), lead, lane(b, 0)), "cable");
}

/// One stop by the door with a pole for each circuit; the ports beyond it.
std::vector<PortRef> stop_all(Builder& b, const CircuitPlan& plan, const std::vector<PortRef>& feeds,
                              const AtDoor& place) {
    const Line line{
        .service = Service::power, .material = Material::cable, .size = plan.cable, .name = "emergency-stop"};
    const Item* row = b.item(Part::emergency_stop, line);
    if (!row) return {};
    const double half = row->outside.value() / 2, deep = 3 * inch_m;
    const Vec side = shape::cross(shape::up, place.facing);
    Piece piece = bare(b, line, *row, "button");
    piece.size = {};
    const Vec low = place.at - half * side - Vec{0, 0, half},
              high = place.at + half * side + Vec{0, 0, half} + deep * place.facing;
    piece.solids = {shape::box_of(low, high)};
    const auto count = static_cast<int>(feeds.size());
    for (int i = 0; i < count; ++i) {
        // both on top: what comes in at the left half, what goes on at the right
        const auto at = [&](double share) {
            return place.at + (share - 0.5) * 2 * half * side + Vec{0, 0, half} + (deep / 2) * place.facing;
        };
        const double share = (i + 0.5) / count / 2;
        piece.ports.push_back({fmt::format("in-{}", i + 1), at(share), shape::up, {}, Service::power});
        piece.ports.push_back({fmt::format("out-{}", i + 1), at(0.5 + share), shape::up, {}, Service::power});
    }
    const bool pumped = pump_power(b) != nowhere;
    if (pumped)
        piece.ports.push_back(
            {"coil", place.at + Vec{0, 0, half} + (deep / 2) * place.facing, shape::up, {}, Service::power});
    const int index = b.add(std::move(piece));
    if (pumped) guard_pump(b, line, {index, 2 * count});
    std::vector<PortRef> beyond;
    for (int i = 0; i < count; ++i) {
        Line feed = line;
        feed.name = fmt::format("circuit-{}", i + 1);
        const PortRef from = feeds[static_cast<std::size_t>(i)], to{index, 2 * i};
        lay_cable(b, feed, from, to, cable_way(b.ground.room, b.at(from), lead, b.at(to), lead, lane(b, i + 1)),
                  "feed");
        beyond.push_back({index, 2 * i + 1});
    }
    return beyond;
}

struct Switch {
    PortRef in, on, load;             ///< `on` leads to the next heater of the circuit; nowhere at the last
    double in_lead = 0, on_lead = 0;  ///< metres from the ports to the gaps beside the heater
};

/// Free place for a disconnect's box below a heater's power port, near its back; in the heater's own axes.
Vec free_place(const Builder& b, const Standing& at, Vec size) {
    const auto* power = b.heater.port("power");
    const auto box_at = [&](Vec middle) {
        const Vec half{size.x / 2, 0, size.z / 2}, deep{0, size.y, 0};
        return shape::box_of(heater_point(*at.bank, *at.stand, b.heater, middle - half),
                             heater_point(*at.bank, *at.stand, b.heater, middle + half + deep));
    };
    const double first = -b.heater.gap_bottom.value() - size.z / 2;
    for (const double across :
         {power->at.x + size.x / 4, b.heater.width.value() / 2, b.heater.width.value() - size.x / 2}) {
        for (int k = 0; k < 16; ++k) {
            const Vec middle{snap(across), 0, snap(first - k * inch_m)};
            if (!b.space.taken(box_at(middle))) return middle;
        }
    }
    return {snap(power->at.x + size.x / 4), 0, snap(first)};
}

Switch disconnect(Builder& b, const Line& line, const Standing& at, const Item& row, bool last) {
    const double wide = row.outside.value();
    const Vec size{wide, 2.5 * inch_m, wide};
    const Vec middle = free_place(b, at, size);
    const auto point = [&](Vec local) { return heater_point(*at.bank, *at.stand, b.heater, local); };
    const auto way = [&](Vec local) { return heater_direction(*at.bank, *at.stand, local); };
    const Vec face = middle + Vec{0, size.y / 2, 0};
    Piece piece = bare(b, line, row, "disconnect");
    piece.size = {};
    piece.ports = {{"in", point(face - Vec{wide / 2, 0, 0}), way({-1, 0, 0}), {}, Service::power},
                   {"load", point(face + Vec{0, 0, wide / 2}), shape::up, {}, Service::power}};
    if (!last) piece.ports.push_back({"on", point(face + Vec{wide / 2, 0, 0}), way({1, 0, 0}), {}, Service::power});
    piece.solids = {
        shape::box_of(point(middle - Vec{wide / 2, 0, wide / 2}), point(middle + Vec{wide / 2, size.y, wide / 2}))};
    const int index = b.add(std::move(piece));
    const double gap = b.heater.gap_side.value() / 2, half = wide / 2;
    return {{index, 0},
            last ? nowhere : PortRef{index, 2},
            {index, 1},
            middle.x - half + gap,
            b.heater.width.value() - middle.x - half + gap};
}

/// The whip from disconnect to heater: bought made up.
void whip(Builder& b, const Line& line, PortRef load) {
    const PortRef power = b.port(fmt::format("heater-{}", line.heater), "power");
    const Item* row =
        b.item(Part::cable, Line{.service = Service::power, .material = Material::strut, .name = line.name});
    if (!b.ok() || power == nowhere || load == nowhere) return;
    const Port a = b.at(load), c = b.at(power);
    const double reach = row->number("length").value_or(0), apart = shape::distance(a.at, c.at);
    if (apart > reach)
        return b.give_up(fmt::format("{}: the disconnect is {:.0f} in from the heater and the whip {:.0f} in long",
                                     line.name, apart / inch_m, reach / inch_m),
                         "a longer whip in the catalogue");
    Piece piece = bare(b, line, *row, "whip");
    piece.size = {};
    piece.ports = {{"a", a.at, -a.facing, {}, Service::power}, {"b", c.at, -c.facing, {}, Service::power}};
    const double radius = row->outside.value() / 2;
    const Vec high{a.at.x, a.at.y, c.at.z - inch_m}, aside{c.at.x, a.at.y, high.z}, below{c.at.x, c.at.y, high.z};
    for (const auto& [from, to] : {std::pair{a.at, high}, {high, aside}, {aside, below}, {below, c.at}})
        if (shape::distance(from, to) > 1e-6) piece.solids.push_back(shape::Cylinder{from, to, radius});
    const int index = b.add(std::move(piece));
    b.join(load, {index, 0}, JointKind::wired);
    b.join({index, 1}, power, JointKind::wired);
}

/// A disconnect big enough for the circuit.
const Item* disconnect_for(Builder& b, const Line& line, double rating) {
    for (const Item* row : b.catalogue.of(Part::disconnect))
        if (row->number("rating").value_or(0) >= rating) return row;
    b.give_up(fmt::format("{}: no disconnect of {:.0f} A in the catalogue", line.name, rating), "a row for it");
    return nullptr;
}

void circuit(Builder& b, const CircuitPlan& plan, int number, PortRef feed, std::span<const Standing> heaters) {
    Line line{.service = Service::power, .material = Material::cable, .size = plan.cable};
    PortRef open = feed;
    double open_lead = lead;
    for (std::size_t i = 0; i < heaters.size() && b.ok(); ++i) {
        const auto& at = heaters[i];
        Line own = line;
        own.heater = at.stand->number;
        own.bank = at.bank->number;
        own.name = fmt::format("heater-{}.power", own.heater);
        const Item* row = disconnect_for(b, own, plan.rating);
        if (!row) return;
        const Switch made = disconnect(b, own, at, *row, i + 1 == heaters.size());
        line.name = fmt::format("circuit-{}", number);
        if (!b.ok()) return;
        lay_cable(b, line, open, made.in,
                  cable_way(b.ground.room, b.at(open), open_lead, b.at(made.in), made.in_lead, lane(b, number)),
                  fmt::format("cable-{}", i + 1));
        whip(b, own, made.load);
        open = made.on;
        open_lead = made.on_lead;
    }
}

void record(Builder& b, const CircuitPlan& plan, int number, int heaters) {
    using units::Amount;
    using units::Kind;
    const int total = static_cast<int>(standings(b.layout).size());
    Sizing sizing;
    sizing.what = fmt::format("circuit {}", number);
    sizing.service = Service::power;
    sizing.material = Material::cable;
    sizing.size = plan.cable;
    sizing.derivation = {
        {.says = fmt::format("Load of {} heaters, running or kept from freezing, held to 80 % of a {:.0f} A breaker",
                             heaters, plan.rating),
         .formula = "I = n i <= 0.8 rating",
         .given = {{"n", "heaters on the circuit", units::count(heaters)},
                   {"i", "each, at most", Amount{plan.each, Kind::current}},
                   {"rating", "breaker", Amount{plan.rating, Kind::current}}},
         .result = reason::Term{"I", "load", Amount{heaters * plan.each, Kind::current}}},
        {.says = "When it trips the rest of the plant stays on",
         .formula = "rest = total - n",
         .given = {{"total", "heaters", units::count(total)}, {"n", "heaters on the circuit", units::count(heaters)}},
         .result = reason::Term{"rest", "heaters that stay", units::count(total - heaters)}}};
    sizing.sources = {reason::nec("210.20(A): continuous load"), reason::nec("240.4(D): small conductors")};
    b.built.sizes.push_back(std::move(sizing));
}

}  // namespace

void add_electrics(Builder& b) {
    if (!b.ok()) return;
    const auto stands = standings(b.layout);
    if (!b.ground.room.panel.given)
        return b.give_up("circuits: the survey names no electrical panel", "connections.panel");
    const auto plan = plan_circuits(b.catalogue, b.heater, static_cast<int>(stands.size()));
    if (!plan) return b.give_up(plan.error().what, plan.error().expected);
    const int circuits = static_cast<int>(plan->sizes.size());
    const bool pumped = pump_power(b) != nowhere;
    const int site = panel(b, circuits + (pumped ? 1 : 0));
    auto feeds = breakers(b, *plan, site);
    if (pumped) feed_pump(b, *plan, site, circuits + 1);
    const AtDoor door = beside_door(b.ground.room, b.space);
    if (b.ground.emergency_stop || pumped) feeds = stop_all(b, *plan, feeds, door);
    std::size_t next = 0;
    for (int i = 0; i < circuits && b.ok(); ++i) {
        const int heaters = plan->sizes[static_cast<std::size_t>(i)];
        circuit(b, *plan, i + 1, feeds[static_cast<std::size_t>(i)],
                std::span(stands).subspan(next, static_cast<std::size_t>(heaters)));
        record(b, *plan, i + 1, heaters);
        next += static_cast<std::size_t>(heaters);
    }
    lay_links(b);
    lay_bond(b);
    lay_co_alarm(b, door);
}

}  // namespace bw::piping
