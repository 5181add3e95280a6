// SPDX-License-Identifier: MIT
#include "draw/plan.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "draw/palette.h"
#include "draw/room.h"
#include "draw/solids.h"
#include "text/spoken.h"

namespace bw::draw {

namespace {

using units::amount;
using units::metre;

struct Extent {
    At low{1e9, 1e9}, high{-1e9, -1e9};
};
Extent extent_of(const shape::Polygon& plan) {
    Extent e;
    for (const auto& p : plan) {
        e.low = {std::min(e.low.x, p.x), std::min(e.low.y, p.y)};
        e.high = {std::max(e.high.x, p.x), std::max(e.high.y, p.y)};
    }
    return e;
}

Extent with_doors(Extent e, const survey::Room& room) {
    for (const auto& door : room.doors) {
        if (*door.swings_in) continue;
        const auto& a = room.plan[static_cast<std::size_t>(door.wall)];
        const auto& b = room.plan[(static_cast<std::size_t>(door.wall) + 1) % room.plan.size()];
        const double width = door.width.value(), length = std::hypot(b.x - a.x, b.y - a.y);
        const At out{(b.y - a.y) / length * width, -(b.x - a.x) / length * width};
        for (const auto& corner : {a, b}) {
            e.low = {std::min(e.low.x, corner.x + out.x), std::min(e.low.y, corner.y + out.y)};
            e.high = {std::max(e.high.x, corner.x + out.x), std::max(e.high.y, corner.y + out.y)};
        }
    }
    return e;
}

double grid_step(const Extent& e, units::System system) {
    const double step = system == units::System::us ? 5 * 0.3048 : 2;
    return std::max(e.high.x - e.low.x, e.high.y - e.low.y) > 12 * step ? 2 * step : step;
}

/// Lines from the room's lower left corner on, lettered along the width and numbered along the depth, with their names
/// on the sides where no dimensions are.
void draw_grid(const View& view, const Extent& e, const Extent& swept, units::System system, Labels& labels) {
    const double step = grid_step(e, system), wall = 0.15;
    const Pen pen{.width = 0.25, .colour = {0.62, 0.62, 0.65}, .dash = {9, 2, 1.5, 2}};
    const auto name = [&](At at, const std::string& text) {
        view.canvas().circle(at, 6.5, {.width = 0.4, .colour = grey}, white);
        view.canvas().text({at.x, at.y - 4.2}, text, {.size = 7, .colour = grey, .anchor = Anchor::centre});
        labels.keep_off({at.x - 7, at.y - 7, 14, 14});
    };
    const double foot = view.at(0, std::min(swept.low.y, e.low.y - wall)).y + 9;
    const double side = view.at(std::max(swept.high.x, e.high.x + wall), 0).x + 9;
    int line = 0;
    for (double x = e.low.x; x <= e.high.x + 1e-6; x += step, ++line) {
        const double at = view.at(x, 0).x;
        view.canvas().line({at, view.at(0, e.high.y).y}, {at, foot - 6.5}, pen);
        name({at, foot}, std::string(line / 26, 'A') + static_cast<char>('A' + line % 26));
    }
    line = 1;
    for (double y = e.low.y; y <= e.high.y + 1e-6; y += step, ++line) {
        const double at = view.at(0, y).y;
        view.canvas().line({view.at(e.low.x, 0).x, at}, {side - 6.5, at}, pen);
        name({side, at}, std::to_string(line));
    }
}

void draw_working_space(const View& view, const plant::Layout& layout) {
    for (const auto& box : layout.working_space) {
        const At a = view(box.min), b = view(box.max);
        view.canvas().polyline({a, {b.x, a.y}, b, {a.x, b.y}}, {.width = 0.5, .colour = grey, .dash = {5, 3}}, true);
    }
}

/// Heaters carry their number; seen from above, what hides them is drawn over, so the number comes last.
void number_heaters(const View& view, const plant::Plant& plant, Labels& labels) {
    for (const auto& piece : plant.pieces) {
        if (piece.part != text::Part::heater || piece.solids.empty()) continue;
        const auto box = shape::bounds(piece.solids.front());
        const At at = view(0.5 * (box.min + box.max));
        view.canvas().circle(at, 7, {.width = 0.7}, white);
        view.canvas().text({at.x, at.y - 5}, std::to_string(piece.heater),
                           {.size = 8.5, .bold = true, .anchor = Anchor::centre});
        labels.keep_off({at.x - 8, at.y - 8, 16, 16});
    }
}

/// Each sized run is named once, at the middle of its longest pipe.
void label_runs(const View& view, const plant::Plant& plant, Labels& labels) {
    using text::Service;
    for (auto service : {Service::gas, Service::cold, Service::hot, Service::recirculation, Service::exhaust,
                         Service::intake, Service::condensate}) {
        const plant::Piece* longest = nullptr;
        double length = 0;
        for (const auto& piece : plant.pieces) {
            if (piece.service != service || piece.heater != 0 || piece.cut == 0 || piece.ports.size() != 2) continue;
            const At a = view(piece.ports[0].at), b = view(piece.ports[1].at);
            const double seen = std::hypot(a.x - b.x, a.y - b.y);
            if (seen > length) longest = &piece, length = seen;
        }
        if (!longest) continue;
        const auto name = units::print(longest->size) + " in " + std::string(text::name(service));
        labels.put(view(0.5 * (longest->ports[0].at + longest->ports[1].at)), name,
                   {.size = 7.5, .bold = true, .colour = ink(service)});
    }
}

/// `swept` is the room with the doors that open out of it: dimensions stand outside that.
void dimension_plan(const View& view, const SheetContext& context, const Extent& e, const Extent& swept,
                    Labels& labels) {
    const auto [across, up] = plan_stations(context);
    const double top = view.at(0, swept.high.y).y - 14, left = view.at(swept.low.x, 0).x - 14;
    draw_chain(view, {across, top - 14, top}, context.system, labels);
    draw_chain(view, {{e.low.x, e.high.x}, top - 46, top}, context.system, labels);
    draw_chain(view, {up, left - 14, left, true}, context.system, labels);
    draw_chain(view, {{e.low.y, e.high.y}, left - 46, left, true}, context.system, labels);
}

std::string place_text(const survey::Connection& c, units::System system) {
    return units::print(amount(c.at.z * metre), system) + " above floor" + (c.assumed_place ? " (place assumed)" : "");
}

void write_notes(Canvas& canvas, const SheetContext& context, const Area& area) {
    const auto& r = context.result;
    NotesColumn notes(canvas, area);
    notes.head("Plant");
    const auto* heater = context.catalogue.heater(r.capacity.heater);
    notes.line(fmt::format("{} x {}, {} needed and {} spare.", r.capacity.installed,
                           heater ? heater->title : r.capacity.heater, r.capacity.needed, r.capacity.spare));
    notes.line(r.chosen->layout.in_words(context.system));
    notes.head("Points of connection");
    for (const auto& m : marked(r.survey.room))
        notes.line(fmt::format("{}  {}, {}{}", m.letter, m.name,
                               m.connection->size ? units::print(*m.connection->size) + " in, " : "",
                               place_text(*m.connection, context.system)),
                   ink(m.service));
    notes.head("Sizes");
    for (const auto& s : r.chosen->built.sizes)
        notes.key(ink(s.service), fmt::format("{}: {} in {}", s.what, units::print(s.size), text::spoken(s.material)));
    notes.head("Notes");
    notes.line(fmt::format(
        "Grid {} apart from the room's lower left corner. W: walls.",
        units::print(amount(grid_step(extent_of(r.survey.room.plan), context.system) * metre), context.system)));
    notes.line("Dashed rectangles: working space, to be kept clear.");
    if (const auto& slope = r.survey.room.slope)
        notes.line(fmt::format("Ceiling {} high, falling evenly to {} at wall {}.",
                               units::print(amount(*r.survey.room.ceiling), context.system),
                               units::print(amount(slope->low), context.system),
                               number_of_wall(r.survey.room, static_cast<std::size_t>(slope->wall))));
    notes.line("Dimensions to faces of walls as surveyed. Check on site before cutting.");
    notes.line(
        "Gas, electricity, anchors and venting by licensed people under the local code. Bolt every foot and anchor "
        "before hanging anything.");
    notes.line("Catalogue equipment marked 'demo' is invented.");
}

}  // namespace

PlanStations plan_stations(const SheetContext& context) {
    const auto& layout = context.result.chosen->layout;
    const auto e = extent_of(context.result.survey.room.plan);
    PlanStations at{{e.low.x, e.high.x}, {e.low.y, e.high.y}};
    for (const auto* boxes : {&layout.envelopes, &layout.working_space})
        for (const auto& box : *boxes) {
            at.across.insert(at.across.end(), {box.min.x, box.max.x});
            at.up.insert(at.up.end(), {box.min.y, box.max.y});
        }
    return at;
}

std::string draw_plan(Canvas& canvas, const SheetContext& context) {
    const auto frame = frame_of(context.size);
    const auto& room = context.result.survey.room;
    const auto& plant = context.result.chosen->built.plant;
    const auto e = extent_of(room.plan);
    const Area inner{frame.drawing.x + 70, frame.drawing.y + 80, frame.drawing.width - 110, frame.drawing.height - 124};
    const auto swept = with_doors(e, room);
    const auto scale = fitting_scale(swept.high.x - swept.low.x, swept.high.y - swept.low.y, inner, context.system);
    const View view(canvas, from_above, scale, inner, swept.low, swept.high);
    Labels labels(canvas, frame.drawing);
    draw_walls(view, room);
    draw_grid(view, e, swept, context.system, labels);
    draw_obstacles(view, room, labels);
    draw_working_space(view, context.result.chosen->layout);
    const auto scene = scene_of(
        plant, [](const plant::Piece& p) { return p.part != text::Part::connection; }, scale.points_per_metre);
    draw_solids(view, plant, scene);
    number_heaters(view, plant, labels);
    number_walls(view, room, labels);
    draw_connections(view, room, labels);
    dimension_plan(view, context, e, swept, labels);
    label_runs(view, plant, labels);
    draw_scale_bar(view, {frame.drawing.x + 6, frame.drawing.y + frame.drawing.height - 16}, context.system);
    write_notes(canvas, context, frame.notes);
    return scale.name;
}

}  // namespace bw::draw
