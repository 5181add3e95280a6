// SPDX-License-Identifier: MIT
// Cold water to the heaters, hot water to the building, what comes back from it, relief and expansion.
#include <fmt/format.h>

#include <algorithm>

#include "draw/chart.h"
#include "draw/diagrams.h"
#include "draw/palette.h"

namespace bw::draw {
namespace {

using text::Service;
using units::amount;

constexpr double top_room = 46, riser = 84, box = 32, bottom_room = 84,
                 row_height = top_room + 2 * riser + box + bottom_room, return_below = 66, margin = 16;

struct Water {
    std::vector<Line> cold, hot, back;
};

Water water_of(const plant::Plant& plant) {
    return {lines_of(plant, Service::cold), lines_of(plant, Service::hot), lines_of(plant, Service::recirculation)};
}

/// Room the return's signs take before it joins.
double return_length(const Water& water) { return water.back.empty() ? 0 : lead_of(water.back.front()) + margin; }

std::string flow_text(const SheetContext& context, const Run& run) {
    if (run.piece < 0) return {};
    const auto& state = context.solved.piece[static_cast<std::size_t>(run.piece)];
    return state && state->flow ? units::print(amount(*state->flow), context.system) : std::string();
}

void notes_of(Canvas& canvas, const SheetContext& context, const Area& area, const Water& water) {
    const auto& survey = context.result.survey;
    NotesColumn notes(canvas, area);
    notes.head("Water");
    notes.line(fmt::format("Peak {} of hot water at {}; supply {} static, coldest {}.",
                           units::print(amount(context.result.demand.peak), context.system),
                           units::print(amount(*survey.temperatures.distribution), context.system),
                           units::print(amount(*survey.supply.pressure), context.system),
                           units::print(amount(*survey.supply.coldest), context.system)));
    notes.key(ink(Service::cold), "cold, C");
    notes.key(ink(Service::hot), "hot, H");
    if (!water.back.empty()) notes.key(ink(Service::recirculation), "return from the building, R");
    notes.head("Reading it");
    notes.line(
        "Letters in circles: points of connection. Flags of one name are one point. Lines that cross without a dot do "
        "not join.");
    notes.line(
        "At each run: size, developed length from tee to tee, and flow as cold water at the peak, solved with every "
        "heater open; nothing where it has no solution. Each heater's share stands in its box.");
    write_legend(notes, canvas, context, {&water.cold, &water.hot, &water.back});
    notes.head("Notes");
    notes.line(
        "Scalding: set and check the leaving temperature before anybody draws water. Nothing may shut a heater off "
        "from its relief valve.");
}

void draw_row(Canvas& canvas, const SheetContext& context, const Area& area, const Rows& rows, const Water& water,
              int row, double y) {
    Chart chart(canvas, context, area, rows);
    const double top = y + top_room + riser;
    const Band cold{.line = top + box + riser, .box = top + box, .join_at = return_length(water), .letter = 'C'};
    const Band hot{.line = y + top_room, .box = top, .letter = 'H'};
    const auto flow = [&](const Run& run) { return flow_text(context, run); };
    const auto joined = chart.draw_lines(water.cold, row, cold, flow);
    chart.draw_lines(water.hot, row, hot, flow);
    for (const auto& line : water.back) {
        const auto at = joined.find(line.nodes.back().piece);
        if (at == joined.end()) continue;
        const At end = chart.draw_row(line, {area.x + 10, cold.line + return_below}, 'R');
        canvas.polyline({end, {at->second.x, end.y}, at->second},
                        {.width = 1.4, .colour = ink(Service::recirculation)});
    }
    chart.draw_heaters(row, top, box, {.inside = [&](int n) {
                           const auto& q = context.solved.heater_water[static_cast<std::size_t>(n - 1)];
                           return q ? units::print(amount(*q), context.system) : std::string();
                       }});
}

}  // namespace

std::vector<Planned> water_flow(const SheetContext& context) {
    const auto area = frame_of(context.size).drawing;
    const auto water = water_of(context.result.chosen->built.plant);
    const double lead = std::max({lead_of(water.cold), lead_of(water.hot), return_length(water) + margin});
    const auto fit = fitted(water.cold, area, lead, row_height);
    return in_sheets("Water flow diagram", "water", fit.rows.count, fit.rows_a_sheet,
                     [=](Canvas& canvas, const SheetContext& d, int from, int to) {
                         canvas.scale({area.x, area.y}, fit.times);
                         for (int row = from; row < to; ++row)
                             draw_row(canvas, d, fit.area, fit.rows, water, row,
                                      fit.top(to - from) + row_height * (row - from));
                         canvas.unscale();
                         notes_of(canvas, d, frame_of(d.size).notes, water);
                     });
}

}  // namespace bw::draw
