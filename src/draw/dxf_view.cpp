// SPDX-License-Identifier: MIT
#include "draw/dxf_view.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <numbers>

#include "draw/room.h"

namespace bw::draw {
namespace {

using text::Part;
using text::Service;

struct LayerOf {
    Service service;
    int colour;  // of the DXF palette, near the sheets' ink
};
constexpr LayerOf service_layers[] = {{Service::gas, 42},          {Service::cold, 5},     {Service::hot, 1},
                                      {Service::recirculation, 6}, {Service::exhaust, 8},  {Service::intake, 134},
                                      {Service::condensate, 94},   {Service::relief, 30},  {Service::power, 7},
                                      {Service::link, 174},        {Service::structure, 9}};

std::string upper(std::string_view text) {
    std::string out(text);
    std::ranges::transform(out, out.begin(), [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return out;
}

std::string layer_of(const plant::Piece& piece) {
    return piece.part == Part::heater ? "HEATER" : upper(text::name(piece.service));
}

constexpr double chord = 1e-3;  // metres, of arcs that are drawn as polylines

}  // namespace

void add_layers(DxfFile& file) {
    for (const auto& [service, colour] : service_layers) file.layer(upper(text::name(service)), colour);
    for (const auto& [name, colour] :
         {std::pair{"HEATER", 7}, {"ROOM", 252}, {"DOOR", 252}, {"DIMENSION", 3}, {"TEXT", 7}, {"0", 7}})
        file.layer(name, colour);
    file.layer("HIDDEN", 9, true);
}

DxfView::DxfView(DxfFile& file, const SheetContext& context, Axes axes, DxfPoint low, DxfPoint place)
    : file_(file), context_(context), axes_(axes), unit_(context.system == units::System::us ? 1 / 0.0254 : 1000.0) {
    move_ = {place.x - low.x * unit_, place.y - low.y * unit_};
}

void DxfView::solids(const Scene& scene, bool hidden) {
    const auto seen =
        projection::look(scene.items, scene.wires, axes_, {.chord = chord, .hidden = hidden, .faces = false});
    std::map<int, std::vector<const projection::Stroke*>> by_owner;
    for (const auto& s : seen.strokes) by_owner[s.owner].push_back(&s);
    for (const auto& [owner, strokes] : by_owner)
        if (owner >= 0)
            piece(context_.result.chosen->built.plant.pieces[static_cast<std::size_t>(owner)], strokes);
        else
            for (const auto* s : strokes) stroke(file_.entities, "ROOM", *s, {});
}

void DxfView::piece(const plant::Piece& p, const std::vector<const projection::Stroke*>& strokes) {
    const auto layer = layer_of(p);
    if (p.cut > 0) {
        for (const auto* s : strokes) stroke(file_.entities, layer, *s, {});
        return;
    }
    DxfPoint corner{1e18, 1e18};
    const auto box = shape::bounds(p.solids);
    for (const double x : {box.min.x, box.max.x})
        for (const double y : {box.min.y, box.max.y})
            for (const double z : {box.min.z, box.max.z}) {
                const auto at = (*this)({x, y, z});
                corner = {std::min(corner.x, at.x), std::min(corner.y, at.y)};
            }
    DxfEntities content;
    for (const auto* s : strokes) stroke(content, layer, *s, corner);
    file_.entities.insert(layer, file_.block(p.item, content), corner);
}

void DxfView::stroke(DxfEntities& to, const std::string& layer, const projection::Stroke& stroke, DxfPoint from) const {
    const auto& on = stroke.hidden ? std::string("HIDDEN") : layer;
    std::vector<DxfPoint> points;
    for (const auto& p : stroke.line) {
        const auto q = at(p.x, p.y);
        points.push_back({q.x - from.x, q.y - from.y});
    }
    if (stroke.radius > 0) return to.circle(on, points[0], measure(stroke.radius));
    if (points.size() == 2) return to.line(on, points[0], points[1]);
    to.polyline(on, points, false);
}

void DxfView::number(const plant::Piece& piece) {
    const auto box = shape::bounds(piece.solids.front());
    const auto middle = (*this)(0.5 * (box.min + box.max));
    out().text("TEXT", middle, measure(0.1), std::to_string(piece.heater));
}

void DxfView::chain(std::vector<double> stations, double away, bool vertical) {
    std::ranges::sort(stations);
    const auto same = std::ranges::unique(stations, [](double a, double b) { return b - a < 0.0015; });
    stations.erase(same.begin(), same.end());
    const auto on = [&](double s, double off) { return vertical ? at(away + off, s) : at(s, away + off); };
    for (std::size_t i = 0; i < stations.size(); ++i) {
        out().line("DIMENSION", on(stations[i], -0.04), on(stations[i], 0.04));
        if (i == 0) continue;
        out().line("DIMENSION", on(stations[i - 1], 0), on(stations[i], 0));
        const auto text = units::print(units::amount((stations[i] - stations[i - 1]) * units::metre), context_.system);
        out().text("DIMENSION", on((stations[i] + stations[i - 1]) / 2, vertical ? -0.02 : 0.02), measure(0.04), text,
                   vertical ? 90 : 0);
    }
}

/// Leaf and swing are a block about the hinge; the opening's jambs are the wall's.
void DxfView::door(const survey::Room& room, const survey::Door& door) {
    const auto w = door_in_plan(room, door);
    out().polyline("ROOM", {(*this)(w.near), (*this)(w.near + w.out), (*this)(w.far + w.out), (*this)(w.far)}, false);
    const auto hinge = (*this)(w.hinge), open = (*this)(w.open), shut = (*this)(w.shut);
    const auto turn = [&](DxfPoint p) { return std::atan2(p.y - hinge.y, p.x - hinge.x) * 180 / std::numbers::pi; };
    DxfEntities content;
    content.line("DOOR", {}, {open.x - hinge.x, open.y - hinge.y});
    double from = turn(shut), to = turn(open);
    if (std::remainder(to - from, 360) < 0) std::swap(from, to);
    content.arc("DOOR", {}, std::hypot(open.x - hinge.x, open.y - hinge.y), from, to);
    out().insert("DOOR", file_.block("door", content), hinge);
}

void DxfView::room(const survey::Room& room) {
    std::vector<DxfPoint> walls;
    for (const auto& p : room.plan) walls.push_back((*this)({p.x, p.y, 0}));
    out().polyline("ROOM", walls, true);
    for (const auto& d : room.doors) door(room, d);
    for (const auto& o : room.obstacles) {
        const auto a = (*this)(o.box.min), b = (*this)(o.box.max);
        out().polyline("ROOM", {a, {b.x, a.y}, b, {a.x, b.y}}, true);
        out().text("TEXT", {(a.x + b.x) / 2, (a.y + b.y) / 2}, measure(0.06), o.name);
    }
    for (const auto& m : marked(room)) {
        const auto layer = upper(text::name(m.service));
        out().circle(layer, (*this)(m.connection->at), measure(0.06));
        out().text("TEXT", (*this)(m.connection->at), measure(0.06), std::string(1, m.letter));
    }
}

}  // namespace bw::draw
