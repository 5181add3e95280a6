// SPDX-License-Identifier: MIT
// Exhaust on its way and at its end: how fast it leaves, how cold it can come, what condenses in the vent and may
// freeze at the terminal.
#include <algorithm>
#include <cmath>
#include <map>

#include "matter/combustion.h"
#include "matter/pipe_heat.h"
#include "proof/checks.h"
#include "proof/vent/vent_run.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

/// Of flue gas, J/(kg K): air with carbon dioxide and water vapour in it; from memory, within a few percent.
constexpr double flue_heat = 1070;
/// Air about the pipe: a cool plant room (common practice, no source).
constexpr Temperature room_air = Temperature::from_value(288.15);

void velocity(const View& view, const std::vector<VentRun>& runs, const network::VentFeed& feed, Checks& checks) {
    std::map<int, int> heaters;
    for (const auto& run : runs)
        if (run.terminal >= 0) ++heaters[run.terminal];
    int fastest = -1;
    Velocity most{};
    VolumeFlow through{};
    for (const auto& [terminal, count] : heaters) {
        const auto bore = view.piece(terminal).bore * metre;
        if (bore.value() <= 0) continue;
        const VolumeFlow flow = static_cast<double>(count) * feed.flue.full / feed.flue.density;
        const Velocity speed = flow / (0.25 * units::pi * bore * bore);
        if (fastest >= 0 && speed <= most) continue;
        fastest = terminal;
        most = speed;
        through = flow;
    }
    if (fastest < 0) return;
    const int count = heaters[fastest];
    auto check = new_check("vent.velocity", {{"conservation of mass", "", "v = 4 V / (pi D^2)", Standing::computed}});
    check.sources.insert(check.sources.end(), view.heater.sources.begin(), view.heater.sources.end());
    about(check, view, {fastest});
    check.value = amount(most);
    step(check,
         fmt::format("{}: {} heater{} at full fire, the exhaust not cooled.", view.name(fastest), count,
                     count == 1 ? "" : "s"),
         "v = 4 V / (pi D^2)",
         {{"V", "exhaust", amount(through, Kind::air_flow)},
          {"D", "bore", amount(view.piece(fastest).bore * metre, Kind::small_length)}},
         Term{"v", "velocity", amount(most)});
    const auto one = most * (feed.flue.least / feed.flue.full).value() / static_cast<double>(count);
    step(check, "One heater alone at least fire.", {}, {}, Term{"v1", "velocity", amount(Velocity(one))});
    checks.push_back(reason::referred(
        std::move(check),
        fmt::format("It leaves at {} at full fire and {} with one heater at least fire. The heater's and the "
                    "terminal's makers say what throws the plume clear and what is too loud.",
                    us(amount(most)), us(amount(Velocity(one))))));
}

/// The coldest the exhaust of one heater at least fire can come to its terminal when it leaves its collar at the
/// warmest return, with most vapour left in it: the pipe's inside as warm as the gas, and no heat from what condenses.
Result<Temperature> coldest(const View& view, const VentRun& run, const network::VentFeed& feed) {
    double kelvin = si_value(feed.warmest);
    const catalogue::Pipe* row = nullptr;
    for (std::size_t i = 0; i + 1 < run.path.size(); ++i) {
        const auto& piece = view.piece(run.path[i].piece);
        if (const auto* own = view.pipe(run.path[i].piece)) row = own;
        if (!row || piece.ports.size() < 2) continue;
        const auto left_by = view.plant.mate({run.path[i + 1].piece, run.path[i + 1].in});
        const double length = shape::distance(piece.ports[static_cast<std::size_t>(run.path[i].in)].at,
                                              piece.ports[static_cast<std::size_t>(left_by.port)].at);
        if (kelvin <= si_value(room_air) + 0.01) return room_air;
        const auto heat =
            matter::pipe_heat({row->material, row->outside, row->inside, matter::Insulation::none, {}, 0.9},
                              Temperature::from_value(kelvin), room_air, 1.0 * metre);
        if (!heat) return tl::unexpected(heat.error());
        // exponential: the loss is as the gas is warmer than the room
        const double excess = kelvin - si_value(room_air);
        const double rate = heat->per_metre / excess / (feed.flue.least.value() * flue_heat);
        kelvin = si_value(room_air) + excess * std::exp(-rate * length);
    }
    return Temperature::from_value(kelvin);
}

void cooling(const View& view, const std::vector<VentRun>& runs, const network::VentFeed& feed, Checks& checks) {
    const VentRun* longest = nullptr;
    for (const auto& run : runs)
        if (run.terminal >= 0 && (!longest || run.centre_line > longest->centre_line)) longest = &run;
    if (!longest) return;
    auto check = new_check("vent.cooling", matter::pipe_heat_sources());
    about(check, view, {view.heater_piece(longest->heater), longest->terminal});
    depends_on_fields(check, view.survey, {"water.distribution"});
    const auto gas = *view.survey.gas.kind;
    const auto burnt = matter::combustion(gas, view.heater.excess_air, feed.atmosphere);
    const auto end = coldest(view, *longest, feed);
    const auto input = view.heater.input_least * view.capacity.each.altitude_factor;
    const auto made = [&](Temperature leaving) {
        return matter::condensate(gas, input, *view.survey.gas.heating_value, view.heater.excess_air, leaving,
                                  feed.atmosphere);
    };
    const auto before = made(feed.warmest), after = end ? made(*end) : before;
    if (!burnt || !end || !before || !after) {
        const auto why = !burnt ? burnt.error() : !end ? end.error() : !before ? before.error() : after.error();
        checks.push_back(
            holds(std::move(check), false, {}, fmt::format("The cooling is not found: {}.", describe(why))));
        return;
    }
    check.sources.insert(check.sources.end(), burnt->sources.begin(), burnt->sources.end());
    const VolumeFlow most = after->flow - before->flow;
    check.value = amount(*end);
    step(check,
         fmt::format("Heater {}, the longest way, alone at least fire in a room at 59 degF. An estimate on the cold "
                     "side: the gas's own film and the heat of what condenses, which keep it warmer, are left out.",
                     longest->heater),
         {},
         {{"L", "centre line", amount(longest->centre_line, Kind::long_length)},
          {"t0", "at the collar, water at the warmest return", amount(feed.warmest)},
          {"m", "exhaust", amount(feed.flue.least)},
          {"td", "its dew point", amount(burnt->dew_point)}},
         Term{"t", "at the terminal", amount(*end)});
    step(check, "Water that then condenses in the vent, the most there can be.", {}, {},
         Term{"w", "condensate in the vent", amount(std::max(most, VolumeFlow{}), Kind::hourly_flow)});
    const bool wet = *end < burnt->dew_point;
    checks.push_back(reason::referred(
        std::move(check),
        wet ? fmt::format(
                  "The exhaust is below its dew point of {} by the terminal: up to {} runs back in the vent and "
                  "must drain. CAUTION: in frost it freezes where it drips; ice can narrow the terminal and "
                  "fall. The installer pitches the vent back, keeps pipe outdoors short and insulated; whoever "
                  "knows the winter there looks at it in frost.",
                  us(amount(burnt->dew_point)), us(amount(most, Kind::hourly_flow)))
            : "The exhaust stays above its dew point to the terminal even then; the plume condenses outdoors all the "
              "same, and in frost the installer looks for ice."));
}

}  // namespace

void check_vent_cooling(const View& view, const std::vector<VentRun>& runs, Checks& checks) {
    const auto& vents = view.hydraulics.vents;
    if (!vents) return;  // vent.solved says why
    velocity(view, runs, vents->feed, checks);
    cooling(view, runs, vents->feed, checks);
}

}  // namespace bw::proof
