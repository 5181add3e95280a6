// SPDX-License-Identifier: MIT
// A condensate pump where gravity does not reach the drain: its place, its overflow switch, its discharge.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "network/loop_pump.h"
#include "network/run/fall.h"
#include "piping/drain/drain.h"

namespace bw::piping {
namespace {

constexpr std::array<Vec, 4> ways{Vec{1, 0, 0}, Vec{-1, 0, 0}, Vec{0, 1, 0}, Vec{0, -1, 0}};
constexpr double spare_lift = 1.5 * 12 * inch_m;  ///< for friction and the rise of what falls back to the drain

Line discharge_line(const Item& pump) {
    return {.service = Service::condensate,
            .material = Material::pvc_drain,
            .size = *pump.branch,
            .name = "main.condensate.discharge"};
}

/// The cheapest pump that gives the flow at a lift.
const Item* pump_for(const Builder& b, units::VolumeFlow flow, double lift) {
    for (const Item* row : b.catalogue.of(Part::condensate_pump)) {
        const auto curve = network::pump_curve(*row);
        if (!curve.flow.empty() && flow <= curve.flow.back() && curve.at(flow).value() >= lift) return row;
    }
    return nullptr;
}

shape::Box body(const PumpStand& stand) {
    const double half = stand.item->outside.value() / 2;
    const Vec side = shape::cross(shape::up, stand.way);
    return shape::box_of(stand.at - half * stand.way - half * side + grid * shape::up,
                         stand.discharge() + half * stand.way + half * side);
}

/// Heights the discharge may run level at, the highest first.
std::vector<double> heights(const Builder& b, Vec drain) {
    double ceiling = b.space.top(), far = 0;
    for (const auto& corner : b.space.plan()) {
        ceiling = std::min(ceiling, b.space.ceiling().at(corner.x, corner.y));
        far = std::max(far, std::abs(corner.x - drain.x) + std::abs(corner.y - drain.y));
    }
    std::vector<double> all;
    const double highest = ceiling - 4 * inch_m - far * network::usual_fall;
    for (double at = highest; at > drain.z + 12 * inch_m && all.size() < 5; at -= 7 * inch_m) all.push_back(snap(at));
    return all;
}

/// Down from its highest point to the drain, by corners past the riser's own; nullopt where no way falls all along.
std::optional<std::vector<Vec>> way_down(const Builder& b, const Line& line, Vec top, Vec foot) {
    const Item* elbow = b.seek(Part::elbow, line);
    if (!elbow) return std::nullopt;
    auto order = ways;
    std::ranges::stable_sort(order, std::ranges::greater{}, [&](Vec way) { return shape::dot(foot - top, way); });
    for (const Vec& way : order) {
        RouteRequest ask{.from = top, .from_facing = way, .to = foot, .to_facing = shape::up};
        ask.radius = elbow->outside.value() / 2;
        ask.clearance = grid;
        ask.turn = elbow->run.value();
        ask.least = ask.first = ask.last = shortest(line.material, line.size);
        ask.first += elbow->run.value();
        ask.levels = {top.z};
        ask.highest = top.z;
        const auto found = find_route_off_grid(b.space, ask, Thoroughness::simple);
        if (!found) continue;
        double level = top.z;
        const bool falls = std::ranges::all_of(*found, [&](Vec corner) {
            const bool on = corner.z <= level + 1e-9;
            level = corner.z;
            return on;
        });
        if (falls) return *found;
    }
    return std::nullopt;
}

/// The pump itself with its switch, its inlet joined to the open end; the discharge port.
PortRef set_pump(Builder& b, const PumpStand& stand, PortRef into) {
    const Item& item = *stand.item;
    Line line = discharge_line(item);
    line.name = "main.condensate";
    const Item* guard = b.item(Part::overflow_switch, line);
    if (!b.ok()) return nowhere;
    const Port open = b.at(into);
    const Vec side = shape::cross(shape::up, stand.way), middle = 0.5 * (stand.inlet() + stand.discharge());
    const double aside = snap(item.outside.value() / 4);
    Piece pump = bare(b, line, item, "pump");
    pump.ports = {{"a", open.at, -open.facing, open.size, Service::condensate},
                  {"b", stand.discharge(), shape::up, *item.branch, Service::condensate},
                  {"power", middle + aside * side, shape::up, {}, Service::power},
                  {"switch", middle - aside * side, shape::up, {}, Service::structure}};
    pump.solids = {body(stand)};
    const Vec lid = pump.ports[3].at;
    const int index = b.add(std::move(pump));
    b.join(into, {index, 0}, JointKind::slip);
    Piece overflow = bare(b, line, *guard, "overflow-switch");
    const double tall = guard->outside.value();
    overflow.size = {};
    overflow.service = Service::power;
    overflow.ports = {{"a", lid, shape::down, {}, Service::structure},
                      {"alarm", lid + tall * shape::up, shape::up, {}, Service::power}};
    overflow.solids = {shape::Cylinder{lid, lid + tall * shape::up, tall / 2}};
    b.join({index, 3}, {b.add(std::move(overflow)), 0}, JointKind::bolted);
    return {index, 1};
}

}  // namespace

Vec PumpStand::inlet() const { return at + item->run.value() * shape::up; }
Vec PumpStand::discharge() const { return inlet() + item->stem.value() * way; }
std::array<shape::Box, 2> PumpStand::room() const {
    const Vec out = discharge();
    return {body(*this), shape::bounds(shape::Cylinder{out, {out.x, out.y, high}, inch_m})};
}

std::vector<PumpStand> pump_stands(const Builder& b, const DrainSizes& sizes, Vec drain) {
    constexpr double pitch = 6 * inch_m, apart = 18 * inch_m;
    constexpr std::size_t most = 2, enough = 6;
    std::vector<std::pair<double, Vec>> places;
    const auto hull = b.space.hull();
    for (double x = hull.min.x + pitch; x < hull.max.x; x += pitch)
        for (double y = hull.min.y + pitch; y < hull.max.y; y += pitch) {
            const Vec at = snap(Vec{x, y, 0});
            if (!shape::inside(b.space.plan(), {at.x, at.y})) continue;
            double far = 0;
            for (const auto& bank : b.layout.banks) {
                const Vec local = at - bank.place({bank.length / 2, 0, 0});
                far += std::abs(local.x) + std::abs(local.y);
            }
            places.emplace_back(far + 0.25 * shape::distance(at, drain), at);
        }
    std::ranges::stable_sort(places, {}, [](const auto& place) { return place.first; });
    std::vector<PumpStand> stands;
    for (const double high : heights(b, drain)) {
        const Item* item = pump_for(b, sizes.flow, high + spare_lift);
        if (!item) continue;
        if (stands.size() >= enough) break;
        std::size_t here = 0;
        for (const auto& [far, at] : places) {
            if (here >= most) break;
            const bool near = std::ranges::any_of(stands, [&](const PumpStand& other) {
                return other.high == high && shape::distance(other.at, at) < apart;
            });
            if (near) continue;
            for (const Vec& way : ways) {
                const PumpStand stand{item, at, way, high};
                const auto room = stand.room();
                if (!b.space.in_room(room[0])) continue;
                if (std::ranges::any_of(room, [&](const auto& box) { return b.space.taken(box).has_value(); }))
                    continue;
                stands.push_back(stand);
                ++here;
                break;
            }
        }
    }
    return stands;
}

void lay_pump(Builder& b, const PumpStand& stand, PortRef into, Vec drain) {
    if (!b.ok() || into == nowhere) return;
    const Line line = discharge_line(*stand.item);
    const PortRef outlet = set_pump(b, stand, into);
    const Item *check = b.item(Part::check_valve, line), *gap = b.item(Part::air_gap, line);
    if (!b.ok()) return;
    const PortRef open = b.attach(line, b.nipple(line, outlet), check, "check");
    if (!b.ok()) return;
    const Vec from = b.at(open).at, top{from.x, from.y, stand.high};
    const Vec foot{drain.x, drain.y, drain.z + gap->run.value() + gap->stem.value()};
    auto corners = way_down(b, line, top, foot);
    if (!corners)
        return b.give_up("condensate: no falling way for the pump's discharge to the drain",
                         "a drain clear of working space and obstacles");
    corners->insert(corners->begin(), top);
    end_at_drain(b, line, open, *corners, *gap);
}

}  // namespace bw::piping
