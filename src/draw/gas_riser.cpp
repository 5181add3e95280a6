// SPDX-License-Identifier: MIT
// Gas from the point of connection through headers and branches to the heaters.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "draw/chart.h"
#include "draw/diagrams.h"

namespace bw::draw {
namespace {

using units::amount;
using units::Kind;

constexpr double box = 34, riser = 128, top_room = 24, bottom_room = 66,
                 row_height = top_room + box + riser + bottom_room;

std::string load_text(const SheetContext& context, int heaters) {
    const auto each = context.result.chosen->capacity.each.input / *context.result.survey.gas.heating_value;
    return units::print(amount(static_cast<double>(heaters) * each, Kind::gas_flow), context.system);
}

void notes_of(Canvas& canvas, const SheetContext& context, const Area& area, const std::vector<Line>& lines) {
    const auto& gas = context.result.survey.gas;
    const auto& each = context.result.chosen->capacity.each;
    NotesColumn notes(canvas, area);
    notes.head("Gas");
    notes.line(fmt::format("{}, {} as delivered, specific gravity {:.2f}.", text::name(*gas.kind),
                           units::print(amount(*gas.heating_value, Kind::heating_value), context.system),
                           *gas.specific_gravity));
    notes.line(fmt::format("Delivered at {}; {} heaters of {}, {} together.",
                           units::print(amount(*gas.delivery_pressure, Kind::gas_pressure), context.system),
                           context.result.chosen->capacity.installed, units::print(amount(each.input), context.system),
                           load_text(context, context.result.chosen->capacity.installed)));
    notes.head("Reading it");
    notes.line("G in a circle: the point of connection. Flags of one name are one point.");
    notes.line(
        "Under each run: size, developed length from tee to tee, and what flows with every heater firing. Beside each "
        "branch: size and length from tee to heater.");
    notes.line(
        "Over each heater: gauge pressure at its inlet with every heater firing, solved for the pipe as drawn; nothing "
        "where it has no solution.");
    write_legend(notes, canvas, context, {&lines});
    notes.head("Notes");
    notes.line("Gas by licensed people under the local code: test, purge and leak-check before any heater is lit.");
}

}  // namespace

std::vector<Planned> in_sheets(const std::string& title, const std::string& file, int rows, int rows_a_sheet,
                               const std::function<void(Canvas&, const SheetContext&, int, int)>& draw) {
    std::vector<Planned> list;
    const int sheets = (rows + rows_a_sheet - 1) / rows_a_sheet;
    for (int i = 0; i < sheets; ++i)
        list.push_back({sheets > 1 ? fmt::format("{} {}", title, i + 1) : title,
                        sheets > 1 ? fmt::format("sheet-{}-{}.svg", file, i + 1) : fmt::format("sheet-{}.svg", file),
                        [=](Canvas& c, const SheetContext& d) {
                            draw(c, d, i * rows_a_sheet, std::min(rows, (i + 1) * rows_a_sheet));
                            return std::string(not_to_scale);
                        }});
    return list;
}

std::vector<Planned> gas_riser(const SheetContext& context) {
    const auto area = frame_of(context.size).drawing;
    const auto lines = lines_of(context.result.chosen->built.plant, text::Service::gas);
    const auto fit = fitted(lines, area, lead_of(lines), row_height);
    return in_sheets(
        "Gas riser diagram", "gas", fit.rows.count, fit.rows_a_sheet,
        [=](Canvas& canvas, const SheetContext& d, int from, int to) {
            canvas.scale({area.x, area.y}, fit.times);
            Chart chart(canvas, d, fit.area, fit.rows);
            double y = fit.top(to - from);
            for (int row = from; row < to; ++row, y += row_height) {
                const Band band{.line = y + top_room + box + riser, .box = y + top_room + box, .letter = 'G'};
                chart.draw_lines(lines, row, band, [&](const Run& run) { return load_text(d, run.heaters); });
                chart.draw_heaters(row, y + top_room, box, {.above = [&](int n) {
                                       const auto& p = d.solved.heater_gas_pressure[static_cast<std::size_t>(n - 1)];
                                       return p ? units::print(amount(*p, Kind::gas_pressure), d.system)
                                                : std::string();
                                   }});
            }
            canvas.unscale();
            notes_of(canvas, d, frame_of(d.size).notes, lines);
        });
}

}  // namespace bw::draw
