// SPDX-License-Identifier: MIT
// Vents within the heater's own limits: length, number in common, dampers, materials.
#include <map>

#include "proof/checks.h"
#include "proof/vent/vent_run.h"

namespace bw::proof {
namespace {

using units::amount;
using units::count;
using units::Kind;
using units::Length;

bool shared(const VentRun& run) { return run.first_tee >= 0; }

Sources listing(const View& view, std::string clause) {
    Sources sources = view.heater.sources;
    sources.push_back(ifgc(std::move(clause)));
    return sources;
}

const catalogue::VentLimit* single_limit(const View& view, units::Nominal size) {
    for (const auto& limit : view.heater.vents)
        if (limit.size == size) return &limit;
    return nullptr;
}

const catalogue::CommonVentLimit* common_limit(const View& view, units::Nominal size) {
    for (const auto& limit : view.heater.common_vents)
        if (limit.size == size) return &limit;
    return nullptr;
}

void ends_outdoors(const View& view, const VentRun& run, Checks& checks) {
    auto check = new_check("vent.way.heater-<n>", {ifgc("501, 503")}, {{"n", run.heater}});
    about(check, view, {view.heater_piece(run.heater), run.terminal});
    const bool ends = run.terminal >= 0 && view.piece(run.terminal).part == Part::vent_terminal;
    checks.push_back(holds(std::move(check), ends && outdoors(view, run.terminal),
                           "Sealed pipe leads from its collar to a terminal outside the room.",
                           ends ? fmt::format("heater {}'s exhaust ends in the room.", run.heater)
                                : fmt::format("heater {}'s exhaust reaches no vent terminal.", run.heater)));
}

/// Length counted as the heater's listing counts it: centre line, each elbow as so much pipe.
void single_length(const View& view, const VentRun& run, Checks& checks) {
    auto check = new_check("vent.length.heater-<n>", listing(view, "503.3"), {{"n", run.heater}});
    about(check, view, {view.heater_piece(run.heater), run.terminal});
    const auto* limit = single_limit(view, run.greatest);
    const auto* least = single_limit(view, run.least);
    if (!limit || !least) {
        checks.push_back(holds(std::move(check), false, {},
                               fmt::format("heater {}: the heater is not listed for a vent of {} in.", run.heater,
                                           units::print(limit ? run.least : run.greatest))));
        return;
    }
    // reduced pipe on the way: the smaller size's limit governs the whole
    const auto* governs = least->longest < limit->longest ? least : limit;
    const Length counted = run.centre_line + (run.elbows + 0.5 * run.bends) * governs->elbow_equivalent;
    step(check, "Pipe and elbows from the heater to the terminal.", "L = Lp + n Le",
         {{"Lp", "centre line", amount(run.centre_line, Kind::long_length)},
          {"n", "elbows, those of 45 degrees by half", units::number(run.elbows + 0.5 * run.bends)},
          {"Le", "an elbow's equivalent", amount(governs->elbow_equivalent, Kind::long_length)}},
         Term{"L", "length counted", amount(counted, Kind::long_length)});
    check.says = fmt::format("Longest allowed at {} in.", units::print(governs->size));
    checks.push_back(
        at_most(std::move(check), amount(counted, Kind::long_length), amount(governs->longest, Kind::long_length)));
}

void listed_for_common(const View& view, Checks& checks) {
    auto check = new_check("vent.listing", listing(view, "503.5"));
    checks.push_back(holds(std::move(check), !view.heater.common_vents.empty(),
                           "The listing: " + view.heater.common_vent_listing,
                           "Heaters share a vent that their listing does not allow."));
}

void common_length(const View& view, const std::vector<const VentRun*>& runs, const std::string& name,
                   const catalogue::CommonVentLimit& limit, Checks& checks) {
    const auto farthest = *std::max_element(
        runs.begin(), runs.end(), [](const VentRun* a, const VentRun* b) { return a->beyond_tee < b->beyond_tee; });
    auto check =
        new_check("vent.length.<terminal>", listing(view, "503.5"), {{"terminal", name, plant::in_words(name)}});
    about(check, view, {view.heater_piece(farthest->heater), farthest->terminal});
    step(check,
         fmt::format("Centre line from the collar of heater {}, the farthest, to the terminal.", farthest->heater), {},
         {}, Term{"L", "developed length", amount(farthest->beyond_tee, Kind::long_length)});
    check.says = fmt::format("Longest allowed at {} in.", units::print(limit.size));
    checks.push_back(at_most(std::move(check), amount(farthest->beyond_tee, Kind::long_length),
                             amount(limit.longest, Kind::long_length)));
}

void common(const View& view, int terminal, const std::vector<const VentRun*>& runs, Checks& checks) {
    const auto& name = view.piece(terminal).id;
    auto number =
        new_check("vent.common-count.<terminal>", listing(view, "503.5"), {{"terminal", name, plant::in_words(name)}});
    for (const auto* run : runs) about(number, view, {view.heater_piece(run->heater)});
    about(number, view, {terminal});
    const auto size = std::max_element(runs.begin(), runs.end(),
                                       [](const VentRun* a, const VentRun* b) { return a->greatest < b->greatest; })[0]
                          ->greatest;
    const auto* limit = common_limit(view, size);
    if (!limit) {
        checks.push_back(
            holds(std::move(number), false, {},
                  fmt::format("The heater is not listed for a common vent of {} in.", units::print(size))));
        return;
    }
    number.says = fmt::format("Most on one common vent of {} in, by the listing.", units::print(size));
    checks.push_back(at_most(std::move(number), count(static_cast<double>(runs.size())), count(limit->most)));
    common_length(view, runs, name, *limit, checks);
}

void damper(const View& view, const VentRun& run, Checks& checks) {
    auto check = new_check("vent.damper.heater-<n>", listing(view, "503.5"), {{"n", run.heater}});
    int found = -1;
    for (int i = 0; i < run.first_tee; ++i)
        if (view.piece(run.path[static_cast<std::size_t>(i)].piece).part == Part::vent_damper)
            found = run.path[static_cast<std::size_t>(i)].piece;
    about(check, view, {view.heater_piece(run.heater), found});
    checks.push_back(holds(std::move(check), found >= 0, "A damper stands between the heater and the common vent.",
                           fmt::format("heater {} joins the common vent without a back-flow damper.", run.heater)));
}

Check idle(const View& view) {
    auto check = new_check("vent.idle", listing(view, "503.5"));
    about(check, view, view.of(Part::vent_damper));
    return check;
}

void materials(const View& view, Checks& checks) {
    auto check = new_check("vent.materials", listing(view, "503.4"));
    std::vector<int> wrong;
    int seen = 0;
    for (const auto part : {Part::vent_pipe, Part::pipe})
        for (const int i : view.of(part)) {
            if (view.piece(i).service != Service::exhaust) continue;
            ++seen;
            const auto material = view.material(i);
            const auto& allowed = view.heater.vent_materials;
            if (!material || std::find(allowed.begin(), allowed.end(), *material) == allowed.end()) wrong.push_back(i);
        }
    about(check, view, wrong);
    checks.push_back(
        holds(std::move(check), wrong.empty() && seen > 0, "Every exhaust pipe is of a listed kind.",
              seen == 0 ? "The plant has no exhaust pipe."
                        : fmt::format("{} exhaust pipes are of a kind the heater is not listed for.", wrong.size())));
}

/// The warmest exhaust against what the least heat-proof pipe of the vents stands.
void temperature(const View& view, Checks& checks) {
    const catalogue::Pipe* weakest = nullptr;
    int at = -1;
    for (const int i : view.of(Part::vent_pipe)) {
        const auto* row = view.pipe(i);
        if (view.piece(i).service != Service::exhaust || !row || (weakest && row->greatest >= weakest->greatest))
            continue;
        weakest = row;
        at = i;
    }
    const auto& vents = view.hydraulics.vents;
    if (!weakest || !vents) return;
    const auto warmest = vents->feed.warmest;
    auto check = with_temperatures(
        new_check("vent.temperature", listing(view, "503.4")), warmest,
        "Warmest exhaust: the water that comes back and the heater's flue gas above it. Greatest for the pipe.",
        weakest->greatest);
    about(check, view, {at});
    depends_on_fields(check, view.survey, {"water.distribution"});
    checks.push_back(
        holds(std::move(check), warmest <= weakest->greatest, "The pipe stands the exhaust at the warmest return.",
              fmt::format("The pipe stands {} at most: another kind of vent pipe, or cooler water coming back.",
                          us(units::amount(weakest->greatest)))));
}

}  // namespace

void check_vent(const View& view, Checks& checks) {
    const auto runs = vent_runs(view, "exhaust");
    std::map<int, std::vector<const VentRun*>> by_terminal;
    for (const auto& run : runs) {
        ends_outdoors(view, run, checks);
        if (run.terminal < 0) continue;
        by_terminal[run.terminal].push_back(&run);
        if (shared(run))
            damper(view, run, checks);
        else
            single_length(view, run, checks);
    }
    bool any_shared = false;
    for (const auto& [terminal, group] : by_terminal) {
        if (!shared(*group.front())) continue;
        if (!any_shared) listed_for_common(view, checks);
        any_shared = true;
        common(view, terminal, group, checks);
    }
    if (!by_terminal.empty()) check_vent_backflow(view, idle(view), any_shared, checks);
    materials(view, checks);
    temperature(view, checks);
    check_vent_cooling(view, runs, checks);
}

}  // namespace bw::proof
