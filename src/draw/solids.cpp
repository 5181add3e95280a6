// SPDX-License-Identifier: MIT
#include "draw/solids.h"

#include <algorithm>
#include <map>

#include "draw/palette.h"

namespace bw::draw {
namespace {

constexpr double finest = 1.1;       // points: two outlines nearer than this run into one
constexpr double chord_error = 0.1;  // points

const Colour heater_face{0.95, 0.95, 0.94}, building{0.88, 0.88, 0.87};

/// How lines of one look are drawn; ordered so that heaters come last, over all else.
struct Inking {
    bool heater = false;
    int service = -1;
    projection::Kind kind{};
    auto operator<=>(const Inking&) const = default;
};

Pen pen_of(const Inking& inking) {
    const bool outline = inking.kind == projection::Kind::outline;
    if (inking.service < 0) return {.width = outline ? 0.5 : 0.3, .colour = grey};
    if (inking.heater) return {.width = outline ? 0.9 : 0.6};
    const auto colour = ink(static_cast<text::Service>(inking.service));
    if (inking.kind == projection::Kind::wire) return {.width = 0.6, .colour = colour};
    return {.width = outline ? 0.45 : 0.2, .colour = colour};
}

Inking inking_of(const plant::Plant& plant, const projection::Stroke& stroke) {
    if (stroke.owner < 0) return {false, -1, stroke.kind};
    const auto& piece = plant.pieces[static_cast<std::size_t>(stroke.owner)];
    return {piece.part == text::Part::heater, static_cast<int>(piece.service), stroke.kind};
}

Colour face_colour(const plant::Plant& plant, const projection::Face& face) {
    Colour flat = building;
    if (face.owner >= 0) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(face.owner)];
        flat = piece.part == text::Part::heater ? heater_face : tint(piece.service);
    }
    const double shade = 0.9 + 0.17 * face.light;  // a face towards the reader keeps its tint
    const auto dim = [&](double c) { return std::min(1.0, c * shade); };
    return {dim(flat.r), dim(flat.g), dim(flat.b)};
}

void add_thick(Scene& scene, const plant::Piece& piece, int owner, double least) {
    std::vector<shape::Solid> thick;
    for (const auto& solid : piece.solids) {
        if (const auto* bar = std::get_if<shape::Cylinder>(&solid); bar && 2 * bar->radius < least) {
            scene.wires.push_back({bar->a, bar->b, owner});
            continue;
        }
        const auto box = shape::bounds(solid);
        const auto size = box.max - box.min;
        if (std::max({size.x, size.y, size.z}) >= least) thick.push_back(solid);
    }
    projection::add(scene.items, thick, owner);
}

}  // namespace

Scene scene_of(const plant::Plant& plant, const std::function<bool(const plant::Piece&)>& shown,
               double points_per_metre) {
    const double least = points_per_metre > 0 ? finest / points_per_metre : 0;
    Scene scene;
    for (std::size_t i = 0; i < plant.pieces.size(); ++i)
        if (shown(plant.pieces[i])) add_thick(scene, plant.pieces[i], static_cast<int>(i), least);
    return scene;
}

projection::Seen draw_solids(const View& view, const plant::Plant& plant, const Scene& scene) {
    auto& canvas = view.canvas();
    auto seen =
        projection::look(scene.items, scene.wires, view.axes(), {.chord = chord_error / view.scale().points_per_metre});
    const auto on_page = [&](const std::vector<projection::Point>& line) {
        std::vector<At> points;
        for (const auto& p : line) points.push_back(view.at(p.x, p.y));
        return points;
    };
    for (const auto& face : seen.faces) canvas.fill(on_page(face.outline), face_colour(plant, face));
    std::map<Inking, std::vector<std::vector<At>>> lines;
    for (const auto& stroke : seen.strokes) {
        const auto inking = inking_of(plant, stroke);
        if (stroke.radius > 0)
            canvas.circle(on_page(stroke.line)[0], view.points(stroke.radius), pen_of(inking));
        else
            lines[inking].push_back(on_page(stroke.line));
    }
    for (auto& [inking, drawn] : lines) canvas.polylines(std::move(drawn), pen_of(inking));
    return seen;
}

}  // namespace bw::draw
