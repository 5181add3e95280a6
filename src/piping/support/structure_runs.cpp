// SPDX-License-Identifier: MIT
// Hangers along level runs: greedily as far apart as the code allows, from the ceiling, or from a wall near by where
// something is in the way above.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "code/hangers.h"
#include "piping/support/level_runs.h"
#include "piping/support/structure.h"
#include "reason/document.h"
#include "reason/register/register.h"

namespace bw::piping {
namespace {

constexpr double share_of_limit = 0.95;    ///< of the code's spacing, so that a pipe cut on site still keeps it
constexpr double from_end = 1.5 * inch_m;  ///< of a hanger from a pipe's end
constexpr double try_every = 1 * inch_m;
constexpr double rod_half = 0.375 * inch_m;   ///< room kept for a rod to either side of its middle
constexpr double clevis_height = 3 * inch_m;  ///< above the pipe, where there is so much
constexpr double rod_most = 120 * inch_m;     ///< one length of stock; longer ones sway (common practice, no source)
constexpr double long_run = code::long_run.value();  ///< shorter runs are held by what they turn into
constexpr double near_turn = code::near_turn.value();
constexpr double near_heavy = 12 * inch_m;  ///< common practice, no source
constexpr double heavy = 10;                ///< kg
constexpr double arm_most = 34 * inch_m, arm_width = 1.625 * inch_m;
constexpr double upright_most = 48 * inch_m;

class Hanging {
public:
    explicit Hanging(Structure& s) : s_(s), room_(s.b.ground.room), ceiling_(room_.overhead()) {}

    void hang(SpacedRun run) {
        hold_turns(run);
        hold_heavy(run);
        double at = 0;
        for (std::size_t next = 0; s_.b.ok();) {
            while (next < run.held_at.size() && run.held_at[next] <= at + 1e-9) ++next;
            const double until = next < run.held_at.size() ? run.held_at[next] : run.length;
            if (until - at <= run.limit) {
                if (until >= run.length) return;
                at = until;
                continue;
            }
            const auto placed = place_between(run, at, std::min(at + share_of_limit * run.limit, until - from_end));
            if (!placed) return not_held(run, at);
            at = *placed;
        }
    }

private:
    /// Whether a run turns at its end that way, rather than ends at something that is itself held.
    [[nodiscard]] bool turns(int last, Vec way) const {
        const auto& plant = s_.b.built.plant;
        const int out = network::port_along(plant.pieces[last], way);
        const int next = out < 0 ? -1 : plant.mate({last, out}).piece;
        if (next < 0) return false;
        const Part part = plant.pieces[next].part;
        return part == Part::elbow || part == Part::tee || part == Part::vent_elbow || part == Part::vent_tee;
    }

    [[nodiscard]] static bool held_in(const SpacedRun& run, double low, double high) {
        return std::any_of(run.held_at.begin(), run.held_at.end(),
                           [&](double s) { return s >= low - 1e-9 && s <= high + 1e-9; });
    }

    /// The first place from one point towards another where something can carry, if there is one.
    void hold_between(SpacedRun& run, double from, double to) {
        const double step = from < to ? try_every : -try_every;
        for (double s = from; step > 0 ? s <= to : s >= to; s += step) {
            if (!hung(run, s)) continue;
            run.held_at.insert(std::upper_bound(run.held_at.begin(), run.held_at.end(), s), s);
            return;
        }
    }

    /// A hanger near each turn of a long run: what hangs on the elbow is then not carried by its joint.
    void hold_turns(SpacedRun& run) {
        if (run.length < long_run) return;
        if (turns(run.pieces.front(), -run.way) && !held_in(run, 0, near_turn)) hold_between(run, near_turn, from_end);
        if (turns(run.pieces.back(), run.way) && !held_in(run, run.length - near_turn, run.length))
            hold_between(run, run.length - near_turn, run.length - from_end);
    }

    void hold_heavy(SpacedRun& run) {
        for (const int i : run.pieces) {
            const Piece& piece = s_.b.built.plant.pieces[i];
            if (is_level_pipe(piece) || piece.mass_dry < heavy || piece.ports.size() < 2) continue;
            double low = shape::dot(piece.ports[0].at - run.from, run.way),
                   high = shape::dot(piece.ports[1].at - run.from, run.way);
            if (low > high) std::swap(low, high);
            if (held_in(run, low - near_heavy, high + near_heavy)) continue;
            hold_between(run, high + from_end, std::min(high + near_heavy, run.length));
            if (!held_in(run, low - near_heavy, high + near_heavy))
                hold_between(run, low - from_end, std::max(low - near_heavy, 0.0));
        }
    }

    bool hung(const SpacedRun& run, double s) {
        const int piece = pipe_at(run, s);
        return piece >= 0 && (from_ceiling(run, piece, s) || from_wall(run, piece, s) || from_floor(run, piece, s));
    }

    /// The farthest place up to `most` where something can carry, else any farther on.
    std::optional<double> place_between(const SpacedRun& run, double at, double most) {
        for (double s = most; s > at + try_every / 2; s -= try_every)
            if (hung(run, s)) return s;
        return std::nullopt;
    }

    [[nodiscard]] int pipe_at(const SpacedRun& run, double s) const {
        for (int i : run.pieces) {
            const Piece& piece = s_.b.built.plant.pieces[i];
            if (!is_level_pipe(piece)) continue;
            const double a = shape::dot(piece.ports[0].at - run.from, run.way),
                         c = shape::dot(piece.ports[1].at - run.from, run.way);
            const double inset = std::min(from_end, std::abs(a - c) / 2);
            if (s >= std::min(a, c) + inset - 1e-9 && s <= std::max(a, c) - inset + 1e-9) return i;
        }
        return -1;
    }

    [[nodiscard]] double radius(int piece) const {
        for (const auto& solid : s_.b.built.plant.pieces[piece].solids)
            if (const auto* bar = std::get_if<shape::Cylinder>(&solid)) return bar->radius;
        return 0;
    }

    std::optional<Piece> hanger(const SpacedRun& run, int piece) {
        const Piece& pipe = s_.b.built.plant.pieces[piece];
        Line line;
        line.service = run.service;
        line.size = pipe.size;
        line.name = pipe.bank > 0 ? fmt::format("bank-{}.{}", pipe.bank, text::name(run.service))
                                  : fmt::format("main.{}", text::name(run.service));
        const Item* row = s_.b.seek(Part::hanger, line);
        if (!row) return std::nullopt;
        auto made = s_.piece(row, Part::hanger, line.name, pipe.bank);
        made->size = pipe.size;
        return made;
    }

    /// Where a rod ends above a place: under a sloping ceiling a whole sixteenth of an inch up, and all of it below.
    [[nodiscard]] Vec ceiling_over(Vec on) const {
        const double over = ceiling_.lowest(shape::grown({on, on}, rod_half));
        return {on.x, on.y, ceiling_.level() ? over : on.z + snap_down(over - on.z)};
    }

    bool from_ceiling(const SpacedRun& run, int piece, double s) {
        const Vec on = run.from + s * run.way + Vec{0, 0, radius(piece)}, top = ceiling_over(on);
        const shape::Box rod{on - Vec{rod_half, rod_half, 0}, top + Vec{rod_half, rod_half, 0}};
        const double height = top.z - on.z;
        if (height < inch_m / 4 || height > rod_most || s_.b.space.taken(rod, piece)) return false;
        auto made = hanger(run, piece);
        if (!made) return false;
        const bool rodded = height > clevis_height + inch_m;
        const Vec clevis = rodded ? on + Vec{0, 0, clevis_height} : top;
        made->ports = {bolt_hole("pipe", on, shape::down), bolt_hole("rod", clevis, shape::up)};
        made->solids = {shape::Cylinder{on, clevis, rod_half}};
        const int bank = made->bank;
        const int index = s_.b.add(std::move(*made));
        s_.bolt(s_.b.tap(piece, bolt_hole(fmt::format("hanger-{}", index), on, shape::up)), {index, 0});
        const PortRef end =
            rodded ? hang_rod({index, 1}, top, rod_for(run, s_.b.built.plant.pieces[piece].size)) : PortRef{index, 1};
        if (end != nowhere) s_.anchor(end, s_.b.built.plant.pieces[index].id, bank, Into::wall);
        return true;
    }

    [[nodiscard]] const Item* rod_row(Nominal size, double length) const {
        const Item* best = nullptr;
        for (const Item* item : s_.b.catalogue.of(Part::rod)) {
            const double has = item->number("length").value_or(0);
            if (item->size != size || has < length - 1e-6) continue;
            if (!best || has < best->number("length").value_or(0)) best = item;
        }
        return best;
    }

    /// Rod sizes go by the weight of steel pipe full of water; plastic takes the least.
    [[nodiscard]] static Nominal rod_for(const SpacedRun& run, Nominal pipe) {
        const bool plastic =
            run.service == Service::exhaust || run.service == Service::intake || run.service == Service::condensate;
        return plastic ? Nominal{8} : pipe;
    }

    /// A rod from a clevis to the ceiling, as thick as the pipe's size asks; gives its upper port.
    PortRef hang_rod(PortRef clevis, Vec top, Nominal pipe) {
        const Vec foot = s_.b.at(clevis).at;
        const double length = top.z - foot.z;
        const auto size = code::hanger_rod(pipe);
        if (!size) {
            s_.b.give_up(size.error().what, size.error().expected);
            return nowhere;
        }
        const std::string hanger = s_.b.built.plant.pieces[clevis.piece].id;
        const Item* row = rod_row(size->value, length);
        auto rod = s_.piece(row, Part::rod, hanger, s_.b.built.plant.pieces[clevis.piece].bank);
        if (!rod) return nowhere;
        rod->size = size->value;
        rod->cut = snap_up(length);
        rod->ports = {bolt_hole("a", foot, shape::down), bolt_hole("b", top, shape::up)};
        rod->solids = {shape::Cylinder{foot, top, row->outside.value() / 2}};
        const int index = s_.b.add(std::move(*rod));
        s_.bolt(clevis, {index, 0});
        return {index, 1};
    }

    /// Way to the nearest wall along the room's axes, square to the run; the run's own height is kept.
    [[nodiscard]] std::optional<Vec> to_wall(const SpacedRun& run, Vec on) const {
        std::optional<Vec> best;
        for (std::size_t i = 0; i < room_.plan.size(); ++i) {
            const shape::Point a = room_.plan[i], c = room_.plan[(i + 1) % room_.plan.size()];
            Vec way;
            if (a.x == c.x && std::min(a.y, c.y) < on.y && on.y < std::max(a.y, c.y))
                way = {a.x - on.x, 0, 0};
            else if (a.y == c.y && std::min(a.x, c.x) < on.x && on.x < std::max(a.x, c.x))
                way = {0, a.y - on.y, 0};
            else
                continue;
            if (std::abs(shape::dot(way, run.way)) > 1e-9 || shape::length(way) < inch_m) continue;
            if (!best || shape::length(way) < shape::length(*best)) best = way;
        }
        if (best && shape::length(*best) > arm_most) return std::nullopt;
        return best;
    }

    /// A strut arm from the wall under the pipe, and a clamp on it.
    bool from_wall(const SpacedRun& run, int piece, double s) {
        const Vec axis = run.from + s * run.way, on = axis - Vec{0, 0, radius(piece)};
        const auto way = to_wall(run, axis);
        if (!way) return false;
        const Vec out = (1 / shape::length(*way)) * *way, foot = on - Vec{0, 0, inch_m / 2};
        const Vec wall = foot + *way - Vec{0, 0, arm_width / 2}, tip = foot - 2 * inch_m * out;
        const Vec half = arm_width / 2 * run.way;
        const shape::Box box = shape::joined(shape::box_of(wall - half + Vec{0, 0, arm_width / 2}, tip + half),
                                             shape::box_of(wall + half - Vec{0, 0, arm_width / 2}, tip - half));
        if (box.min.z < 0 || s_.b.space.taken(box, piece)) return false;
        auto made = hanger(run, piece);
        if (!made) return false;
        const double length = snap_up(shape::length(*way) + 2 * inch_m);
        auto arm = s_.piece(s_.row(Part::strut, length), Part::strut, fmt::format("main.{}", text::name(run.service)),
                            made->bank);
        if (!arm) return false;
        arm->cut = length;
        arm->ports = {bolt_hole("wall", wall, out)};
        arm->solids = {box};
        made->ports = {bolt_hole("pipe", on, shape::up), bolt_hole("strut", foot, shape::down)};
        made->solids = {shape::Cylinder{foot, on, inch_m / 2}};
        const int bank = made->bank, carrier = s_.b.add(std::move(*arm)), index = s_.b.add(std::move(*made));
        s_.anchor({carrier, 0}, s_.b.built.plant.pieces[carrier].id, bank, Into::wall);
        s_.bolt(s_.b.tap(piece, bolt_hole(fmt::format("hanger-{}", index), on, shape::down)), {index, 0});
        s_.bolt(s_.b.tap(carrier, bolt_hole(fmt::format("hanger-{}", index), foot, shape::up)), {index, 1});
        return true;
    }

    /// A strut upright from the floor to a clamp under a low pipe.
    bool from_floor(const SpacedRun& run, int piece, double s) {
        const Vec on = run.from + s * run.way - Vec{0, 0, radius(piece)}, head = on - Vec{0, 0, inch_m / 2};
        if (head.z < inch_m || head.z > upright_most) return false;
        const double half = arm_width / 2;
        const shape::Box box{{on.x - half, on.y - half, 0}, {on.x + half, on.y + half, head.z}};
        if (s_.b.space.taken(box, piece)) return false;
        auto made = hanger(run, piece);
        if (!made) return false;
        auto upright = s_.piece(s_.row(Part::strut, head.z), Part::strut,
                                fmt::format("main.{}", text::name(run.service)), made->bank);
        if (!upright) return false;
        upright->cut = head.z;
        upright->ports = {bolt_hole("floor", {on.x, on.y, 0}, shape::down), bolt_hole("top", head, shape::up)};
        upright->solids = {box};
        made->ports = {bolt_hole("pipe", on, shape::up), bolt_hole("strut", head, shape::down)};
        made->solids = {shape::Cylinder{head, on, inch_m / 2}};
        const int bank = made->bank, carrier = s_.b.add(std::move(*upright)), index = s_.b.add(std::move(*made));
        s_.anchor({carrier, 0}, s_.b.built.plant.pieces[carrier].id, bank, Into::floor);
        s_.bolt({carrier, 1}, {index, 1});
        s_.bolt(s_.b.tap(piece, bolt_hole(fmt::format("hanger-{}", index), on, shape::down)), {index, 0});
        return true;
    }

    void not_held(const SpacedRun& run, double at) {
        const std::string& pipe = s_.b.built.plant.pieces[run.pieces.front()].id;
        auto check = reason::new_check("structure.hang.<piece>", {reason::practice()}, {{"piece", pipe, pipe}});
        check.pieces = {pipe};
        check.says =
            fmt::format("From {:.0f} in on, nothing above or beside the run is free for a hanger within {:.0f} in.",
                        at / inch_m, run.limit / inch_m);
        s_.b.finding(reason::proved(std::move(check), false));
    }

    Structure& s_;
    const survey::Room& room_;
    shape::Ceiling ceiling_;
};

}  // namespace

void hang_runs(Structure& s) {
    if (!s.b.ok()) return;
    const auto runs = spaced_runs(s.b);
    Hanging hanging(s);
    for (const SpacedRun& run : runs) hanging.hang(run);
}

}  // namespace bw::piping
