// SPDX-License-Identifier: MIT
// Rules that change with one heater's or the whole room's input, and holes through rated walls.
#include "code/clearances.h"
#include "code/vent_terminal.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;

void one_heater(const View& view, Checks& checks) {
    const auto rule = code::heater_class(view.heater.input_greatest, view.heater.setpoint_greatest, view.heater.water);
    auto check = new_check("room.pressure-vessel", rule.sources);
    check.derivation = rule.derivation;
    check.says = rule.value.says + ".";
    check = at_most(std::move(check), amount(view.heater.input_greatest), amount(200.0 * units::kbtu_per_hour));
    if (rule.value.boiler_rules) {
        checks.push_back(
            reason::referred(std::move(check), rule.value.says + ". The state's boiler inspector decides."));
        return;
    }
    checks.push_back(std::move(check));
}

void whole_room(const View& view, Checks& checks) {
    const auto rule = code::room_separation_input();
    const auto all = static_cast<double>(view.heaters()) * view.heater.input_greatest;
    auto check = new_check("room.input", {rule.source, imc("1004, 1006")});
    step(check, "All heaters at sea-level input.", "P = n p",
         {{"n", "heaters", units::count(view.heaters())}, {"p", "one heater", amount(view.heater.input_greatest)}},
         Term{"P", "input in the room", amount(all)});
    check.says = "Below the input at which a room is separated.";
    check = at_most(std::move(check), amount(all), amount(rule.value));
    if (check.status != Status::fail) {
        checks.push_back(std::move(check));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        rule.says + ". State boiler law and city rules also change at this input (room construction, second exit, "
                    "operator's licence, yearly inspection): the building official and the boiler inspector decide."));
}

/// Index of the room's wall a point stands in or just behind, by its place outside; -1 for none.
int wall_at(const View& view, shape::Vec at, double reach) {
    const auto& plan = view.survey.room.plan;
    int nearest = -1;
    double best = reach;
    for (std::size_t i = 0; i < plan.size(); ++i) {
        const auto a = plan[i], b = plan[(i + 1) % plan.size()];
        const double dx = b.x - a.x, dy = b.y - a.y, len = std::hypot(dx, dy);
        const double t = std::clamp(((at.x - a.x) * dx + (at.y - a.y) * dy) / (len * len), 0.0, 1.0);
        const double d = std::hypot(at.x - a.x - t * dx, at.y - a.y - t * dy);
        if (d < best) best = d, nearest = static_cast<int>(i);
    }
    return nearest;
}

bool has_firestop(const View& view, shape::Vec at) {
    for (const int f : view.of(Part::firestop))
        for (const auto& port : view.piece(f).ports)
            if (shape::distance(port.at, at) < 0.6) return true;
    return false;
}

/// A plane that slopes says nothing of places outside the room's plan.
bool through_ceiling(const survey::Room& room, shape::Vec at) {
    return at.z >= room.overhead().at(at) && (!room.slope || shape::inside(room.plan, {at.x, at.y}, 1e-6));
}

void firestops(const View& view, Checks& checks) {
    const auto rule = code::penetration_firestop();
    for (std::size_t w = 0; w < view.survey.room.walls.size(); ++w) {
        const auto& wall = view.survey.room.walls[w];
        std::vector<int> holes, open, buildings;
        for (const auto part : {Part::vent_terminal, Part::intake_terminal})
            for (const int i : view.of(part)) {
                const auto at = view.piece(i).ports.front().at;
                if (through_ceiling(view.survey.room, at) || wall_at(view, at, 0.9) != static_cast<int>(w)) continue;
                holes.push_back(i);
                if (!has_firestop(view, at)) open.push_back(i);
            }
        for (const int i : view.of(Part::connection))
            if (carries_flow(view.piece(i).service) && !view.piece(i).ports.empty() &&
                wall_at(view, view.piece(i).ports.front().at, 0.05) == static_cast<int>(w))
                buildings.push_back(i);
        if (holes.empty() && buildings.empty()) continue;
        auto check = new_check("room.firestop.wall-<w>", {rule.source}, {{"w", wall.number}});
        depends_on_fields(check, view.survey, {fmt::format("room.wall.{}.rated", wall.number)});
        about(check, view, holes);
        about(check, view, buildings);
        if (!*wall.rated) {
            check.sources = {given(fmt::format("room.wall.{}.rated", wall.number))};
            checks.push_back(holds(std::move(check), true, fmt::format("Wall {} is not fire-rated.", wall.number), {}));
        } else if (!open.empty()) {
            checks.push_back(holds(std::move(check), false, {},
                                   fmt::format("{} goes through rated wall {} without a firestop.",
                                               view.name(open.front()), wall.number)));
        } else {
            checks.push_back(reason::referred(
                std::move(check),
                fmt::format("{} of the plant's holes through rated wall {} have their firestop; the building's own "
                            "pipes come through it too. The building inspector accepts the listed systems.",
                            holes.size(), wall.number)));
        }
    }
}

void rating(const View& view, Checks& checks) {
    auto check = new_check("room.rating", {ibc("Table 509, 707")});
    depends_on_fields(check, view.survey, {"room.wall"});
    checks.push_back(reason::referred(
        std::move(check), "Whether the room must be separated, and by how much, is for the building official."));
}

}  // namespace

void check_room_rules(const View& view, Checks& checks) {
    one_heater(view, checks);
    whole_room(view, checks);
    firestops(view, checks);
    rating(view, checks);
}

}  // namespace bw::proof
