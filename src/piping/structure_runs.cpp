// SPDX-License-Identifier: MIT
// Hangers along level runs: greedily as far apart as the code allows, from the ceiling, or from a wall near by where
// something is in the way above.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "code/gas_rules.h"
#include "code/hangers.h"
#include "piping/structure.h"

namespace bw::piping {
namespace {

constexpr double share_of_limit = 0.95;    ///< of the code's spacing, so that a pipe cut on site still keeps it
constexpr double from_end = 1.5 * inch_m;  ///< of a hanger from a pipe's end
constexpr double try_every = 1 * inch_m;
constexpr double rod_half = 0.375 * inch_m;
constexpr double arm_most = 34 * inch_m, arm_width = 1.625 * inch_m;
constexpr double upright_most = 36 * inch_m;
constexpr double vent_spacing = 4 * 12 * inch_m;  ///< plastic vent: common practice, no source

struct Run {
    Service service{};
    Vec from, way;
    double length = 0, limit = 0;
    std::vector<int> pieces;
    std::vector<double> held;
};

bool flows(const Port& port) {
    return port.service != Service::structure && port.service != Service::power && port.service != Service::link;
}

bool is_level(const Piece& piece) {
    if (piece.part != Part::pipe && piece.part != Part::vent_pipe) return false;
    return piece.ports.size() >= 2 && std::abs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-3 &&
           shape::distance(piece.ports[0].at, piece.ports[1].at) > 1e-6;
}

int port_towards(const Piece& piece, Vec way) {
    for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
        if (flows(piece.ports[p]) && shape::dot(piece.ports[p].facing, way) > 0.99) return p;
    return -1;
}

class Runs {
public:
    explicit Runs(const Builder& b) : b_(b), seen_(b.built.plant.pieces.size(), 0) {}

    std::vector<Run> all() {
        std::vector<Run> runs;
        for (int i = 0; i < static_cast<int>(seen_.size()); ++i) {
            const Piece& piece = b_.built.plant.pieces[i];
            if (seen_[i] || !is_level(piece)) continue;
            if (auto run = run_from(i); run.limit > 0) runs.push_back(std::move(run));
        }
        return runs;
    }

private:
    Run run_from(int start) {
        Run run;
        const Piece& first = b_.built.plant.pieces[start];
        run.service = first.service;
        run.way = first.ports[1].facing;
        seen_[start] = 1;
        std::vector<int> back;
        extend(start, -run.way, back);
        run.pieces.assign(back.rbegin(), back.rend());
        run.pieces.push_back(start);
        extend(start, run.way, run.pieces);
        double low = 1e300, high = -1e300;
        for (int i : run.pieces) {
            for (const Port& port : b_.built.plant.pieces[i].ports) {
                if (!flows(port) || std::abs(shape::dot(port.facing, run.way)) < 0.99) continue;
                const double s = shape::dot(port.at, run.way);
                if (s < low) low = s, run.from = port.at;
                high = std::max(high, s);
            }
            tighten(run, i);
        }
        run.length = high - low;
        held(run);
        return run;
    }

    void extend(int piece, Vec way, std::vector<int>& found) {
        for (;;) {
            const auto& plant = b_.built.plant;
            const int out = port_towards(plant.pieces[piece], way);
            if (out < 0) return;
            const int next = plant.mate({piece, out}).piece;
            if (next < 0 || seen_[next] || port_towards(plant.pieces[next], way) < 0) return;
            const Part part = plant.pieces[next].part;
            if (part == Part::heater || part == Part::connection || part == Part::flexible_gas ||
                part == Part::flexible_water)
                return;
            seen_[next] = 1;
            found.push_back(next);
            piece = next;
        }
    }

    void tighten(Run& run, int i) const {
        const auto* row = b_.catalogue.pipe(b_.built.plant.pieces[i].item);
        if (!row) return;
        double limit = 0;
        if (run.service == Service::gas) {
            const bool tube = row->material == Material::copper_k || row->material == Material::copper_l;
            limit = (tube ? code::gas_tubing_support_spacing(row->size) : code::gas_support_spacing(row->size))
                        .value.value();
        } else if (run.service == Service::exhaust || run.service == Service::intake) {
            limit = vent_spacing;
        } else if (const auto rule = code::hanger_spacing(row->material, row->size)) {
            limit = rule->value.value();
        }
        if (limit > 0 && (run.limit == 0 || limit < run.limit)) run.limit = limit;
    }

    void held(Run& run) const {
        for (int i : run.pieces) {
            const Piece& piece = b_.built.plant.pieces[i];
            for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
                if (piece.ports[p].service == Service::structure && b_.built.plant.mate({i, p}) != nowhere)
                    run.held.push_back(std::clamp(shape::dot(piece.ports[p].at - run.from, run.way), 0.0, run.length));
        }
        std::sort(run.held.begin(), run.held.end());
    }

    const Builder& b_;
    std::vector<char> seen_;
};

class Hanging {
public:
    explicit Hanging(Structure& s) : s_(s), room_(s.b.survey.room) {}

    void hang(Run run) {
        double at = 0;
        for (std::size_t next = 0; s_.b.ok();) {
            while (next < run.held.size() && run.held[next] <= at + 1e-9) ++next;
            const double until = next < run.held.size() ? run.held[next] : run.length;
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
    /// The farthest place up to `most` where something can carry, else any farther on.
    std::optional<double> place_between(const Run& run, double at, double most) {
        for (double s = most; s > at + try_every / 2; s -= try_every)
            if (const int piece = pipe_at(run, s);
                piece >= 0 && (from_ceiling(run, piece, s) || from_wall(run, piece, s) || from_floor(run, piece, s)))
                return s;
        return std::nullopt;
    }

    [[nodiscard]] int pipe_at(const Run& run, double s) const {
        for (int i : run.pieces) {
            const Piece& piece = s_.b.built.plant.pieces[i];
            if (!is_level(piece)) continue;
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

    std::optional<Piece> hanger(const Run& run, int piece) {
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

    bool from_ceiling(const Run& run, int piece, double s) {
        const Vec on = run.from + s * run.way + Vec{0, 0, radius(piece)}, top{on.x, on.y, room_.ceiling->value()};
        const shape::Box rod{on - Vec{rod_half, rod_half, 0}, top + Vec{rod_half, rod_half, 0}};
        if (top.z - on.z < inch_m / 4 || s_.b.space.taken(rod, piece)) return false;
        auto made = hanger(run, piece);
        if (!made) return false;
        made->ports = {bolt_hole("pipe", on, shape::down), bolt_hole("rod", top, shape::up)};
        made->solids = {shape::Cylinder{on, top, rod_half}};
        const int bank = made->bank;
        const int index = s_.b.add(std::move(*made));
        s_.bolt(s_.b.tap(piece, bolt_hole(fmt::format("hanger-{}", index), on, shape::up)), {index, 0});
        s_.anchor({index, 1}, s_.b.built.plant.pieces[index].id, bank, false);
        return true;
    }

    /// Way to the nearest wall along the room's axes, square to the run; the run's own height is kept.
    [[nodiscard]] std::optional<Vec> to_wall(const Run& run, Vec on) const {
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
    bool from_wall(const Run& run, int piece, double s) {
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
        s_.anchor({carrier, 0}, s_.b.built.plant.pieces[carrier].id, bank, false);
        s_.bolt(s_.b.tap(piece, bolt_hole(fmt::format("hanger-{}", index), on, shape::down)), {index, 0});
        s_.bolt(s_.b.tap(carrier, bolt_hole(fmt::format("hanger-{}", index), foot, shape::up)), {index, 1});
        return true;
    }

    /// A strut upright from the floor to a clamp under a low pipe.
    bool from_floor(const Run& run, int piece, double s) {
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
        s_.anchor({carrier, 0}, s_.b.built.plant.pieces[carrier].id, bank, true);
        s_.bolt({carrier, 1}, {index, 1});
        s_.bolt(s_.b.tap(piece, bolt_hole(fmt::format("hanger-{}", index), on, shape::down)), {index, 0});
        return true;
    }

    void not_held(const Run& run, double at) {
        const std::string& pipe = s_.b.built.plant.pieces[run.pieces.front()].id;
        reason::Check check;
        check.id = fmt::format("structure.hang.{}", pipe);
        check.title = fmt::format("Hangers along the run of {}", pipe);
        check.service = "structure";
        check.sources = {{"", "", "", reason::Standing::common_practice}};
        check.pieces = {pipe};
        check.says =
            fmt::format("From {:.0f} in on, nothing above or beside the run is free for a hanger within {:.0f} in.",
                        at / inch_m, run.limit / inch_m);
        s_.b.finding(reason::proved(std::move(check), false));
    }

    Structure& s_;
    const survey::Room& room_;
};

}  // namespace

void hang_runs(Structure& s) {
    if (!s.b.ok()) return;
    const auto runs = Runs(s.b).all();
    Hanging hanging(s);
    for (const Run& run : runs) hanging.hang(run);
}

}  // namespace bw::piping
