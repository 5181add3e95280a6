// SPDX-License-Identifier: MIT
// What the jurisdiction asks for: emergency stop, carbon monoxide detection, the adopted codes and their amendments.
#include "proof/checks.h"
#include "proof/power/power_run.h"
#include "reason/document.h"

namespace bw::proof {
namespace {

using units::amount;

/// Middle of a door's opening on the floor.
shape::Vec doorway(const survey::Room& room, const survey::Door& door) {
    const auto a = room.plan[static_cast<std::size_t>(door.wall)],
               b = room.plan[(static_cast<std::size_t>(door.wall) + 1) % room.plan.size()];
    const double len = std::hypot(b.x - a.x, b.y - a.y), s = door.offset.value() + 0.5 * door.width.value();
    return {a.x + s * (b.x - a.x) / len, a.y + s * (b.y - a.y) / len, 0};
}

double to_door(const View& view, shape::Vec at) {
    double nearest = 1e9;
    for (const auto& door : view.survey.room.doors) {
        const auto place = doorway(view.survey.room, door);
        nearest = std::min(nearest, std::hypot(at.x - place.x, at.y - place.y) - 0.5 * door.width.value());
    }
    return std::max(0.0, nearest);
}

void emergency_stop(const View& view, Checks& checks) {
    auto check = new_check("safety.emergency-stop", {reason::cite(reason::Document::asme_csd_1, "CE-110(a)"),
                                                     given("safety.emergency-stop-required")});
    depends_on_fields(check, view.survey, {"safety.emergency-stop-required"});
    const auto& stops = view.of(Part::emergency_stop);
    about(check, view, stops);
    if (!*view.survey.emergency_stop_required) {
        checks.push_back(
            reason::referred(std::move(check), "The survey says none is asked for: the boiler inspector confirms."));
        return;
    }
    int stopped = 0;
    for (const auto& circuit : circuits_of(view))
        for (const auto& fed : circuit.fed) stopped += fed.stopped;
    if (stops.empty() || stopped < view.heaters()) {
        checks.push_back(
            holds(std::move(check), false, {},
                  stops.empty() ? std::string("An emergency stop is asked for and the plant has none.")
                                : fmt::format("The emergency stop cuts {} of {} heaters.", stopped, view.heaters())));
        return;
    }
    const double away = to_door(view, view.piece(stops.front()).ports.front().at);
    step(check, "It cuts every heater's power. How near the door is common practice, no source.", {}, {},
         Term{"d", "from the door's jamb", amount(away * units::metre)});
    check.says = "One push by the door stops every burner.";
    checks.push_back(at_most(std::move(check), amount(away * units::metre), amount(3.0 * units::foot)));
}

void co_alarm(const View& view, Checks& checks) {
    auto check = new_check("safety.co-alarm", {reason::cite(reason::Document::ifc, "915", Standing::memory),
                                               given("safety.co-alarm-required")});
    depends_on_fields(check, view.survey, {"safety.co-alarm-required"});
    about(check, view, view.of(Part::co_alarm));
    if (!*view.survey.co_alarm_required) {
        checks.push_back(
            reason::referred(std::move(check), "The survey says none is asked for: the fire official confirms."));
        return;
    }
    if (view.of(Part::co_alarm).empty()) {
        checks.push_back(
            holds(std::move(check), false, {}, "Carbon monoxide detection is asked for and the plant has none."));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        "An alarm is in the room; the fire official says where else one belongs and what it must report to."));
}

void codes(const View& view, Checks& checks) {
    auto check = new_check("safety.codes", {given("codes")});
    std::string list;
    for (const auto& code : view.survey.codes)
        list += fmt::format("{}{} {}", list.empty() ? "" : ", ", code.document, code.edition);
    if (view.survey.codes.empty()) {
        checks.push_back(reason::referred(std::move(check),
                                          "The survey names no adopted code: every check that leans on a code clause "
                                          "refers to the local authority."));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("Given as adopted: {}. The local authority confirms documents and editions.", list)));
}

void amendments(const View& view, Checks& checks) {
    auto check = new_check("safety.amendments", {given("codes.amendments")});
    for (const auto& code : view.survey.codes)
        step(check, fmt::format("{} {}: {}.", code.document, code.edition,
                                code.amendments.empty() ? "no amendments stated" : code.amendments));
    checks.push_back(reason::referred(
        std::move(check), "Local amendments are not worked into these checks: the permit office says which apply."));
}

}  // namespace

void check_safety(const View& view, Checks& checks) {
    emergency_stop(view, checks);
    co_alarm(view, checks);
    codes(view, checks);
    amendments(view, checks);
}

}  // namespace bw::proof
