// SPDX-License-Identifier: MIT
// Circuits followed from each breaker to the heaters it feeds: load, split, disconnects; the panel's working space.
#include "code/electric.h"
#include "code/clearances.h"
#include "plant/stations.h"
#include "proof/checks.h"
#include "proof/power/power_run.h"

namespace bw::proof {
namespace {

using units::amount;
using units::ampere;
using units::count;
using units::metre;
using units::percent;

units::Current each(const View& view) { return std::max(view.heater.current_running, view.heater.current_freeze); }

void load(const View& view, const Circuit& circuit, Checks& checks) {
    const auto& id = view.piece(circuit.breaker).id;
    const auto share = code::continuous_load_share();
    auto check = new_check("electric.load.<piece>", {share.source}, {{"piece", id, view.name(circuit.breaker)}});
    about(check, view, {circuit.breaker});
    for (const auto& fed : circuit.fed) about(check, view, {view.heater_piece(fed.heater)});
    auto drawn = static_cast<double>(circuit.fed.size()) * each(view);
    if (circuit.pump >= 0) {
        drawn = drawn + view.number(circuit.pump, "rating").value_or(0) * ampere;
        about(check, view, {circuit.pump});
        step(check, "The condensate pump's running current, as a continuous load.", {}, {},
             Term{"I", "load", amount(drawn)});
    } else {
        step(
            check, "The greater of running and freeze protection, as a continuous load.", "I = n i",
            {{"n", "heaters", count(static_cast<double>(circuit.fed.size()))}, {"i", "one heater", amount(each(view))}},
            Term{"I", "load", amount(drawn)});
    }
    const auto rating = view.number(circuit.breaker, "rating");
    if (!rating) {
        checks.push_back(holds(std::move(check), false, {}, view.name(circuit.breaker) + " names no rating."));
        return;
    }
    check.says = share.says;
    checks.push_back(at_most(std::move(check), amount(drawn), amount(share.value * *rating * ampere)));
}

void split(const View& view, const std::vector<Circuit>& circuits, Checks& checks) {
    const auto limit = code::circuit_share_limit();
    auto check = new_check("electric.split", {limit.source});
    std::size_t largest = 0;
    std::size_t of_heaters = 0;
    for (const auto& circuit : circuits) {
        if (circuit.pump >= 0) continue;
        ++of_heaters;
        largest = std::max(largest, circuit.fed.size());
        about(check, view, {circuit.breaker});
    }
    if (view.heaters() < 2) {
        checks.push_back(reason::referred(std::move(check),
                                          "One heater cannot be split: the owner decides whether an outage matters."));
        return;
    }
    const double share = static_cast<double>(largest) / view.heaters();
    step(check, fmt::format("{} circuits; the fullest feeds {} of {} heaters.", of_heaters, largest, view.heaters()));
    check.says = limit.says;
    checks.push_back(at_most(std::move(check), percent(share), percent(limit.value)));
}

void disconnects(const View& view, const std::vector<Circuit>& circuits, Checks& checks) {
    for (int n = 1; n <= view.heaters(); ++n) {
        auto check = new_check("electric.disconnect.heater-<n>",
                               {code::disconnect_in_sight().source, code::in_sight_distance().source}, {{"n", n}});
        about(check, view, {view.heater_piece(n)});
        const Fed* found = nullptr;
        for (const auto& circuit : circuits)
            for (const auto& fed : circuit.fed)
                if (fed.heater == n) found = &fed;
        if (!found || found->disconnect < 0) {
            checks.push_back(
                holds(std::move(check), false, {},
                      found ? fmt::format("heater {} has no disconnect between its circuit and its power port.", n)
                            : fmt::format("heater {} is on no circuit.", n)));
            continue;
        }
        about(check, view, {found->disconnect});
        const auto away = shape::distance(view.piece(found->disconnect).ports.front().at,
                                          view.plant.at(view.heater_port(n, "power")).at) *
                          metre;
        check.says = code::in_sight_distance().says;
        checks.push_back(at_most(std::move(check), amount(away), amount(code::in_sight_distance().value)));
    }
}

constexpr double box_tolerance = 0.0254 / 8;

/// The widest and the narrowest panel usual (common practice, no source).
constexpr double wide_panel = plant::stations::panel_body_width, narrow_panel = plant::stations::panel_narrow;

/// Boxes that cover a panel's own width, the middle one first: the code leaves open how far the space stands to either
/// side.
std::vector<shape::Box> in_front(const survey::Connection& panel, const code::WorkingSpace& space, double body) {
    constexpr double step = 0.0254 / 4;
    const shape::Vec out = panel.facing, side = shape::cross(shape::up, out);
    const double half = 0.5 * space.width.value(), most = half - body / 2;
    const shape::Vec foot{panel.at.x, panel.at.y, 0};
    std::vector<shape::Box> boxes;
    for (double aside = 0; aside <= most + 1e-9; aside += step)
        for (const double shift : {aside, -aside})
            boxes.push_back(shape::box_of(
                foot + (shift - half) * side,
                foot + (shift + half) * side + space.depth.value() * out + shape::Vec{0, 0, space.height.value()}));
    return boxes;
}

/// What stands in a box: pieces but those of the panel's own work.
std::vector<int> pieces_in(const View& view, const shape::Box& box) {
    std::vector<int> inside;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        if (piece.part == Part::panel_feed || piece.part == Part::cable || piece.part == Part::connection) continue;
        if (std::any_of(piece.solids.begin(), piece.solids.end(),
                        [&](const auto& solid) { return shape::overlap(shape::bounds(solid), box, box_tolerance); }))
            inside.push_back(i);
    }
    return inside;
}

std::string obstacle_in(const View& view, const shape::Box& box) {
    for (const auto& o : view.survey.room.obstacles)
        if (shape::overlap(o.box, box, box_tolerance)) return o.name;
    return "";
}

bool within_walls(const View& view, const shape::Box& box) {
    for (const double x : {box.min.x + box_tolerance, box.max.x - box_tolerance})
        for (const double y : {box.min.y + box_tolerance, box.max.y - box_tolerance})
            if (!shape::inside(view.survey.room.plan, {x, y}, 1e-5)) return false;
    return true;
}

struct InTheWay {
    std::string what;  ///< nothing: the space is free
    std::vector<int> pieces;
};

/// What stands in the freest of the boxes: in the middle one, where none is free.
InTheWay in_the_way(const View& view, const std::vector<shape::Box>& boxes) {
    std::optional<InTheWay> first;
    for (const auto& box : boxes) {
        InTheWay here{{}, pieces_in(view, box)};
        here.what = !here.pieces.empty() ? view.name(here.pieces.front()) : obstacle_in(view, box);
        if (here.what.empty() && !within_walls(view, box)) here.what = "a wall";
        if (here.what.empty()) return here;
        if (!first) first = std::move(here);
    }
    return first.value_or(InTheWay{});
}

void panel_space(const View& view, Checks& checks) {
    const auto rule = code::electrical_working_space();
    const auto& panel = view.survey.room.panel;
    auto check = new_check("electric.panel-space", {rule.source});
    depends_on_fields(check, view.survey, {"connections.panel"});
    if (!panel.given) {
        checks.push_back(reason::referred(
            std::move(check),
            "The survey names no panel in the room: a licensed electrician finds one and its working space."));
        return;
    }
    const auto wide = in_the_way(view, in_front(panel, rule.value, wide_panel));
    if (!wide.what.empty() && in_the_way(view, in_front(panel, rule.value, narrow_panel)).what.empty()) {
        checks.push_back(reason::referred(
            std::move(check),
            rule.says + ", wherever it covers the panel: it is free only so far to one side that the panel may be no "
                        "wider than 14-1/2 in. A licensed electrician measures it."));
        return;
    }
    if (wide.pieces.empty() && !wide.what.empty()) {
        checks.push_back(reason::referred(
            std::move(check),
            fmt::format(
                "CAUTION: mains. {} was there before the plant and stands in the panel's working space, wherever "
                "that is put; nothing of the plant does. A licensed electrician decides whether the panel moves.",
                wide.what)));
        return;
    }
    about(check, view, wide.pieces);
    checks.push_back(holds(std::move(check), wide.what.empty(),
                           rule.says + ", wherever it covers the panel: nothing stands there.",
                           wide.what + " stands in the panel's working space, wherever that is put."));
}

/// NEC 110.26(E): over the panel's own footprint, up to 6 ft above it, nothing foreign.
void panel_dedicated(const View& view, Checks& checks) {
    const auto& panel = view.survey.room.panel;
    if (!panel.given || std::abs(panel.facing.z) > 0.5) return;
    using namespace plant::stations;  // NOLINT
    constexpr double half = panel_body_width / 2, deep = panel_body_depth, head = work_height,
                     over = plant::stations::panel_dedicated;
    const shape::Vec side = shape::cross(shape::up, panel.facing), foot{panel.at.x, panel.at.y, head};
    const double ceiling = view.survey.room.overhead().at(panel.at);
    if (ceiling <= head) return;
    const auto box = shape::box_of(foot - half * side, foot + half * side + deep * panel.facing +
                                                           shape::Vec{0, 0, std::min(over, ceiling - head)});
    auto check = new_check("electric.panel-dedicated", {nec("110.26(E)")});
    depends_on_fields(check, view.survey, {"connections.panel"});
    const auto inside = pieces_in(view, box);
    about(check, view, inside);
    checks.push_back(holds(std::move(check), inside.empty(),
                           "Over the panel's footprint (20 in wide, 6 in deep, common practice) no pipe or vent runs.",
                           inside.empty() ? "" : view.name(inside.front()) + " runs over the panel."));
}

void licensed(const View& view, Checks& checks) {
    auto check = new_check("electric.panel", {nec("110, 210, 250")});
    about(check, view, view.of(Part::panel_feed));
    checks.push_back(reason::referred(std::move(check),
                                      "CAUTION: mains. The panel's spare capacity and faults were not surveyed: a "
                                      "licensed electrician designs and connects the circuits."));
}

}  // namespace

void check_electric(const View& view, Checks& checks) {
    const auto circuits = circuits_of(view);
    for (const auto& circuit : circuits) load(view, circuit, checks);
    split(view, circuits, checks);
    disconnects(view, circuits, checks);
    panel_space(view, checks);
    panel_dedicated(view, checks);
    licensed(view, checks);
}

}  // namespace bw::proof
