// SPDX-License-Identifier: MIT
// Support spacing along straight, level runs.
#include <map>

#include "code/gas_rules.h"
#include "code/hangers.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::Length;
using units::metre;

/// A straight level row of pieces of one service, and where it is held up along its way.
struct Run {
    std::vector<int> pieces;
    shape::Vec from, way;
    double length = 0;
    std::vector<double> held;
};

bool level(const Piece& piece) {
    return piece.ports.size() >= 2 && std::fabs(piece.ports[0].at.z - piece.ports[1].at.z) < 1e-3 &&
           shape::distance(piece.ports[0].at, piece.ports[1].at) > 1e-6;
}

/// The port of a piece that looks along `way`, or -1.
int facing(const Piece& piece, shape::Vec way) {
    for (int p = 0; p < static_cast<int>(piece.ports.size()); ++p)
        if (carries_flow(piece.ports[static_cast<std::size_t>(p)].service) &&
            shape::dot(piece.ports[static_cast<std::size_t>(p)].facing, way) > 0.99)
            return p;
    return -1;
}

/// Walks on in a straight line through whatever goes straight on.
void extend(const View& view, int piece, shape::Vec way, std::vector<char>& seen, std::vector<int>& found) {
    for (int guard = 0; guard < 10000; ++guard) {
        const int out = facing(view.piece(piece), way);
        if (out < 0) return;
        const auto mate = view.plant.mate({piece, out});
        if (mate.piece < 0 || seen[static_cast<std::size_t>(mate.piece)]) return;
        const auto& next = view.piece(mate.piece);
        if (next.part == Part::heater || next.part == Part::connection || next.part == Part::flexible_water ||
            next.part == Part::flexible_gas)
            return;
        if (facing(next, way) < 0) {
            return;
        }
        seen[static_cast<std::size_t>(mate.piece)] = 1;
        found.push_back(mate.piece);
        piece = mate.piece;
    }
}

/// Where supports joined to a piece hold it, along the run.
void supports(const View& view, int piece, Run& run) {
    for (int p = 0; p < static_cast<int>(view.piece(piece).ports.size()); ++p) {
        const auto& port = view.piece(piece).ports[static_cast<std::size_t>(p)];
        if (port.service != Service::structure) continue;
        if (view.plant.mate({piece, p}).piece < 0) continue;
        run.held.push_back(std::clamp(shape::dot(port.at - run.from, run.way), 0.0, run.length));
    }
}

std::vector<Run> runs_of(const View& view, Service service) {
    std::vector<Run> runs;
    std::vector<char> seen(view.plant.pieces.size(), 0);
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (seen[static_cast<std::size_t>(i)] || !view.pipe(i) || piece.service != service || !level(piece) ||
            piece.part == Part::cable)
            continue;
        seen[static_cast<std::size_t>(i)] = 1;
        Run run;
        run.way = piece.ports[1].facing;
        std::vector<int> ahead, behind;
        extend(view, i, run.way, seen, ahead);
        extend(view, i, -run.way, seen, behind);
        run.pieces.assign(behind.rbegin(), behind.rend());
        run.pieces.push_back(i);
        run.pieces.insert(run.pieces.end(), ahead.begin(), ahead.end());
        double low = 1e300, high = -1e300;
        for (const int p : run.pieces)
            for (const auto& port : view.piece(p).ports) {
                if (!carries_flow(port.service) || std::fabs(shape::dot(port.facing, run.way)) < 0.99) continue;
                const double s = shape::dot(port.at, run.way);
                if (s < low) low = s, run.from = port.at;
                high = std::max(high, s);
            }
        run.length = high - low;
        for (const int p : run.pieces) supports(view, p, run);
        std::sort(run.held.begin(), run.held.end());
        runs.push_back(std::move(run));
    }
    return runs;
}

/// The longest stretch without support: between two, or from an end to the nearest. An end is held by what it turns
/// into, so a run without any support of its own counts whole.
double longest_gap(const Run& run) {
    double at = 0, gap = 0;
    for (const double s : run.held) {
        gap = std::max(gap, s - at);
        at = s;
    }
    return std::max(gap, run.length - at);
}

std::optional<code::Clause<Length>> limit_for(const View& view, const Run& run, Service service) {
    std::optional<code::Clause<Length>> least;
    for (const int i : run.pieces) {
        const auto* row = view.pipe(i);
        if (!row) continue;
        std::optional<code::Clause<Length>> here;
        if (service == Service::gas)
            here = row->material == Material::copper_k || row->material == Material::copper_l
                       ? code::gas_tubing_support_spacing(row->size)
                       : code::gas_support_spacing(row->size);
        else if (service == Service::exhaust || service == Service::intake)
            here = code::Clause<Length>{4.0 * units::foot, "plastic vent is held every 4 ft", practice()};
        else if (const auto rule = code::hanger_spacing(row->material, row->size))
            here = *rule;
        if (here && (!least || here->value < least->value)) least = here;
    }
    return least;
}

void spacing(const View& view, Service service, Checks& checks) {
    const auto runs = runs_of(view, service);
    if (runs.empty()) return;
    const Run* worst = nullptr;
    std::optional<code::Clause<Length>> rule;
    double worst_share = -1;
    for (const auto& run : runs) {
        const auto limit = limit_for(view, run, service);
        if (!limit) continue;
        const double share = longest_gap(run) / limit->value.value();
        if (share > worst_share) worst_share = share, worst = &run, rule = limit;
    }
    auto check = draft(fmt::format("structure.hangers.{}", text::name(service)),
                       fmt::format("Support spacing of {} pipe", text::name(service)), "structure", {});
    if (!worst) {
        check.sources = {practice()};
        checks.push_back(reason::referred(
            std::move(check), "No table of support spacing covers this pipe: the pipe maker's instructions decide."));
        return;
    }
    check.sources = {rule->source};
    about(check, view, {worst->pieces.front(), worst->pieces.back()});
    step(check, fmt::format("Of {} straight level runs the one with the longest stretch unsupported.", runs.size()), {},
         {{"L", "length of the run", amount(worst->length * metre)},
          {"n", "supports on it", units::count(static_cast<double>(worst->held.size()))}},
         Term{"l", "longest stretch", amount(longest_gap(*worst) * metre)});
    check.says = rule->says;
    checks.push_back(at_most(std::move(check), amount(longest_gap(*worst) * metre), amount(rule->value)));
}

}  // namespace

void check_hangers(const View& view, Checks& checks) {
    for (const auto service : {Service::gas, Service::cold, Service::hot, Service::recirculation, Service::exhaust,
                               Service::intake, Service::condensate})
        spacing(view, service, checks);
}

}  // namespace bw::proof
