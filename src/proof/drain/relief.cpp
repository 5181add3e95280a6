// SPDX-License-Identifier: MIT
// Relief valves: an open way from each heater, enough capacity, set low enough, and a discharge to a safe place.
#include "code/relief.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::metre;
using units::pascal;
using units::watt;

/// A way from a relief valve to the heater it protects, and the port its discharge leaves by.
struct Protection {
    int valve = -1;
    int heater = 0;
    PortRef outlet;
    std::vector<int> between;  ///< pieces from the valve to the heater
    std::string blocked;       ///< what stands in the way; empty when nothing does
};

/// Whether a piece on the way from relief valve to heater can shut it. A hot service valve holds its relief port on the
/// heater's side (port "b", as branches are laid from the header up) of its own ball, so the way between those two
/// stays open.
bool can_shut(const View& view, const std::vector<Step>& path, std::size_t at) {
    const auto& piece = view.piece(path[at].piece);
    if (!is_valve(piece.part)) return false;
    if (piece.part != Part::service_valve_hot || piece.ports[static_cast<std::size_t>(path[at].in)].name != "relief")
        return true;
    if (at + 1 == path.size()) return true;
    const auto left_by = view.plant.mate({path[at + 1].piece, path[at + 1].in});
    return piece.ports[static_cast<std::size_t>(left_by.port)].name != "b";
}

/// The first piece on the way that can shut it; empty when none can.
std::string shut_by(const View& view, const std::vector<Step>& path) {
    for (std::size_t i = 0; i < path.size(); ++i)
        if (can_shut(view, path, i)) return view.name(path[i].piece);
    return {};
}

/// The nearest heater a port of the valve leads to, at its hot or cold port.
Protection by_port(const View& view, int valve, int port) {
    const auto walk =
        view.outward({valve, port}, [&](int piece, int) { return view.piece(piece).part != Part::heater; });
    for (std::size_t i = 0; i < walk.size(); ++i) {
        const auto& piece = view.piece(walk[i].piece);
        if (piece.part != Part::heater) continue;
        const auto service = piece.ports[static_cast<std::size_t>(walk[i].in)].service;
        if (service != Service::hot && service != Service::cold) continue;
        Protection found{valve, piece.heater, {}, {}, {}};
        const auto path = PlantIndex::back(walk, static_cast<int>(i));
        for (const auto& s : path) found.between.push_back(s.piece);
        found.blocked = shut_by(view, path);
        return found;
    }
    return {};
}

std::vector<Protection> protections(const View& view) {
    std::vector<Protection> found;
    for (const int valve : view.of(Part::relief_valve)) {
        Protection best;
        for (int port = 0; port < static_cast<int>(view.piece(valve).ports.size()); ++port) {
            if (!carries_flow(view.piece(valve).ports[static_cast<std::size_t>(port)].service)) continue;
            auto way = by_port(view, valve, port);
            if (way.valve >= 0 && best.valve < 0)
                best = std::move(way);
            else
                best.outlet = {valve, port};
        }
        if (best.valve >= 0) found.push_back(std::move(best));
    }
    return found;
}

void present(const View& view, int n, const std::vector<Protection>& own, Checks& checks) {
    auto check = new_check("water.relief.heater-<n>", {code::relief_no_valve().source}, {{"n", n}});
    about(check, view, {view.heater_piece(n)});
    std::string blocked;
    for (const auto& way : own) {
        about(check, view, {way.valve});
        if (!way.blocked.empty())
            blocked = fmt::format("{} stands between heater {} and {}", way.blocked, n, view.name(way.valve));
    }
    const bool open = std::any_of(own.begin(), own.end(), [](const auto& way) { return way.blocked.empty(); });
    checks.push_back(holds(std::move(check), open, "An open way leads from the heater to its relief valve.",
                           own.empty() ? fmt::format("heater {} has no relief valve.", n)
                                       : "A valve can shut the relief off: " + blocked + "."));
}

void capacity(const View& view, int n, const std::vector<Protection>& own, Checks& checks) {
    const auto rule = code::relief_capacity(view.heater.input_greatest);
    auto check = new_check("water.relief-capacity.heater-<n>", rule.sources, {{"n", n}});
    check.derivation = rule.derivation;
    double relieved = 0;
    for (const auto& way : own) {
        about(check, view, {way.valve});
        if (way.blocked.empty()) relieved += view.number(way.valve, "capacity").value_or(0);
    }
    check.says = "Open relief valves of the heater against its full input.";
    checks.push_back(at_least(std::move(check), amount(relieved * watt), amount(rule.value)));
}

/// The least rating of anything a relief valve protects.
units::Pressure weakest(const View& view, std::string& which) {
    auto least = view.heater.relief_greatest;
    which = "the heater";
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto* row = view.pipe(i);
        const auto service = view.piece(i).service;
        if (!row || row->rating.value() <= 0 || (service != Service::hot && service != Service::cold) ||
            row->rating >= least)
            continue;
        least = row->rating;
        which = view.name(i);
    }
    return least;
}

void setting(const View& view, int n, const std::vector<Protection>& own, const code::Ruled<units::Pressure>& rule,
             const std::string& weakest_part, Checks& checks) {
    auto check = new_check("water.relief-set.heater-<n>", rule.sources, {{"n", n}});
    check.derivation = rule.derivation;
    double highest = 0;
    for (const auto& way : own) {
        about(check, view, {way.valve});
        const auto set = view.number(way.valve, "set-pressure");
        if (!set) {
            checks.push_back(holds(std::move(check), false, {}, view.name(way.valve) + " names no set pressure."));
            return;
        }
        highest = std::max(highest, *set);
    }
    if (own.empty()) {
        checks.push_back(holds(std::move(check), false, {}, fmt::format("heater {} has no relief valve.", n)));
        return;
    }
    check.says = fmt::format("Set no higher than 150 psi or the weakest part, here {}.", weakest_part);
    checks.push_back(at_most(std::move(check), amount(highest * pascal), amount(rule.value)));
}

/// Why a discharge breaks its rules, and the air gap it ends in (-1 when none).
struct Discharge {
    std::string wrong;
    int end = -1;
    std::vector<int> pieces;
};

Discharge discharge_of(const View& view, const Protection& way) {
    Discharge found;
    if (way.outlet.piece < 0) return {view.name(way.valve) + " has no outlet", -1, {}};
    const auto& outlet = view.plant.at(way.outlet);
    const auto walk = view.outward(way.outlet, [&](int piece, int) { return view.piece(piece).part != Part::air_gap; });
    double level = outlet.at.z;
    for (const auto& s : walk) {
        const auto& piece = view.piece(s.piece);
        found.pieces.push_back(s.piece);
        if (piece.part == Part::air_gap) found.end = s.piece;
        if (piece.part == Part::relief_valve)
            found.wrong = view.name(s.piece) + " shares it";
        else if (piece.part == Part::tee)
            found.wrong = view.name(s.piece) + " is a tee";
        else if (piece.part == Part::condensate_trap)
            found.wrong = view.name(s.piece) + " traps it";
        else if (is_valve(piece.part))
            found.wrong = view.name(s.piece) + " is a valve";
        else if (piece.part == Part::cap)
            found.wrong = view.name(s.piece) + " closes it";
        if (!found.wrong.empty()) return found;
        for (const auto& port : piece.ports) {
            if (!carries_flow(port.service)) continue;
            if (piece.part != Part::air_gap && port.size < outlet.size)
                found.wrong = view.name(s.piece) + " is smaller than the valve's outlet";
            if (port.at.z > level + 1e-3) found.wrong = view.name(s.piece) + " rises, so water stands before it";
        }
        level = std::min(level, piece.ports[static_cast<std::size_t>(s.in)].at.z);
        if (!found.wrong.empty()) return found;
    }
    if (found.end < 0)
        found.wrong =
            walk.empty() ? view.name(way.valve) + "'s outlet is joined to nothing" : "it ends without an air gap";
    return found;
}

/// Lowest point of the open pipe end over the floor.
double end_height(const Piece& gap) {
    double z = gap.ports.empty() ? 0 : gap.ports.front().at.z;
    for (const auto& port : gap.ports)
        if (carries_flow(port.service)) z = std::max(z, port.at.z);
    return z;
}

void discharge(const View& view, int n, const std::vector<Protection>& own, Checks& checks) {
    Sources sources;
    for (const auto& rule : code::relief_discharge_rules()) sources.push_back(rule.source);
    sources.erase(std::unique(sources.begin(), sources.end()), sources.end());
    auto pipe = new_check("water.relief-discharge.heater-<n>", sources, {{"n", n}});
    auto end = new_check("water.relief-end.heater-<n>", {code::relief_discharge_height().source}, {{"n", n}});
    if (own.empty()) {
        const auto why = fmt::format("heater {} has no relief valve.", n);
        checks.push_back(holds(std::move(pipe), false, {}, why));
        checks.push_back(holds(std::move(end), false, {}, why));
        return;
    }
    std::string wrong;
    int gap = -1;
    for (const auto& way : own) {
        const auto found = discharge_of(view, way);
        about(pipe, view, {way.valve});
        about(pipe, view, found.pieces);
        if (!found.wrong.empty()) wrong = fmt::format("The discharge of heater {}: {}.", n, found.wrong);
        if (found.end >= 0) gap = found.end;
    }
    checks.push_back(holds(
        std::move(pipe), wrong.empty(),
        "One full-size pipe of its own, falling all the way, no valve, tee or trap, ending in an air gap.", wrong));
    if (gap < 0) {
        checks.push_back(
            holds(std::move(end), false, {}, fmt::format("heater {}: its discharge ends in no air gap.", n)));
        return;
    }
    about(end, view, {gap});
    const double above = end_height(view.piece(gap));
    const auto least =
        2.0 * (view.piece(gap).ports.empty() ? 0.0 : view.piece(gap).ports.front().size.eighths / 8.0) * units::inch;
    step(end, "Not less than two pipe diameters either.", "h >= 2 D",
         {{"h", "height of the end", amount(above * metre)}}, Term{"2 D", "least", amount(least)});
    if (above * metre < least) {
        end.says = "The end stands closer to the floor than two pipe diameters.";
        checks.push_back(at_least(std::move(end), amount(above * metre), amount(least)));
        return;
    }
    end.says = "Low enough not to scald a bystander, high enough to stay an air gap.";
    checks.push_back(at_most(std::move(end), amount(above * metre), amount(code::relief_discharge_height().value)));
}

void safe_place(const View& view, Checks& checks) {
    auto check = new_check("water.relief-place", {ipc("504.6")});
    about(check, view, view.of(Part::air_gap));
    checks.push_back(reason::referred(std::move(check),
                                      "CAUTION: what leaves is scalding. The plumbing inspector confirms on site that "
                                      "every discharge is seen, drains away and does no harm."));
}

}  // namespace

void check_relief(const View& view, Checks& checks) {
    const auto all = protections(view);
    std::string weakest_part;
    const auto rule = code::relief_set_limit(weakest(view, weakest_part));
    for (int n = 1; n <= view.heaters(); ++n) {
        std::vector<Protection> own;
        std::copy_if(all.begin(), all.end(), std::back_inserter(own), [&](const auto& way) { return way.heater == n; });
        present(view, n, own, checks);
        capacity(view, n, own, checks);
        setting(view, n, own, rule, weakest_part, checks);
        discharge(view, n, own, checks);
    }
    safe_place(view, checks);
}

}  // namespace bw::proof
