// SPDX-License-Identifier: MIT
// Long runs grow when they warm: how much, and where it is taken up.
#include <limits>

#include "code/movement.h"
#include "proof/checks.h"
#include "proof/support/level_runs.h"
#include "reason/document.h"
#include "text/material.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Length;
using units::metre;

constexpr double worth_a_word = 0.0254 / 16;  ///< metres of growth: less is lost in the hangers' play
constexpr double free_end = std::numeric_limits<double>::infinity();
constexpr double in_a_joint = 0.375 * 0.0254;  ///< metres a gasketed vent joint is left to slide: common practice
/// Pipe is laid in a room of 50 degF: common practice, no source.
units::Temperature laid_at() { return units::fahrenheit(50); }

/// Length of a leg from a turn, along one way, to what holds it sideways: a clamp on strut, its next turn, its end.
double leg_along(const View& view, int turn, shape::Vec corner, shape::Vec way) {
    int piece = turn;
    double reached = 0;
    for (int guard = 0; guard < 1000; ++guard) {
        const int out = port_along(view.piece(piece), way);
        if (out < 0) return reached;
        reached = shape::dot(view.piece(piece).ports[static_cast<std::size_t>(out)].at - corner, way);
        const int next = view.plant.mate({piece, out}).piece;
        if (next < 0) return reached;
        const auto& on = view.piece(next);
        if (on.part == Part::flexible_water || on.part == Part::cap) return free_end;
        if (on.part == Part::connection || on.part == Part::heater) return reached;
        double clamped = free_end;
        for (int p = 0; p < static_cast<int>(on.ports.size()); ++p) {
            if (on.ports[static_cast<std::size_t>(p)].service != Service::structure) continue;
            const int holder = view.plant.mate({next, p}).piece;
            if (holder >= 0 && view.plant.port(holder, "strut") >= 0)
                clamped = std::min(clamped, shape::dot(on.ports[static_cast<std::size_t>(p)].at - corner, way));
        }
        if (clamped < free_end) return std::max(clamped, reached);
        piece = next;
    }
    return reached;
}

/// The leg that bends where a run ends that way: free_end at a cap or a flexible connector, 0 where the end is held.
double leg_at(const View& view, int last, shape::Vec way) {
    const int out = port_along(view.piece(last), way);
    const int next = out < 0 ? -1 : view.plant.mate({last, out}).piece;
    if (next < 0) return free_end;
    const auto& turn = view.piece(next);
    if (turn.part == Part::cap || turn.part == Part::flexible_water) return free_end;
    if (turn.part != Part::elbow && turn.part != Part::tee) return 0;
    const shape::Vec end = view.piece(last).ports[static_cast<std::size_t>(out)].at;
    double leg = free_end;
    bool turned = false;
    for (const auto& port : turn.ports) {
        if (!carries_flow(port.service) || std::fabs(shape::dot(port.facing, way)) > 0.5) continue;
        const shape::Vec corner = end + shape::dot(port.at - end, way) * way;
        leg = std::min(leg, leg_along(view, next, corner, port.facing));
        turned = true;
    }
    return turned ? leg : 0;
}

struct Growth {
    const LevelRun* run = nullptr;
    const catalogue::Pipe* pipe = nullptr;
    code::Clause<code::Movement> rule;
    double grows = 0, near_leg = 0, far_leg = 0;
    double takes = 0, can = 0;  ///< metres, of the leg that bends hardest
    [[nodiscard]] double share() const { return can > 0 ? takes / can : grows > 0 ? 1e9 : 0; }
};

/// The run slides in its hangers; two legs bend as much as their stiffness, which goes with the cube of their length.
void share_out(Growth& g) {
    const Length outside = g.pipe->outside;
    const auto can = [&](double leg) { return code::cantilever_takes(g.rule.value, outside, leg * metre).value(); };
    if (g.near_leg == free_end || g.far_leg == free_end) {
        g.takes = 0, g.can = g.grows;
        return;
    }
    const double a = std::pow(g.near_leg, 3), b = std::pow(g.far_leg, 3);
    const double longer = std::max(g.near_leg, g.far_leg);
    g.takes = a + b > 0 ? g.grows * std::max(a, b) / (a + b) : g.grows;
    g.can = can(longer);
}

std::string leg_says(double leg) {
    return leg == free_end ? "free" : leg > 0 ? "leg of " + us(amount(leg * metre)) : "held";
}

std::vector<Growth> growths(const View& view, const std::vector<LevelRun>& runs, units::TemperatureDifference rise) {
    std::vector<Growth> all;
    for (const auto& run : runs) {
        Growth g;
        g.run = &run;
        for (const int i : run.pieces)
            if (const auto* row = view.pipe(i); row && (!g.pipe || row->outside > g.pipe->outside)) g.pipe = row;
        if (!g.pipe) continue;
        const auto rule = code::movement(g.pipe->material);
        if (!rule) continue;
        g.rule = *rule;
        g.grows = code::growth(g.rule.value, run.length * metre, rise).value();
        if (g.grows < worth_a_word) continue;
        g.near_leg = leg_at(view, run.pieces.front(), -run.way);
        g.far_leg = leg_at(view, run.pieces.back(), run.way);
        share_out(g);
        all.push_back(g);
    }
    return all;
}

void of_water(const View& view, Service service, Checks& checks) {
    const auto runs = level_runs(view, service);
    if (runs.empty()) return;
    const auto warm = *view.survey.temperatures.distribution;
    const auto rise = warm - laid_at();
    auto check = new_check("structure.movement.<service>", {}, {named("service", service)});
    depends_on_fields(check, view.survey, {"water.distribution"});
    const auto all = growths(view, runs, rise);
    if (all.empty()) {
        check.sources = {practice()};
        checks.push_back(
            holds(std::move(check), true, "No straight run grows by 1/16 in: the hangers' play takes it up.", {}));
        return;
    }
    const auto& worst = *std::max_element(all.begin(), all.end(),
                                          [](const Growth& a, const Growth& b) { return a.share() < b.share(); });
    check.sources = {worst.rule.source, practice()};
    step(check, worst.rule.says + ". Laid at 50 degF (common practice).", "dL = alpha L dT",
         {{"dT", "rise", amount(rise)}});
    for (const auto& g : all)
        step(check,
             fmt::format("{} to {}: one end {}, the other {}.", view.name(g.run->pieces.front()),
                         view.name(g.run->pieces.back()), leg_says(g.near_leg), leg_says(g.far_leg)),
             {}, {{"L", "run", amount(g.run->length * metre)}},
             Term{"dL", "growth", amount(g.grows * metre, units::Kind::small_length)});
    about(check, view, {worst.run->pieces.front(), worst.run->pieces.back()});
    const auto small = [](double metres) { return amount(metres * metre, units::Kind::small_length); };
    step(check, "The leg that bends hardest, guided at its far end; two legs share as their stiffness.",
         "d = S l^2 / (3 E D)",
         {{"D", "outside diameter", amount(worst.pipe->outside, units::Kind::small_length)},
          {"d1", "movement it takes", small(worst.takes)}},
         Term{"d", "movement it can take", small(worst.can)});
    if (worst.share() <= 1) {
        check.says = "Bends and free ends take it up within the pipe's bending stress.";
        checks.push_back(at_most(std::move(check), small(worst.takes), small(worst.can)));
        return;
    }
    const Length wanted = code::cantilever_leg(worst.rule.value, worst.pipe->outside, worst.takes * metre);
    check = compared(std::move(check), small(worst.takes), Sense::at_most, small(worst.can));
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("The run of {} grows {}; a leg of {} would take its share, the longest it turns into is {}: an "
                    "offset, a loop or a flexible connector by the piping engineer, or clamps left loose there.",
                    view.name(worst.run->pieces.front()), us(small(worst.grows)), us(amount(wanted)),
                    leg_says(std::max(worst.near_leg, worst.far_leg)))));
}

/// Heaters' connectors take up what the header moves past them.
void of_branches(const View& view, Checks& checks) {
    const auto rise = *view.survey.temperatures.distribution - laid_at();
    double spare = free_end, moves = 0;
    int tightest = -1;
    for (const int i : view.of(Part::flexible_water)) {
        const auto& piece = view.piece(i);
        if (piece.service != Service::hot || piece.ports.size() < 2) continue;
        const auto between = piece.ports[1].at - piece.ports[0].at;
        const auto& axis = piece.ports[0].facing;
        const double aside = shape::length(between - shape::dot(between, axis) * axis);
        const double left = view.number(i, "offset-greatest").value_or(0) - aside;
        if (left < spare) spare = left, tightest = i;
    }
    if (tightest < 0) return;
    std::optional<Source> source;
    for (const auto& run : level_runs(view, Service::hot))
        for (const int i : run.pieces) {
            if (view.piece(i).part != Part::tee || view.piece(i).bank == 0) continue;
            const auto material = view.material(i);
            const auto rule = material ? code::movement(*material) : code::movement(Material::copper_l);
            if (!rule) continue;
            const double at = shape::dot(view.piece(i).ports[0].at - run.from, run.way);
            const Length from_middle = std::fabs(at - run.length / 2) * metre;
            moves = std::max(moves, code::growth(rule->value, from_middle, rise).value());
            source = rule->source;
        }
    if (!source) return;
    auto check = new_check("structure.movement.branches", {*source});
    about(check, view, {tightest});
    step(check,
         "The branch farthest from its header's middle moves most; the connector with the least offset left is "
         "held against it.");
    check.says = "What a connector may still be offset, after what it already is.";
    checks.push_back(at_most(std::move(check), amount(moves * metre, units::Kind::small_length),
                             amount(std::max(0.0, spare) * metre, units::Kind::small_length)));
}

/// 1/K; nothing for what is no vent.
std::optional<double> vent_expansion(Material material) {
    const auto& row = text::row_of(material);
    const std::optional<double> growth = row.growth;
    return row.family == text::Family::vent && growth ? std::optional(1.8 * *growth) : std::nullopt;
}

/// The longest stretch of vent pipe between joints that slide, and how much it grows.
void of_vents(const View& view, Checks& checks) {
    const auto& vents = view.hydraulics.vents;
    if (!vents) return;  // vent.solved says why
    const auto rise = vents->feed.warmest - laid_at();
    int longest = -1;
    double most = 0;
    for (const int i : view.of(Part::vent_pipe)) {
        const auto material = view.material(i);
        const auto alpha =
            material && view.piece(i).service == Service::exhaust ? vent_expansion(*material) : std::optional<double>{};
        if (!alpha) continue;
        const double grows = *alpha * rise.value() * view.piece(i).cut;
        if (grows > most) most = grows, longest = i;
    }
    if (longest < 0) return;
    auto check = new_check("structure.movement.exhaust", {reason::cite(reason::Document::astm_d696, {}), practice()});
    about(check, view, {longest});
    depends_on_fields(check, view.survey, {"water.distribution"});
    bool slides = true;
    for (const auto& joint : view.plant.joints)
        if (joint.a.piece == longest || joint.b.piece == longest) {
            const auto& port = view.plant.at(joint.a);
            if (port.service == Service::exhaust && joint.kind != plant::JointKind::gasketed &&
                joint.kind != plant::JointKind::slip)
                slides = false;
        }
    const auto alpha = *vent_expansion(*view.material(longest));
    step(check,
         "The longest single pipe of vent, at the warmest exhaust: the water that comes back and the heater's flue gas "
         "above it. Coefficients from memory.",
         "dL = alpha L dT",
         {{"alpha", "expansion, 1/K", units::number(alpha)},
          {"L", "pipe", amount(view.piece(longest).cut * metre)},
          {"dT", "rise", amount(rise)}},
         Term{"dL", "growth", amount(most * metre, units::Kind::small_length)});
    const auto value = amount(most * metre, units::Kind::small_length);
    const auto limit = amount(in_a_joint * metre, units::Kind::small_length);
    if (slides && most <= in_a_joint) {
        check.says =
            "Each gasketed joint is drawn back 3/8 in from its stop when made, and takes up the pipe's growth.";
        checks.push_back(at_most(std::move(check), value, limit));
        return;
    }
    check = compared(std::move(check), value, Sense::at_most, limit);
    checks.push_back(reason::referred(
        std::move(check),
        slides ? fmt::format("A joint drawn back 3/8 in does not take up {}'s growth: the vent maker says how far its "
                             "sockets slide, and where a fixed clamp goes.",
                             view.name(longest))
               : fmt::format("{} is cemented at its ends: the vent maker's offsets or an expansion joint take up its "
                             "growth.",
                             view.name(longest))));
}

}  // namespace

void check_movement(const View& view, Checks& checks) {
    of_water(view, Service::hot, checks);
    of_water(view, Service::recirculation, checks);
    of_branches(view, checks);
    of_vents(view, checks);
}

}  // namespace bw::proof
