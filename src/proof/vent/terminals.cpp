// SPDX-License-Identifier: MIT
// Where vents and intakes end.
#include "code/vent_terminal.h"
#include "proof/checks.h"
#include "proof/vent/vent_run.h"

namespace bw::proof {
namespace {

using units::amount;

bool piped_air(const View& view) {
    const auto& intakes = view.of(Part::intake_terminal);
    return !intakes.empty() && std::all_of(intakes.begin(), intakes.end(), [&](int i) { return outdoors(view, i); });
}

std::vector<code::TerminalDistance> distances(const View& view) {
    return piped_air(view) ? code::direct_vent_distances(view.heater.input_greatest)
                           : code::mechanical_draft_distances();
}

void surroundings(const View& view, Checks& checks) {
    auto check = new_check("vent.terminal", {});
    for (const auto& distance : distances(view)) {
        check.sources.push_back(distance.least.source);
        step(check, "From " + distance.from + ": " + distance.least.says, {}, {},
             Term{"d", "least distance", amount(distance.least.value)});
    }
    check.sources.push_back(code::condensing_terminal_walkway().source);
    check.sources.erase(std::unique(check.sources.begin(), check.sources.end()), check.sources.end());
    about(check, view, view.of(Part::vent_terminal));
    depends_on_fields(check, view.survey, {"room.terminal-clear", "connections.exhaust"});
    if (!*view.survey.room.terminal_clear || !check.assumptions.empty()) {
        checks.push_back(
            reason::referred(std::move(check),
                             "CAUTION: exhaust near openings poisons. Doors, windows, inlets, walkways, ground and lot "
                             "lines near the terminals were not surveyed: "
                             "whoever surveys the site and the mechanical inspector decide by these distances."));
        return;
    }
    checks.push_back(holds(std::move(check), true,
                           "The survey says the surroundings are clear by these distances; the inspector sees them.",
                           {}));
}

void walkway(const View& view, Checks& checks) {
    const auto rule = code::condensing_terminal_walkway();
    auto check = new_check("vent.plume", {rule.source});
    about(check, view, view.of(Part::vent_terminal));
    checks.push_back(reason::referred(std::move(check),
                                      "Where the plume drifts, wets and freezes is seen on site: " + rule.says + "."));
}

/// Exhaust drawn back into an intake: the maker's instructions say how far apart, the nearest pair is measured here.
void apart(const View& view, Checks& checks) {
    const auto &vents = view.of(Part::vent_terminal), &intakes = view.of(Part::intake_terminal);
    if (vents.empty() || intakes.empty()) return;
    const auto& higher = view.vents().higher;
    const auto set_out = [&](int v) {
        return view.piece(v).ports.front().at + higher[static_cast<std::size_t>(v)] * shape::up;
    };
    double nearest = 1e9;
    int vent = -1, intake = -1;
    for (const int v : vents)
        for (const int i : intakes) {
            if (!outdoors(view, i)) continue;
            const double d = shape::distance(set_out(v), view.piece(i).ports.front().at);
            if (d < nearest) nearest = d, vent = v, intake = i;
        }
    if (vent < 0) return;
    auto check = new_check("vent.apart", view.heater.sources);
    about(check, view, {vent, intake});
    const double drawn = view.piece(vent).ports.front().at.z;
    step(check, fmt::format("{} as set out with its fall; {} as drawn.", view.name(vent), view.name(intake)),
         "h = z + f",
         {{"z", "height of the terminal as drawn", amount(drawn * units::metre)},
          {"f", "its vent's fall lifts it", amount(higher[static_cast<std::size_t>(vent)] * units::metre)}},
         Term{"h", "height of the terminal as set out", amount(set_out(vent).z * units::metre)});
    check.value = amount(nearest * units::metre);
    checks.push_back(reason::referred(
        std::move(check), fmt::format("The nearest pair stands {} apart. The heater's instructions say how far and on "
                                      "which side exhaust must keep from intakes; the mechanical contractor confirms.",
                                      us(amount(nearest * units::metre)))));
}

}  // namespace

void check_terminals(const View& view, Checks& checks) {
    surroundings(view, checks);
    walkway(view, checks);
    apart(view, checks);
}

}  // namespace bw::proof
