// SPDX-License-Identifier: MIT
// What each hanger carries, what it hangs from, and whether the run is held where it turns.
#include "code/hangers.h"
#include "proof/checks.h"
#include "proof/support/level_runs.h"
#include "proof/support/weight.h"

namespace bw::proof {
namespace {

using units::amount;
using units::metre;
using units::newton;

constexpr double near_turn = code::near_turn.value(), long_run = code::long_run.value();

constexpr std::array services{Service::gas,     Service::cold,   Service::hot,       Service::recirculation,
                              Service::exhaust, Service::intake, Service::condensate};

bool carried_elsewhere(const Piece& piece) {
    return piece.part == Part::heater || piece.part == Part::connection || piece.part == Part::flexible_gas ||
           piece.part == Part::flexible_water || piece.part == Part::neutraliser ||
           piece.part == Part::condensate_pump || !carries_flow(piece.service);
}

bool level(const Piece& piece) {
    return piece.part == Part::pipe || piece.part == Part::vent_pipe
               ? std::fabs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-3
               : false;
}

/// A mass somewhere along a run.
struct Lump {
    double at = 0, mass = 0;
};

/// What is joined to a run and stands on it or hangs from it: risers and drops, up to where something else carries.
void hang_on(const View& view, int piece, double at, std::vector<char>& seen, std::vector<Lump>& lumps) {
    for (int p = 0; p < static_cast<int>(view.piece(piece).ports.size()); ++p) {
        if (!carries_flow(view.piece(piece).ports[static_cast<std::size_t>(p)].service)) continue;
        const int next = view.plant.mate({piece, p}).piece;
        if (next < 0 || seen[static_cast<std::size_t>(next)]) continue;
        const auto& hung = view.piece(next);
        if (carried_elsewhere(hung) || level(hung)) continue;
        seen[static_cast<std::size_t>(next)] = 1;
        lumps.push_back({at, filled(hung)});
        hang_on(view, next, at, seen, lumps);
    }
}

std::vector<Lump> lumps_of(const View& view, const LevelRun& run) {
    std::vector<Lump> lumps;
    std::vector<char> seen(view.plant.pieces.size(), 0);
    for (const int i : run.pieces) seen[static_cast<std::size_t>(i)] = 1;
    for (const int i : run.pieces) {
        const auto& piece = view.piece(i);
        const auto middle = 0.5 * (piece.ports[0].at + piece.ports[1].at);
        const double at = std::clamp(shape::dot(middle - run.from, run.way), 0.0, run.length);
        if (carried_elsewhere(piece)) continue;
        lumps.push_back({at, filled(piece)});
        hang_on(view, i, at, seen, lumps);
    }
    return lumps;
}

struct Carried {
    int hanger = -1, rod = -1, holder = -1;  ///< pieces; the rod, else what the hanger is bolted to
    double at = 0, mass = 0;
    double allowed = 0;  ///< newton
};

/// Each lump is shared by the supports to either side of it as a lever shares it; beyond the last it is the last one's.
std::vector<Carried> carried(const View& view, const LevelRun& run) {
    std::vector<Carried> all;
    for (const auto& hold : run.held) all.push_back({hold.piece, -1, -1, hold.at, 0, 0});
    if (all.empty()) return all;
    for (const auto& lump : lumps_of(view, run)) {
        const auto after =
            std::find_if(all.begin(), all.end(), [&](const Carried& c) { return c.at >= lump.at - 1e-9; });
        if (after == all.begin() || after == all.end()) {
            (after == all.end() ? all.back() : *after).mass += lump.mass;
            continue;
        }
        const auto before = std::prev(after);
        const double span = after->at - before->at;
        const double share = span > 0 ? (lump.at - before->at) / span : 0.5;
        after->mass += share * lump.mass;
        before->mass += (1 - share) * lump.mass;
    }
    return all;
}

void hold_by(const View& view, Carried& c) {
    const auto& hanger = view.piece(c.hanger);
    c.allowed = view.number(c.hanger, "load").value_or(0);
    c.mass += hanger.mass_dry;
    for (int p = 0; p < static_cast<int>(hanger.ports.size()); ++p) {
        const auto name = hanger.ports[static_cast<std::size_t>(p)].name;
        if (name == "pipe") continue;
        const int other = view.plant.mate({c.hanger, p}).piece;
        if (other < 0) continue;
        c.holder = other;
        if (view.piece(other).part != Part::rod) continue;
        c.rod = other;
        c.mass += view.piece(other).mass_dry;
        if (const auto most = code::rod_load(view.piece(other).size))
            c.allowed = std::min(c.allowed, most->value.value());
    }
}

std::string hangs_from(const View& view, const Carried& c) {
    if (c.rod >= 0)
        return fmt::format("rod {} in, {} to the ceiling", units::print(view.piece(c.rod).size),
                           us(amount(view.piece(c.rod).cut * metre)));
    if (c.holder < 0) return "nothing";
    const auto part = view.piece(c.holder).part;
    if (part == Part::anchor) return "the ceiling";
    return fmt::format("{} {}", text::name(part), view.name(c.holder));
}

void loads(const View& view, Service service, const std::vector<LevelRun>& runs, Checks& checks) {
    std::vector<Carried> all;
    auto check = new_check("structure.hanger-load.<service>", {}, {named("service", service)});
    step(check,
         "Pipe, fittings and water along the run, shared by the supports to either side; risers and drops joined "
         "to it count in full.");
    for (const auto& run : runs)
        for (auto& c : carried(view, run)) {
            if (view.piece(c.hanger).part != Part::hanger) continue;
            hold_by(view, c);
            step(check,
                 fmt::format("{}: {} from the start of the run of {}; from {}.", view.name(c.hanger),
                             us(amount(c.at * metre)), view.name(run.pieces.front()), hangs_from(view, c)),
                 {}, {}, Term{"F", "load", amount(gravity * c.mass * newton)});
            all.push_back(c);
        }
    if (all.empty()) return;
    const auto& worst = *std::max_element(all.begin(), all.end(), [](const Carried& a, const Carried& b) {
        return a.mass * std::max(b.allowed, 1e-9) < b.mass * std::max(a.allowed, 1e-9);
    });
    if (view.item(worst.hanger)) check.sources = view.item(worst.hanger)->sources;
    const auto rods = std::count_if(all.begin(), all.end(), [](const Carried& c) { return c.rod >= 0; });
    if (rods > 0)
        if (const auto rule = code::rod_load({3})) check.sources.push_back(rule->source);
    about(check, view, {worst.hanger});
    check.says = fmt::format(
        "{} supports, {} of them on rods; the hardest loaded is {}, by the lesser of its own load "
        "and its rod's.",
        all.size(), rods, view.name(worst.hanger));
    checks.push_back(at_most(std::move(check), amount(gravity * worst.mass * newton), amount(worst.allowed * newton)));
}

/// Ends of long runs that turn and have no support near, as sentences.
void turns(const View& view, const LevelRun& run, std::vector<std::string>& bare, int& count) {
    if (run.length < long_run) return;
    const auto turned = [&](int last, shape::Vec way) {
        const int out = port_along(view.piece(last), way);
        const int next = out < 0 ? -1 : view.plant.mate({last, out}).piece;
        if (next < 0) return false;
        const auto part = view.piece(next).part;
        return part == Part::elbow || part == Part::tee || part == Part::vent_elbow || part == Part::vent_tee;
    };
    const auto held = [&](double low, double high) {
        return std::any_of(run.held.begin(), run.held.end(),
                           [&](const Hold& h) { return h.at >= low - 1e-6 && h.at <= high + 1e-6; });
    };
    const auto look = [&](int piece, shape::Vec way, double low, double high) {
        if (!turned(piece, way)) return;
        ++count;
        if (!held(low, high)) bare.push_back(view.name(piece));
    };
    look(run.pieces.front(), -run.way, 0, near_turn);
    look(run.pieces.back(), run.way, run.length - near_turn, run.length);
}

}  // namespace

void check_hanging(const View& view, Checks& checks) {
    std::vector<std::string> bare;
    int count = 0;
    for (const auto service : services) {
        const auto runs = level_runs(view, service);
        loads(view, service, runs, checks);
        for (const auto& run : runs) turns(view, run, bare, count);
    }
    if (count == 0) return;
    auto check = new_check("structure.turns", {practice()});
    step(check,
         "Runs of 4 ft and more are held within 24 in of where they turn, so that no joint carries the leg "
         "beyond it.",
         {}, {{"n", "turns", units::count(count)}});
    for (const auto& id : bare) step(check, fmt::format("None near the end of {}.", id));
    if (bare.empty()) {
        checks.push_back(holds(std::move(check), true, "Each turn has one.", {}));
        return;
    }
    check.pieces = bare;
    checks.push_back(reason::referred(
        std::move(check), fmt::format("{} of {} turns have no support within 24 in, as nothing free stands above or "
                                      "beside: the fitter adds one on site where the leg beyond is heavy.",
                                      bare.size(), count)));
}

}  // namespace bw::proof
