// SPDX-License-Identifier: MIT
// Plan and elevations as full-size geometry for CAD programs.
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <functional>

#include "draw/bank_view.h"
#include "draw/dxf_writer.h"
#include "draw/plan.h"
#include "draw/room.h"
#include "draw/sheets.h"

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

/// One view, moved so that its lower left corner stands at `place`.
class DxfView {
public:
    DxfView(DxfFile& file, const Desk& desk, Axes axes, DxfPoint low, DxfPoint place)
        : file_(file), desk_(desk), axes_(axes), unit_(desk.system == units::System::us ? 1 / 0.0254 : 1000.0) {
        move_ = {place.x - low.x * unit_, place.y - low.y * unit_};
    }

    [[nodiscard]] DxfPoint at(double right, double up) const { return {right * unit_ + move_.x, up * unit_ + move_.y}; }
    [[nodiscard]] DxfPoint operator()(shape::Vec v) const { return at(dot(v, axes_.right), dot(v, axes_.up)); }
    [[nodiscard]] double measure(double metres) const { return metres * unit_; }
    [[nodiscard]] DxfEntities& out() const { return file_.entities; }

    /// A heater or bought piece is a block, cut pipe is drawn as it lies.
    void piece(const plant::Piece& p) {
        const auto layer = layer_of(p);
        if (p.cut > 0) {
            for (const auto& solid : p.solids) outline(file_.entities, layer, solid, {});
            return;
        }
        const auto box = shape::bounds(p.solids);
        const DxfPoint origin = (*this)(box.min), far = (*this)(box.max);
        const DxfPoint corner{std::min(origin.x, far.x), std::min(origin.y, far.y)};
        DxfEntities content;
        for (const auto& solid : p.solids) outline(content, layer, solid, corner);
        file_.entities.insert(layer, file_.block(p.item, content), corner);
    }

    /// Heater numbers stand over their blocks.
    void number(const plant::Piece& p) {
        const auto box = shape::bounds(p.solids.front());
        const auto middle = (*this)(0.5 * (box.min + box.max));
        file_.entities.text("TEXT", middle, measure(0.1), std::to_string(p.heater));
    }

    void chain(std::vector<double> stations, double away, bool vertical) {
        std::ranges::sort(stations);
        const auto same = std::ranges::unique(stations, [](double a, double b) { return b - a < 0.0015; });
        stations.erase(same.begin(), same.end());
        const auto on = [&](double s, double off) { return vertical ? at(away + off, s) : at(s, away + off); };
        for (std::size_t i = 0; i < stations.size(); ++i) {
            out().line("DIMENSION", on(stations[i], -0.04), on(stations[i], 0.04));
            if (i == 0) continue;
            out().line("DIMENSION", on(stations[i - 1], 0), on(stations[i], 0));
            const auto text = units::print(units::amount((stations[i] - stations[i - 1]) * units::metre), desk_.system);
            out().text("DIMENSION", on((stations[i] + stations[i - 1]) / 2, vertical ? -0.02 : 0.02), measure(0.04),
                       text, vertical ? 90 : 0);
        }
    }

private:
    void outline(DxfEntities& to, const std::string& layer, const shape::Solid& solid, DxfPoint from) const {
        const auto local = [&](DxfPoint p) { return DxfPoint{p.x - from.x, p.y - from.y}; };
        if (const auto* bar = std::get_if<shape::Cylinder>(&solid)) {
            const auto a = local((*this)(bar->a)), b = local((*this)(bar->b));
            const double length = std::hypot(b.x - a.x, b.y - a.y), r = measure(bar->radius);
            if (length < measure(1e-4)) return to.circle(layer, a, r);
            const double nx = -(b.y - a.y) / length * r, ny = (b.x - a.x) / length * r;
            return to.polyline(
                layer, {{a.x + nx, a.y + ny}, {b.x + nx, b.y + ny}, {b.x - nx, b.y - ny}, {a.x - nx, a.y - ny}}, true);
        }
        const auto& box = std::get<shape::Box>(solid);
        const auto a = local((*this)(box.min)), b = local((*this)(box.max));
        to.polyline(layer, {a, {b.x, a.y}, b, {a.x, b.y}}, true);
    }

    DxfFile& file_;
    const Desk& desk_;
    Axes axes_;
    double unit_;
    DxfPoint move_;
};

void room_in_plan(const DxfView& view, const survey::Room& room) {
    std::vector<DxfPoint> walls;
    for (const auto& p : room.plan) walls.push_back(view({p.x, p.y, 0}));
    view.out().polyline("ROOM", walls, true);
    for (const auto& door : room.doors) {
        const auto& a = room.plan[static_cast<std::size_t>(door.wall)];
        const auto& b = room.plan[(static_cast<std::size_t>(door.wall) + 1) % room.plan.size()];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        const shape::Vec start{a.x, a.y, 0}, along{(b.x - a.x) / length, (b.y - a.y) / length, 0};
        const shape::Vec out{0.1 * along.y, -0.1 * along.x, 0};
        const auto near = start + door.offset.value() * along, far = near + door.width.value() * along;
        view.out().polyline("ROOM", {view(near), view(near + out), view(far + out), view(far)}, false);
    }
    for (const auto& o : room.obstacles) {
        const auto a = view(o.box.min), b = view(o.box.max);
        view.out().polyline("ROOM", {a, {b.x, a.y}, b, {a.x, b.y}}, true);
        view.out().text("TEXT", {(a.x + b.x) / 2, (a.y + b.y) / 2}, view.measure(0.06), o.name);
    }
    for (const auto& m : marked(room)) {
        const auto layer = upper(text::name(m.service));
        view.out().circle(layer, view(m.connection->at), view.measure(0.06));
        view.out().text("TEXT", view(m.connection->at), view.measure(0.06), std::string(1, m.letter));
    }
}

class Drawing {
public:
    explicit Drawing(const Desk& desk) : desk_(desk), plant_(desk.result.chosen->built.plant) {
        for (const auto& [service, colour] : service_layers) file_.layer(upper(text::name(service)), colour);
        for (const auto& [name, colour] :
             {std::pair{"HEATER", 7}, {"ROOM", 252}, {"DIMENSION", 3}, {"TEXT", 7}, {"0", 7}})
            file_.layer(name, colour);
    }

    std::string all() {
        plan();
        const auto& layout = desk_.result.chosen->layout;
        for (const auto& bank : layout.banks) {
            const bool two = layout.arrangement == plant::Arrangement::rack_two_sided;
            for (int side = 0; side < (two ? 2 : 1); ++side)
                elevation(fmt::format("Front of bank {}{}", bank.number,
                                      !two        ? ""
                                      : side == 0 ? ", side A"
                                                  : ", side B"),
                          bank, front_view(plant_, bank, side), side);
            elevation(fmt::format("End of bank {}", bank.number), bank, end_view(bank), -1);
        }
        return file_.finish({-margin_, -margin_}, {x_, high_ + margin_});
    }

private:
    void plan() {
        const auto at = plan_stations(desk_);
        const auto [left, right] = std::ranges::minmax(at.across);
        const auto [low, high] = std::ranges::minmax(at.up);
        DxfView view(file_, desk_, from_above, {left, low}, {0, 0});
        room_in_plan(view, desk_.result.survey.room);
        for (const auto& p : plant_.pieces)
            if (p.part != Part::connection && !p.solids.empty()) view.piece(p);
        for (const auto& p : plant_.pieces)
            if (p.part == Part::heater) view.number(p);
        view.chain(at.across, high + 0.35, false);
        view.chain(at.up, left - 0.35, true);
        title("Plan", view, left, right, low, high);
    }

    /// `side` names whose heaters are numbered: -1 for nobody's.
    void elevation(const std::string& name, const plant::Bank& bank, const BankView& seen, int side) {
        const double ceiling = desk_.result.survey.room.ceiling->value();
        DxfView view(file_, desk_, seen.axes, {seen.low, 0}, {x_, 0});
        for (const double z : {0.0, ceiling}) view.out().line("ROOM", view.at(seen.low, z), view.at(seen.high, z));
        for (const auto& p : plant_.pieces)
            if (shows(seen, p)) view.piece(p);
        for (const auto& stand : bank.stands)
            if (const int at = plant_.find("heater-" + std::to_string(stand.number)); stand.side == side && at >= 0)
                view.number(plant_.pieces[static_cast<std::size_t>(at)]);
        view.chain(seen.stations, -0.25, false);
        view.chain(bank_heights(desk_, bank), seen.low - 0.2, true);
        title(name, view, seen.low, seen.high, -0.2, ceiling);
    }

    void title(const std::string& name, const DxfView& view, double left, double right, double low, double high) {
        view.out().text("TEXT", view.at((left + right) / 2, low - 0.4), view.measure(0.1), name);
        margin_ = view.measure(0.8);
        x_ = view.at(right, 0).x + view.measure(1.6);
        high_ = std::max(high_, view.at(0, high).y);
    }

    const Desk& desk_;
    const plant::Plant& plant_;
    DxfFile file_;
    double x_ = 0, high_ = 0, margin_ = 0;
};

}  // namespace

bw::Result<std::string> dxf(const design::Result& result, const catalogue::Catalogue& catalogue, units::System system) {
    if (!result.chosen)
        return fail("nothing fits in the room, so there is nothing to draw", "a survey with a plant that fits");
    const design::Solved none;
    return Drawing({result, catalogue, none, system, size_of(usual_paper(system))}).all();
}

}  // namespace bw::draw
