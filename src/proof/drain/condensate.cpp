// SPDX-License-Identifier: MIT
// Condensate: a trap at each heater, a neutraliser big enough, plastic on the way, an open end.
#include <map>

#include "code/water.h"
#include "matter/combustion.h"
#include "proof/checks.h"
#include "text/material.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

struct Drain {
    int heater = 0;
    int trap = -1, neutraliser = -1, end = -1;
    bool trapped_alone = false;  ///< the trap stands before the first tee
    std::vector<Step> path;      ///< to the neutraliser, else to the end
};

Drain drain_of(const View& view, int number) {
    Drain drain;
    drain.heater = number;
    const auto walk = view.outward(view.heater_port(number, "condensate"), [&](int piece, int in) {
        return view.piece(piece).part != Part::heater &&
               view.piece(piece).ports[static_cast<std::size_t>(in)].service == Service::condensate;
    });
    int goal = -1;
    for (std::size_t i = 0; i < walk.size(); ++i) {
        const auto part = view.piece(walk[i].piece).part;
        if (part == Part::connection && drain.end < 0) drain.end = walk[i].piece;
        if (part == Part::neutraliser && drain.neutraliser < 0) {
            drain.neutraliser = walk[i].piece;
            goal = static_cast<int>(i);
        }
    }
    drain.path = goal >= 0 ? PlantIndex::back(walk, goal) : walk;
    for (const auto& s : drain.path) {
        const auto part = view.piece(s.piece).part;
        if (part == Part::tee) break;
        if (part == Part::condensate_trap) drain.trap = s.piece;
    }
    drain.trapped_alone = drain.trap >= 0;
    return drain;
}

void trap(const View& view, const Drain& drain, Checks& checks) {
    auto check = new_check("condensate.trap.heater-<n>", {code::condensate_disposal().source}, {{"n", drain.heater}});
    check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    about(check, view, {view.heater_piece(drain.heater), drain.trap});
    const bool built_in = view.heater.condensate_trap_built_in;
    checks.push_back(
        holds(std::move(check), built_in || drain.trapped_alone,
              built_in ? "Its trap is built in."
                       : "A trap of its own stands before any shared drain, so no exhaust comes through.",
              fmt::format("heater {} has no condensate trap of its own before the shared drain.", drain.heater)));
}

/// Most condensate there can be: flue gas leaving at the cold water's temperature.
Result<matter::Condensate> most_condensate(const View& view, Power input) {
    return matter::condensate(*view.survey.gas.kind, input, *view.survey.gas.heating_value, view.heater.excess_air,
                              view.demand.cold);
}

void neutraliser(const View& view, int piece, const std::vector<int>& heaters, Checks& checks) {
    const auto& id = view.piece(piece).id;
    auto check = new_check("condensate.neutraliser.<piece>", view.item(piece) ? view.item(piece)->sources : Sources{},
                           {{"piece", id, view.name(piece)}});
    check.sources.push_back(code::condensate_disposal().source);
    about(check, view, {piece});
    const Power input = static_cast<double>(heaters.size()) * view.heater.input_greatest;
    if (const auto made = most_condensate(view, input)) {
        check.derivation = made->derivation;
        step(check, "Condensate of all of them, as cold as the water.", {}, {{"P", "input", amount(input)}},
             Term{"V", "condensate", amount(made->flow, Kind::hourly_flow)});
    }
    const auto rated = view.number(piece, "rated-input");
    check.says = fmt::format("It serves {} heaters; its rating is by their input.", heaters.size());
    checks.push_back(rated ? at_most(std::move(check), amount(input), amount(*rated * watt))
                           : holds(std::move(check), false, {}, id + " names no rated input."));

    const auto most = most_condensate(view, input);
    check_condensate_bed(view, piece, most ? most->flow : VolumeFlow{}, checks);
}

void neutralisers(const View& view, const std::vector<Drain>& drains, Checks& checks) {
    std::map<int, std::vector<int>> served;
    for (const auto& drain : drains) {
        if (drain.neutraliser >= 0) {
            served[drain.neutraliser].push_back(drain.heater);
            continue;
        }
        auto check =
            new_check("condensate.neutraliser.heater-<n>", {code::condensate_disposal().source}, {{"n", drain.heater}});
        about(check, view, {view.heater_piece(drain.heater)});
        checks.push_back(holds(std::move(check), false, {},
                               fmt::format("heater {}'s condensate reaches no neutraliser.", drain.heater)));
    }
    for (const auto& [piece, heaters] : served) neutraliser(view, piece, heaters, checks);
}

bool eaten(Material m) { return text::family(m) == text::Family::copper || text::family(m) == text::Family::steel; }

void materials(const View& view, Checks& checks) {
    auto check = new_check("condensate.materials", {code::condensate_disposal().source});
    std::vector<int> wrong;
    int seen = 0;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        if (view.piece(i).service != Service::condensate) continue;
        ++seen;
        if (const auto material = view.material(i); material && eaten(*material)) wrong.push_back(i);
    }
    about(check, view, wrong);
    checks.push_back(holds(std::move(check), wrong.empty() && seen > 0,
                           "No pipe or fitting on the way is of copper or steel.",
                           seen == 0 ? "The plant has no condensate pipe."
                                     : fmt::format("{} pieces of copper or steel carry acid.", wrong.size())));
}

void open_end(const View& view, const std::vector<Drain>& drains, Checks& checks) {
    auto check = new_check("condensate.end", {ipc("802.1"), code::condensate_disposal().source});
    std::vector<int> gaps;
    for (const auto& drain : drains)
        for (const auto& s : view.outward(view.heater_port(drain.heater, "condensate"),
                                          [&](int piece, int) { return view.piece(piece).part != Part::heater; }))
            if (view.piece(s.piece).part == Part::air_gap && view.piece(s.piece).service == Service::condensate)
                gaps.push_back(s.piece);
    std::sort(gaps.begin(), gaps.end());
    gaps.erase(std::unique(gaps.begin(), gaps.end()), gaps.end());
    about(check, view, gaps);
    depends_on_fields(check, view.survey, {"connections.drain"});
    if (!gaps.empty()) {
        checks.push_back(holds(std::move(check), true, "It falls through an air gap.", {}));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        "No air gap is drawn: the plumbing inspector confirms on site that the drain is an open, indirect one."));
}

void freezing(const View& view, Checks& checks) {
    auto check = new_check("condensate.freezing", {code::condensate_disposal().source});
    depends_on_fields(check, view.survey, {"room.freezing"});
    if (*view.survey.room.freezing) {
        checks.push_back(reason::referred(std::move(check),
                                          "The room or drain can freeze: a frozen drain stops the heaters. The "
                                          "contractor heats or insulates it and the inspector agrees."));
        return;
    }
    checks.push_back(holds(std::move(check), true, "Room and drain stay above freezing.", {}));
}

}  // namespace

void check_condensate(const View& view, Checks& checks) {
    std::vector<Drain> drains;
    for (int n = 1; n <= view.heaters(); ++n) drains.push_back(drain_of(view, n));
    for (const auto& drain : drains) trap(view, drain, checks);
    neutralisers(view, drains, checks);
    materials(view, checks);
    open_end(view, drains, checks);
    freezing(view, checks);
}

}  // namespace bw::proof
