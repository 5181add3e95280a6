// SPDX-License-Identifier: MIT
// The whole plant from above a corner of the room.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "draw/palette.h"
#include "draw/plan.h"
#include "draw/room.h"
#include "draw/solids.h"

namespace bw::draw {
namespace {

using text::Part;

/// Small things that tell nothing at this size.
bool trifle(const plant::Piece& piece) {
    switch (piece.part) {
        case Part::connection:
        case Part::anchor:
        case Part::bond:
        case Part::firestop:
        case Part::link_plug: return true;
        default: return piece.solids.empty();
    }
}

shape::Vec front_of(const plant::Bank& bank, const plant::Stand& stand) {
    return bank.place.turn({0, stand.side == 0 ? 1.0 : -1.0, 0});
}

/// Whence most heaters show their fronts; of equals, whence the feed ends of the banks are near.
Axes best_corner(const plant::Layout& layout) {
    Axes best = projection::isometric(1, 1);
    double most = -1e9;
    for (const int x : {1, -1})
        for (const int y : {1, -1}) {
            const auto eye = projection::isometric(x, y);
            double shown = 0;
            for (const auto& bank : layout.banks) {
                for (const auto& stand : bank.stands) shown += dot(front_of(bank, stand), eye.towards) > 0 ? 1 : 0;
                const auto feed = bank.place.turn({bank.mirrored ? 1.0 : -1.0, 0, 0});
                shown += 0.01 * dot(feed, eye.towards);
            }
            if (shown > most + 1e-6) most = shown, best = eye;
        }
    return best;
}

struct Bounds {
    At low{1e9, 1e9}, high{-1e9, -1e9};
    void take(At p) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y)}, high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    }
    [[nodiscard]] double width() const { return high.x - low.x; }
    [[nodiscard]] double height() const { return high.y - low.y; }
};

/// The plant, and the room's floor where that takes little more paper.
Bounds bounds_of(const Axes& eye, const plant::Plant& plant, const survey::Room& room, const Area& area) {
    Bounds pieces;
    for (const auto& piece : plant.pieces) {
        if (trifle(piece)) continue;
        const auto box = shape::bounds(piece.solids);
        for (const double x : {box.min.x, box.max.x})
            for (const double y : {box.min.y, box.max.y})
                for (const double z : {box.min.z, box.max.z}) {
                    const auto p = eye({x, y, z});
                    pieces.take({p.x, p.y});
                }
    }
    auto all = pieces;
    for (const auto& corner : room.plan) {
        const auto p = eye({corner.x, corner.y, 0});
        all.take({p.x, p.y});
    }
    const auto scale = [&](const Bounds& b) { return std::min(area.width / b.width(), area.height / b.height()); };
    return scale(all) > 0.8 * scale(pieces) ? all : pieces;
}

struct WallLine {
    shape::Vec a, b;
    bool far = false;  ///< its inner face is seen
    int number = 0;
};
std::vector<WallLine> walls_of(const survey::Room& room, const Axes& eye) {
    std::vector<WallLine> walls;
    const auto n = room.plan.size();
    for (std::size_t i = 0; i < n; ++i) {
        const auto& p = room.plan[i];
        const auto& q = room.plan[(i + 1) % n];
        const shape::Vec in{p.y - q.y, q.x - p.x, 0};
        walls.push_back({{p.x, p.y, 0}, {q.x, q.y, 0}, dot(in, eye.towards) > 0, number_of_wall(room, i)});
    }
    return walls;
}

void add_room(Scene& scene, const survey::Room& room, const std::vector<WallLine>& walls) {
    const auto ceiling = room.overhead();
    const auto top = [&](const shape::Vec& foot) { return shape::Vec{foot.x, foot.y, ceiling.at(foot)}; };
    for (const auto& wall : walls) {
        scene.wires.push_back({wall.a, wall.b, -1});
        if (!wall.far) continue;
        scene.wires.push_back({wall.a, top(wall.a), -1});
        scene.wires.push_back({wall.b, top(wall.b), -1});
        if (!ceiling.level()) scene.wires.push_back({top(wall.a), top(wall.b), -1});
    }
    for (const auto& obstacle : room.obstacles) projection::add(scene.items, {obstacle.box}, -1);
}

/// On the face that is seen.
void number_heaters(const View& view, const plant::Plant& plant, const plant::Layout& layout, Labels& labels) {
    for (const auto& bank : layout.banks)
        for (const auto& stand : bank.stands) {
            const int index = plant.find("heater-" + std::to_string(stand.number));
            if (index < 0) continue;
            const auto box = shape::bounds(plant.pieces[static_cast<std::size_t>(index)].solids.front());
            const auto front = front_of(bank, stand);
            const double sign = dot(front, view.axes().towards) > 0 ? 0.5 : -0.5;
            const double deep = std::abs(dot(box.max - box.min, front));
            const At at = view(0.5 * (box.min + box.max) + (sign * deep) * front);
            const double size = std::clamp(view.points(0.13), 6.0, 16.0), r = 0.75 * size;
            view.canvas().circle(at, r, {.width = 0.6}, white);
            view.canvas().text({at.x, at.y - 0.58 * size}, std::to_string(stand.number),
                               {.size = size, .bold = true, .anchor = Anchor::centre});
            labels.keep_off({at.x - r, at.y - r, 2 * r, 2 * r});
        }
}

/// Names each service's longest run that is seen, once a bank and once for the mains.
void label_runs(const View& view, const plant::Plant& plant, const projection::Seen& seen, Labels& labels) {
    struct Found {
        double length = 0;
        At middle;
        int piece = -1;
    };
    std::map<std::pair<int, int>, Found> longest;  // by bank and service
    for (const auto& stroke : seen.strokes) {
        if (stroke.owner < 0 || stroke.kind != projection::Kind::outline || stroke.line.size() != 2) continue;
        const auto& piece = plant.pieces[static_cast<std::size_t>(stroke.owner)];
        if (piece.heater != 0 || piece.cut == 0 || piece.service == text::Service::structure) continue;
        if (piece.part != Part::pipe && piece.part != Part::vent_pipe) continue;
        const At a = view.at(stroke.line[0].x, stroke.line[0].y), b = view.at(stroke.line[1].x, stroke.line[1].y);
        const double length = std::hypot(a.x - b.x, a.y - b.y);
        auto& found = longest[{piece.bank, static_cast<int>(piece.service)}];
        if (length > found.length) found = {length, {(a.x + b.x) / 2, (a.y + b.y) / 2}, stroke.owner};
    }
    for (const auto& [where, found] : longest) {
        if (found.length < 14) continue;
        const auto& piece = plant.pieces[static_cast<std::size_t>(found.piece)];
        labels.put(found.middle, units::print(piece.size) + " in " + std::string(text::name(piece.service)),
                   {.size = 7, .bold = true, .colour = ink(piece.service)});
    }
}

void write_notes(Canvas& canvas, const Area& area, const plant::Plant& plant, const std::vector<WallLine>& walls) {
    NotesColumn notes(canvas, area);
    notes.head("View");
    std::string far;
    for (const auto& wall : walls)
        if (wall.far) far += (far.empty() ? "" : ", ") + std::to_string(wall.number);
    notes.line(fmt::format("From above, all three directions of the room equally foreshortened. Far walls: {}.", far));
    notes.line(
        "What lies behind something is not drawn. Anchors, bonds, plugs and firestops are left out; cables and rods "
        "thinner than a line are one line.");
    write_services(notes, plant);
    notes.head("Notes");
    notes.line(
        "For reading the other sheets by: measure nothing here. Sizes, lengths and cuts stand in the plan, the "
        "elevations, the diagrams and the parts list.");
}

}  // namespace

IsometricView isometric_view(const SheetContext& context, const Area& area) {
    const auto& chosen = *context.result.chosen;
    const auto eye = best_corner(chosen.layout);
    const auto bounds = bounds_of(eye, chosen.built.plant, context.result.survey.room, area);
    return {eye, bounds.low, bounds.high};
}

Scene isometric_scene(const SheetContext& context, const Axes& axes, double points_per_metre) {
    auto scene = scene_of(
        context.result.chosen->built.plant, [](const plant::Piece& p) { return !trifle(p); }, points_per_metre);
    add_room(scene, context.result.survey.room, walls_of(context.result.survey.room, axes));
    return scene;
}

std::string draw_isometric(Canvas& canvas, const SheetContext& context) {
    const auto frame = frame_of(context.size);
    const auto& room = context.result.survey.room;
    const auto& layout = context.result.chosen->layout;
    const auto& plant = context.result.chosen->built.plant;
    const Area inner{frame.drawing.x + 24, frame.drawing.y + 24, frame.drawing.width - 48, frame.drawing.height - 48};
    const auto [eye, low, high] = isometric_view(context, inner);
    const Scale scale{std::min(inner.width / (high.x - low.x), inner.height / (high.y - low.y)),
                      "isometric, not to scale"};
    const View view(canvas, eye, scale, inner, low, high);
    const auto walls = walls_of(room, eye);
    const auto scene = isometric_scene(context, eye, scale.points_per_metre);
    Labels labels(canvas, frame.drawing);
    canvas.clip({frame.drawing.x, frame.drawing.y}, frame.drawing.width, frame.drawing.height);
    const auto seen = draw_solids(view, plant, scene);
    number_walls(view, room, labels);
    number_heaters(view, plant, layout, labels);
    draw_connections(view, room, labels);
    canvas.unclip();
    label_runs(view, plant, seen, labels);
    write_notes(canvas, frame.notes, plant, walls);
    return scale.name;
}

}  // namespace bw::draw
