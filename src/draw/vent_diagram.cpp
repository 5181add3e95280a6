// SPDX-License-Identifier: MIT
// Exhaust from the heaters' collars to its terminal, and the air they burn.
#include <fmt/format.h>

#include <algorithm>

#include "draw/chart.h"
#include "draw/diagrams.h"
#include "draw/palette.h"

namespace bw::draw {
namespace {

using text::Service;
using units::amount;

constexpr double lead_room = 92, between = 58, riser = 96, box = 34, bottom_room = 30,
                 row_height = lead_room + between + riser + box + bottom_room, apart = 13;

std::string flow_text(const SheetContext& context, const Run& run) {
    if (run.piece < 0) return {};
    const auto& state = context.solved.piece[static_cast<std::size_t>(run.piece)];
    return state && state->mass_flow ? units::print(amount(*state->mass_flow), context.system) : std::string();
}

void notes_of(Canvas& canvas, const SheetContext& context, const Area& area, const std::vector<Line>& exhaust,
              const std::vector<Line>& intake) {
    NotesColumn notes(canvas, area);
    notes.head("Vents");
    notes.key(ink(Service::exhaust), "exhaust, E");
    if (intake.empty())
        notes.line("The heaters burn the room's air: see the report for its openings.");
    else
        notes.key(ink(Service::intake), "combustion air, A");
    notes.head("Reading it");
    notes.line(
        "Letters in circles: where it meets outdoors. Flags of one name are one point. Lines that cross without a dot "
        "do not join.");
    notes.line(
        "At each run: size, developed length from tee to tee, and what flows with every heater at full fire, solved; "
        "nothing where it has no solution. Beside each branch: size and length from tee to heater.");
    notes.line("D in a flag: condensate goes to the drain through a trap.");
    write_legend(notes, canvas, context, {&exhaust, &intake});
    notes.head("Notes");
    notes.line(
        "Exhaust kills. Lay it with a fall of 1/4 in a foot back to its drain, support every joint, use one maker's "
        "system throughout.");
}

}  // namespace

std::vector<Planned> vent_diagram(const SheetContext& context) {
    const auto area = frame_of(context.size).drawing;
    const auto& plant = context.result.chosen->built.plant;
    const auto exhaust = lines_of(plant, Service::exhaust), intake = lines_of(plant, Service::intake);
    const auto fit = fitted(exhaust, area, 90, row_height, 64);
    return in_sheets(
        "Vent diagram", "vent", fit.rows.count, fit.rows_a_sheet,
        [=](Canvas& canvas, const SheetContext& d, int from, int to) {
            canvas.scale({area.x, area.y}, fit.times);
            double y = fit.top(to - from);
            for (int row = from; row < to; ++row, y += row_height) {
                Chart chart(canvas, d, fit.area, fit.rows);
                const double air = y + lead_room, flue = air + between, top = flue + riser;
                const auto flow = [&](const Run& run) { return flow_text(d, run); };
                chart.draw_lines(intake, row, {.line = air, .box = top, .shift = apart, .upright = true, .letter = 'A'},
                                 flow);
                chart.draw_lines(exhaust, row,
                                 {.line = flue, .box = top, .shift = -apart, .upright = true, .letter = 'E'}, flow);
                chart.draw_heaters(row, top, box, {});
            }
            canvas.unscale();
            notes_of(canvas, d, frame_of(d.size).notes, exhaust, intake);
        });
}

}  // namespace bw::draw
