// SPDX-License-Identifier: MIT
#include "piping/support/structure.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "code/gas_rules.h"
#include "code/hangers.h"
#include "reason/document.h"
#include "reason/register/register.h"

namespace bw::piping {
namespace {

constexpr double bracket_half = 5 * inch_m;     ///< middle of a bracket to its bolt
constexpr double strut_width = 1.625 * inch_m;  ///< of strut channel
constexpr double clamp_half = 0.5 * inch_m;     ///< of a clamp, to either side
constexpr double arm_past = 3 * inch_m;         ///< of an arm past the pipe it holds
constexpr double station_end = 4 * inch_m, station_shift = 10 * inch_m, station_step = inch_m / 2;
constexpr double usual_between = 48 * inch_m;
constexpr std::string_view lag = "anchor/lag";

std::string bank_name(const plant::Bank& bank) { return fmt::format("bank-{}.support", bank.number); }

/// Cold-formed walls and glass do not take a concrete anchor: what does is chosen on site.
void refer_fixing(Structure& s, const plant::Bank& bank) {
    const auto& wall = s.b.ground.room.walls[bank.wall];
    if (*wall.build == survey::WallBuild::concrete || *wall.build == survey::WallBuild::masonry) return;
    auto check = reason::new_check("structure.fixing.bank-<b>", {reason::practice()},
                                   {{"b", bank.number}, {"w", bank.wall + 1}});
    s.b.finding(reason::referred(
        std::move(check),
        fmt::format("CAUTION: wall {} is {}. The heaters stand off it on strut across the studs, {} counted every "
                    "16 in; a structural engineer confirms studs, backing and fixings for the weight.",
                    bank.wall + 1, survey::name(*wall.build),
                    *wall.build == survey::WallBuild::wood_stud ? "lag screws" : "anchors for concrete are")));
}

/// Bolts a port that looks at the wall to a rail behind it, else to the wall itself.
void fix(Structure& s, const plant::Bank& bank, StudRails& rails, PortRef port, const std::string& hole,
         const std::string& name) {
    const Vec at = s.b.at(port).at;
    const double u = shape::dot(at - bank.place.origin, bank.place.turn({1, 0, 0}));
    const PortRef rail = rails.hole(u, at.z, hole);
    if (rail != nowhere)
        s.bolt(port, rail);
    else
        s.anchor(port, name, bank.number, Into::wall);
}

shape::Box wall_arm_box(const Held& held, double u) {
    const double half = strut_width / 2, top = held.under - clamp_height;
    return {{u - half, 0, top - strut_width}, {u + half, snap_up(held.v + arm_past), top}};
}

/// An arm of strut that stands out from the wall, or from rails across its studs, under a pipe.
void wall_arm(Structure& s, const plant::Bank& bank, const Held& held, double u, StudRails& rails) {
    const shape::Box box = wall_arm_box(held, u);
    auto arm = s.piece(s.row(Part::strut, box.max.y), Part::strut, bank_name(bank), bank.number);
    if (!arm) return;
    arm->cut = box.max.y;
    arm->ports = {bolt_hole("wall", bank.place({u, 0, (box.min.z + box.max.z) / 2}), bank.place.turn({0, -1, 0}))};
    arm->solids = {shape::box_of(bank.place(box.min), bank.place(box.max))};
    const int index = s.b.add(std::move(*arm));
    fix(s, bank, rails, {index, 0}, fmt::format("arm-{}", index), bank_name(bank));
    clamp(s, bank, held, u, index);
}

}  // namespace

const Item* Structure::row(Part part, double length) const {
    const Item *best = nullptr, *longest = nullptr;
    for (const Item* item : b.catalogue.of(part)) {
        const double has = item->number("length").value_or(0);
        if (part == Part::anchor && item->key.starts_with(lag)) continue;
        if (!longest || has > longest->number("length").value_or(0)) longest = item;
        if (has >= length - 1e-6 && (!best || has < best->number("length").value_or(0))) best = item;
    }
    return best ? best : longest;
}

std::optional<Piece> Structure::piece(const Item* row, Part part, const std::string& name, int bank, int heater) {
    if (!b.ok()) return std::nullopt;
    if (!row) {
        b.give_up(fmt::format("the catalogue has no {} for {}", text::name(part), name), "a row of that part");
        return std::nullopt;
    }
    Line line;
    line.service = Service::structure;
    line.material = Material::strut;
    line.name = name;
    Piece made;
    made.id = b.id(line, part);
    made.part = part;
    made.service = Service::structure;
    made.item = row->key;
    made.mass_dry = row->mass.value();
    made.bank = bank;
    made.heater = heater;
    return made;
}

void Structure::anchor(PortRef from, const std::string& name, int bank, Into into) {
    if (!b.ok() || from == nowhere) return;
    const Port head = b.at(from);
    const bool in_floor = into == Into::floor;
    const Item* item = row(Part::anchor, in_floor ? 5 * inch_m : 0);
    if (into == Into::stud)
        for (const Item* each : b.catalogue.of(Part::anchor))
            if (each->key.starts_with(lag)) item = each;
    auto made = piece(item, Part::anchor, name, bank);
    if (!made) return;
    const double length = item->number("length").value_or(4 * inch_m);
    const Vec tip = head.at + length * head.facing;
    made->ports = {bolt_hole("a", head.at, -head.facing), bolt_hole("b", tip, head.facing)};
    made->solids = {shape::Cylinder{head.at, tip, item->outside.value() / 2}};
    const int index = b.add(std::move(*made));
    bolt(from, {index, 0});
    const std::string site = in_floor ? fmt::format("site.floor-{}", ++floors) : fmt::format("site.wall-{}", ++walls);
    bolt({index, 1}, b.site(site, Service::structure, tip, -head.facing, {}));
}

namespace {

struct Arm {
    Held held;
    double u = 0;
};

std::vector<Arm> arms_of(Structure& s, const plant::Bank& bank) {
    const auto all = level_pieces(s.b, bank);
    const auto blocked = [&](double u) {
        const auto held = held_at(s.b, all, u);
        return std::any_of(held.begin(), held.end(),
                           [&](const Held& h) { return arm_blocked(s.b, bank, h, u, wall_arm_box(h, u)); });
    };
    std::vector<Arm> arms;
    for (double u : stations_along(bank.length, most_between(s.b, bank), blocked))
        for (const Held& h : held_at(s.b, all, u))
            // what has no room for an arm here is hung from elsewhere, or found to be held too seldom
            if (!arm_meets(s.b, bank, h, u, wall_arm_box(h, u))) arms.push_back({h, u});
    return arms;
}

/// Rails where heaters hang and lean, and one for each height at which arms stand out.
void lay_rails(Structure& s, const plant::Bank& bank, const std::vector<Arm>& arms, StudRails& rails) {
    constexpr double past = 4 * inch_m, lean = 2 * inch_m;
    if (bank.depth_back <= 0 || bank.stands.empty()) return;
    const auto* mount = s.b.heater.port("mount");
    const double low = bank.stands.front().u, high = bank.stands.back().u + s.b.heater.width.value();
    for (const double w : {mount ? mount->at.z : 0.0, lean}) rails.add(low, high, bank.bottom + w);
    std::map<long, std::pair<double, double>> by_height;
    for (const Arm& arm : arms) {
        const auto box = wall_arm_box(arm.held, arm.u);
        const auto [at, fresh] = by_height.try_emplace(std::lround((box.min.z + box.max.z) / 2 / grid), arm.u, arm.u);
        at->second = {std::min(at->second.first, arm.u), std::max(at->second.second, arm.u)};
    }
    for (const auto& [height, span] : by_height)
        rails.add(span.first - past, span.second + past, static_cast<double>(height) * grid);
}

}  // namespace

void hang_on_wall(Structure& s, const plant::Bank& bank) {
    refer_fixing(s, bank);
    const auto arms = arms_of(s, bank);
    StudRails rails(s, bank);
    lay_rails(s, bank, arms, rails);
    for (const auto& stand : bank.stands) {
        const PortRef mount = s.b.port(fmt::format("heater-{}", stand.number), "mount");
        auto bracket = s.piece(s.row(Part::bracket, 0), Part::bracket, fmt::format("heater-{}", stand.number),
                               bank.number, stand.number);
        if (!bracket || mount == nowhere) return;
        const Port hook = s.b.at(mount);
        const Vec aside = bracket_half * bank.place.turn({1, 0, 0});
        bracket->ports = {bolt_hole("heater", hook.at, -hook.facing), bolt_hole("wall-a", hook.at - aside, hook.facing),
                          bolt_hole("wall-b", hook.at + aside, hook.facing)};
        const int index = s.b.add(std::move(*bracket));
        s.bolt(mount, {index, 0});
        for (int port : {1, 2})
            fix(s, bank, rails, {index, port}, fmt::format("heater-{}-{}", stand.number, port),
                fmt::format("heater-{}.bracket", stand.number));
    }
    for (const Arm& arm : arms) wall_arm(s, bank, arm.held, arm.u, rails);
}

std::vector<Held> level_pieces(const Builder& b, const plant::Bank& bank) {
    std::vector<Held> out;
    const shape::Placement to_bank{(4 - bank.place.quarter_turns) & 3, {}};
    const auto local = [&](Vec p) { return to_bank.turn(p - bank.place.origin); };
    const auto& pieces = b.built.plant.pieces;
    for (int i = 0; i < static_cast<int>(pieces.size()); ++i) {
        const Piece& piece = pieces[i];
        if (piece.part == Part::flexible_gas || piece.part == Part::flexible_water || piece.ports.size() < 2) continue;
        if (piece.service != Service::gas && piece.service != Service::cold && piece.service != Service::hot &&
            piece.service != Service::condensate && piece.service != Service::recirculation)
            continue;
        const Vec a = local(piece.ports[0].at), c = local(piece.ports[1].at);
        const bool along = std::abs(a.z - c.z) < 1e-4 && std::abs(a.y - c.y) < 1e-4 && std::abs(a.x - c.x) > 1e-4;
        const double low = std::min(a.x, c.x), high = std::max(a.x, c.x);
        if (!along || a.z > bank.bottom || high < 0 || low > bank.length) continue;
        // arms reach only so far out from a wall or a rack
        if (a.y < -bank.back_plane || a.y > std::max(bank.back_plane, 10 * inch_m)) continue;
        double under = a.z;
        for (const auto& solid : piece.solids) {
            const auto box = shape::bounds(solid);
            const double across = std::max(std::abs(box.max.z - a.z), std::abs(box.min.z - a.z));
            if (std::holds_alternative<shape::Cylinder>(solid) && across < 6 * inch_m)
                under = std::min(under, box.min.z);
        }
        out.push_back({i, low, high, a.y, under, piece.part == Part::pipe});
    }
    return out;
}

std::vector<Held> held_at(const Builder& b, const std::vector<Held>& all, double u) {
    std::vector<Held> here;
    for (const Held& h : all)
        if (u >= h.from && u <= h.to) here.push_back(h);
    const auto rank = [&](const Held& h) {
        return (b.built.plant.pieces[h.piece].heater > 0 ? 2 : 0) + (h.pipe ? 0 : 1);
    };
    std::stable_sort(here.begin(), here.end(), [&](const Held& x, const Held& y) { return rank(x) < rank(y); });
    std::vector<Held> chosen;
    for (const Held& h : here) {
        const auto same_height = [&](const Held& c) { return std::abs(c.under - h.under) < strut_width + 2 * inch_m; };
        if (std::none_of(chosen.begin(), chosen.end(), same_height)) chosen.push_back(h);
    }
    return chosen;
}

bool arm_blocked(const Builder& b, const plant::Bank& bank, const Held& held, double u, const shape::Box& arm) {
    return !held.pipe || arm_meets(b, bank, held, u, arm);
}

bool arm_meets(const Builder& b, const plant::Bank& bank, const Held& held, double u, const shape::Box& arm) {
    const auto taken = [&](const shape::Box& box) {
        return b.space.taken(shape::box_of(bank.place(box.min), bank.place(box.max)), held.piece).has_value();
    };
    const shape::Box grip{{u - clamp_half, held.v - clamp_half, held.under - clamp_height},
                          {u + clamp_half, held.v + clamp_half, held.under}};
    return taken(arm) || taken(grip);
}

std::vector<double> stations_along(double length, double most, const std::function<bool(double)>& blocked) {
    const double first = station_end, last = length - station_end;
    const double between = std::max(most - station_shift, most / 2);
    const int spans = std::max(1, static_cast<int>(std::ceil((last - first) / between - 1e-9)));
    std::vector<double> out;
    for (int k = 0; k <= spans; ++k) {
        const double wanted = snap(first + (last - first) * k / spans);
        const double shift_most = k == 0 || k == spans ? station_shift : std::min(station_shift, between / 2);
        double chosen = wanted;
        for (double by = 0; by <= shift_most; by += station_step) {
            const double nearer = wanted + (k == 0 ? by : -by), farther = wanted - (k == 0 ? by : -by);
            if (!blocked(nearer)) {
                chosen = nearer;
                break;
            }
            if (farther >= first && farther <= last && !blocked(farther)) {
                chosen = farther;
                break;
            }
        }
        out.push_back(snap(chosen));
    }
    return out;
}

void clamp(Structure& s, const plant::Bank& bank, const Held& held, double u, int arm) {
    const Piece& pipe = s.b.built.plant.pieces[held.piece];
    Line line;
    line.service = pipe.service;
    line.size = pipe.size;
    line.name = fmt::format("bank-{}.{}", bank.number, text::name(pipe.service));
    auto hanger = s.piece(s.b.seek(Part::hanger, line), Part::hanger, line.name, bank.number);
    if (!hanger) return;
    const Vec top = bank.place({u, held.v, held.under}), bottom = top - Vec{0, 0, clamp_height};
    hanger->ports = {bolt_hole("pipe", top, shape::up), bolt_hole("strut", bottom, shape::down)};
    hanger->solids = {shape::Cylinder{bottom, top, clamp_half}};
    hanger->size = line.size;
    const int index = s.b.add(std::move(*hanger));
    const auto hole = [](const char* what, int n) { return fmt::format("{}-{}", what, n); };
    const int n = index;  // a number no other hole of the piece has
    s.bolt(s.b.tap(held.piece, bolt_hole(hole("hanger", n), top, shape::down)), {index, 0});
    s.bolt(s.b.tap(arm, bolt_hole(hole("hanger", n), bottom, shape::up)), {index, 1});
}

double most_between(const Builder& b, const plant::Bank& bank) {
    double most = usual_between;
    for (const Held& held : level_pieces(b, bank)) {
        const Piece& piece = b.built.plant.pieces[held.piece];
        const auto* row = b.catalogue.pipe(piece.item);
        if (!row) continue;
        if (piece.service == Service::gas)
            most = std::min(most, code::gas_support_spacing(row->size).value.value());
        else if (const auto rule = code::hanger_spacing(row->material, row->size))
            most = std::min(most, rule->value.value());
    }
    return most;
}

void add_structure(Builder& b) {
    Structure s{b};
    for (const auto& bank : b.layout.banks) {
        if (bank.wall >= 0)
            hang_on_wall(s, bank);
        else
            stand_rack(s, bank);
    }
    hang_runs(s);
}

}  // namespace bw::piping
