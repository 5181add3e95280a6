// SPDX-License-Identifier: MIT
// Air for burning: piped from outdoors, or the room's own with its volume and openings.
#include "code/combustion_air.h"
#include "proof/checks.h"
#include "proof/vent/vent_run.h"
#include "shape/polygon.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

Power all_input(const View& view) { return static_cast<double>(view.heaters()) * view.heater.input_greatest; }

void intakes(const View& view, const std::vector<VentRun>& runs, Checks& checks) {
    for (const auto& run : runs) {
        auto check = new_check("air.intake.heater-<n>", view.heater.sources, {{"n", run.heater}});
        about(check, view, {view.heater_piece(run.heater), run.terminal});
        const bool any = run.terminal >= 0, outside = any && outdoors(view, run.terminal);
        depends_on_fields(check, view.survey, {"preferences.room-air"});
        if (outside) check.assumptions.clear();
        if (outside) {
            checks.push_back(holds(std::move(check), true, "Outdoor air is piped to it.", {}));
            continue;
        }
        checks.push_back(holds(
            std::move(check), any && view.heater.room_air_allowed, "It burns the room's air, which its listing allows.",
            any ? fmt::format("heater {} burns the room's air, which its listing does not allow.", run.heater)
                : fmt::format("heater {}'s intake leads nowhere.", run.heater)));
    }
}

void clean(const View& view, bool room_air, Checks& checks) {
    const auto rule = code::clean_air();
    auto check = new_check("air.clean", {rule.source});
    depends_on_fields(check, view.survey, {"building.chemistry-in-air"});
    about(check, view, view.of(Part::intake_terminal));
    if (!view.survey.use.chemistry_in_air) {
        checks.push_back(holds(std::move(check), true, "No such chemistry near the heaters' air.", {}));
        return;
    }
    if (room_air) {
        checks.push_back(holds(std::move(check), false, {},
                               "The room's air carries chemistry that eats heaters: pipe in outdoor air."));
        return;
    }
    checks.push_back(reason::referred(std::move(check),
                                      "Outdoor air is piped in, as it must be here. Whoever surveys the site confirms "
                                      "that the intakes keep clear of dryer, pool and salon exhaust."));
}

void volume(const View& view, Checks& checks) {
    const double air_changes = *view.survey.room.air_changes;
    const auto known = code::indoor_air_volume(all_input(view), air_changes, code::Draft::fan_assisted);
    const auto rule = known ? *known : code::indoor_air_volume(all_input(view));
    auto check = new_check("air.volume", rule.sources);
    check.derivation = rule.derivation;
    depends_on_fields(check, view.survey, {"room.air-changes", "room.ceiling"});
    const auto& room = view.survey.room;
    const double area = std::fabs(shape::signed_area(room.plan));
    const Length height = room.slope ? shape::volume_under(room.overhead(), room.plan) / area * metre : *room.ceiling;
    const Volume have = area * height.value() * cubic_metre;
    step(check, "The room as surveyed.", "V = A h",
         {{"h", room.slope ? "mean height under the sloping ceiling" : "ceiling", amount(height)}},
         Term{"V", "room volume", amount(have, Kind::room_volume)});
    check.says = "The room alone gives enough air.";
    check = at_least(std::move(check), amount(have, Kind::room_volume), amount(rule.value, Kind::room_volume));
    if (check.status == Status::fail)
        check = reason::referred(std::move(check),
                                 "The room alone is too small: one of the ways of air.openings or air.mechanical must "
                                 "be built. A licensed mechanical contractor chooses and the inspector accepts it.");
    checks.push_back(std::move(check));
}

void openings(const View& view, Checks& checks) {
    auto check = new_check("air.openings", {});
    struct Method {
        code::Openings openings;
        const char* says;
    };
    for (const auto& method :
         {Method{code::Openings::outdoors_two_direct, "Two openings straight to outdoors, or by vertical ducts."},
          Method{code::Openings::outdoors_two_horizontal, "Two openings by horizontal ducts."},
          Method{code::Openings::outdoors_one, "One opening."}}) {
        const auto rule = code::air_opening(all_input(view), method.openings);
        check.sources.insert(check.sources.end(), rule.sources.begin(), rule.sources.end());
        step(check, method.says, {}, {{"n", "openings", count(rule.value.number)}},
             Term{"A", "free area of each", amount(rule.value.each)});
        if (const auto gross = code::louver_area(rule.value.each))
            step(check, "Behind a metal louver of unknown free area.", "Ag = A / 0.75",
                 {{"A", "free area", amount(rule.value.each)}}, Term{"Ag", "louver", amount(gross->value)});
    }
    check.sources.push_back(code::air_opening_least_side().source);
    const auto two = code::air_opening(all_input(view), code::Openings::outdoors_two_direct);
    check.value = amount(two.value.each);
    checks.push_back(reason::referred(std::move(check),
                                      "No opening is drawn in the walls: the mechanical contractor builds one method "
                                      "and the inspector measures it."));
}

void mechanical(const View& view, Checks& checks) {
    const auto rule = code::mechanical_air(all_input(view));
    auto check = new_check("air.mechanical", rule.sources);
    check.derivation = rule.derivation;
    check.value = amount(rule.value, Kind::air_flow);
    checks.push_back(reason::referred(std::move(check),
                                      "A fan of this flow, interlocked with the burners, serves instead of openings. A "
                                      "licensed mechanical contractor decides."));
}

}  // namespace

void check_air(const View& view, Checks& checks) {
    const auto runs = vent_runs(view, "intake");
    const bool room_air = std::any_of(runs.begin(), runs.end(), [&](const VentRun& run) {
        return run.terminal < 0 || !outdoors(view, run.terminal);
    });
    intakes(view, runs, checks);
    clean(view, room_air, checks);
    if (!room_air) return;
    volume(view, checks);
    openings(view, checks);
    mechanical(view, checks);
}

}  // namespace bw::proof
