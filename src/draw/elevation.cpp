// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <algorithm>
#include <functional>
#include <map>

#include "draw/palette.h"
#include "draw/plan.h"
#include "plant/stations.h"

namespace bw::draw {

namespace {

using units::amount;
using units::metre;

/// What of the room a view of a bank takes in, in view coordinates; pieces outside are left out.
struct Slab {
    double right_low, right_high, near_low, near_high;
};

bool within(const View& view, const Slab& slab, const plant::Piece& piece) {
    if (piece.part == text::Part::connection || piece.solids.empty()) return false;
    auto box = shape::bounds(piece.solids.front());
    for (const auto& s : piece.solids) box = shape::joined(box, shape::bounds(s));
    const double r = view.right(0.5 * (box.min + box.max)), n = view.nearness(0.5 * (box.min + box.max));
    return r >= slab.right_low && r <= slab.right_high && n >= slab.near_low && n <= slab.near_high;
}

Axes axes_of(const plant::Bank& bank, int side) {
    const shape::Vec u = bank.place.turn({1, 0, 0}), v = bank.place.turn({0, 1, 0});
    // facing the front from outside: with v towards the reader, u runs to the left when (u, v, up) is right-handed
    return side == 0 ? Axes{-u, {0, 0, 1}, v} : Axes{u, {0, 0, 1}, -v};
}

void draw_floor_and_ceiling(const View& view, double low, double high, double ceiling) {
    auto& canvas = view.canvas();
    const At a = view.at(low, 0), b = view.at(high, 0);
    canvas.hatch({a, b, {b.x, b.y + 7}, {a.x, a.y + 7}}, 5, {.width = 0.3, .colour = grey});
    canvas.line(a, b, {.width = 1.4});
    canvas.line(view.at(low, ceiling), view.at(high, ceiling), {.width = 0.9, .dash = {10, 3}});
}

void number_heaters(const View& view, const plant::Plant& plant, const plant::Bank& bank, int side, Labels& labels) {
    for (const auto& stand : bank.stands) {
        if (stand.side != side) continue;
        const int at = plant.find("heater-" + std::to_string(stand.number));
        if (at < 0) continue;
        const auto box = shape::bounds(plant.pieces[static_cast<std::size_t>(at)].solids.front());
        const At p = view(0.5 * (box.min + box.max));
        view.canvas().text({p.x, p.y - 11}, std::to_string(stand.number),
                           {.size = 18, .bold = true, .anchor = Anchor::centre});
        labels.keep_off({p.x - 12, p.y - 12, 24, 24});
    }
}

/// Names each header at its capped end, with nominal size.
void label_headers(const View& view, const plant::Plant& plant, const plant::Bank& bank, Labels& labels) {
    const auto prefix = "bank-" + std::to_string(bank.number) + ".";
    std::map<text::Service, const plant::Piece*> found;
    for (const auto& piece : plant.pieces)
        if (piece.part == text::Part::pipe && piece.id.starts_with(prefix) &&
            piece.id.find(".header.") != std::string::npos) {
            auto& slot = found[piece.service];
            if (!slot || view.right(piece.ports[0].at) > view.right(slot->ports[0].at)) slot = &piece;
        }
    for (const auto& [service, piece] : found) {
        const auto& a = piece->ports[0].at;
        const auto& b = piece->ports[1].at;
        labels.put(view(view.right(a) > view.right(b) ? a : b),
                   fmt::format("{} {} in", text::name(service), units::print(piece->size)),
                   {.size = 8, .bold = true, .colour = ink(service)});
    }
}

std::vector<double> heater_edges(const View& view, const plant::Plant& plant, const plant::Bank& bank, int side) {
    std::vector<double> edges;
    for (const auto& stand : bank.stands) {
        const int at = plant.find("heater-" + std::to_string(stand.number));
        if (stand.side != side || at < 0) continue;
        const auto box = shape::bounds(plant.pieces[static_cast<std::size_t>(at)].solids.front());
        edges.push_back(view.right(box.min));
        edges.push_back(view.right(box.max));
    }
    return edges;
}

void dimension_heights(const View& view, const Desk& desk, const plant::Bank& bank, double ceiling, double left,
                       Labels& labels) {
    namespace st = plant::stations;
    const auto* heater = desk.catalogue.heater(desk.result.capacity.heater);
    const double top = bank.bottom + (heater ? heater->height.value() : 0);
    draw_chain(view,
               {{0, bank.bottom - st::gas_below, bank.bottom - st::cold_below, bank.bottom - st::hot_below, bank.bottom,
                 top, ceiling},
                left - 16,
                left,
                true},
               desk.system, labels);
    draw_chain(view, {{0, bank.bottom, ceiling}, left - 48, left, true}, desk.system, labels);
}

void write_notes(Canvas& canvas, const Desk& desk, const Area& area, const plant::Bank& bank) {
    NotesColumn notes(canvas, area);
    notes.head(fmt::format("Bank {}", bank.number));
    notes.line(fmt::format("{} heaters, {} long.", bank.stands.size(),
                           units::print(amount(bank.length * metre), desk.system)));
    notes.line(fmt::format("Heights are to header centre lines, heaters' bottoms and tops, and the ceiling."));
    notes.head("Services");
    using text::Service;
    for (auto s : {Service::gas, Service::cold, Service::hot, Service::recirculation, Service::exhaust, Service::intake,
                   Service::condensate, Service::relief, Service::power, Service::link, Service::structure})
        notes.key(ink(s), std::string(text::name(s)));
    notes.head("Notes");
    notes.line("Headers stacked gas lowest, cold above it, hot highest; far ends capped for flushing and extension.");
    notes.line("Exhaust is drawn level: lay it with a fall of 1/4 in a foot back to its drain.");
    notes.line("Relief discharges end above the floor with an air gap; nothing is to be fixed over their ends.");
    notes.line("Anchors, racks and lifting: bolt and check first, then hang. Two people or a hoist for each heater.");
}

struct Shape {
    double low, high;  // along the view's right
};

std::string finish_view(Canvas& canvas, const Desk& desk, const plant::Bank& bank, const Axes& axes, const Shape& shape,
                        const Slab& slab, const std::function<void(const View&, Labels&)>& more) {
    const auto frame = frame_of(desk.size);
    const double ceiling = desk.result.survey.room.ceiling->value();
    const Area inner{frame.drawing.x + 84, frame.drawing.y + 56, frame.drawing.width - 110, frame.drawing.height - 110};
    const auto scale = fitting_scale(shape.high - shape.low, ceiling, inner, desk.system);
    const View view(canvas, axes, scale, inner, {shape.low, 0}, {shape.high, ceiling});
    Labels labels(canvas, frame.drawing);
    draw_floor_and_ceiling(view, shape.low, shape.high, ceiling);
    const At corner = view.at(shape.low, ceiling + 0.2), foot = view.at(shape.high, -0.2);
    canvas.clip(corner, foot.x - corner.x, foot.y - corner.y);
    draw_pieces(view, desk.result.chosen->built.plant, [&](const plant::Piece& p) { return within(view, slab, p); });
    canvas.unclip();
    more(view, labels);
    dimension_heights(view, desk, bank, ceiling, view.at(shape.low, 0).x, labels);
    draw_scale_bar(view, {frame.drawing.x + 6, frame.drawing.y + frame.drawing.height - 16}, desk.system);
    write_notes(canvas, desk, frame.notes, bank);
    return scale.name;
}

}  // namespace

std::string draw_front(Canvas& canvas, const Desk& desk, const plant::Bank& bank, int side) {
    const auto axes = axes_of(bank, side);
    const auto& plant = desk.result.chosen->built.plant;
    const double a = dot(bank.place({0, 0, 0}), axes.right), b = dot(bank.place({bank.length, 0, 0}), axes.right);
    const Shape shape{std::min(a, b) - 0.3, std::max(a, b) + 0.3};
    const double middle = dot(bank.place({0, 0, 0}), axes.towards);
    const Slab slab{shape.low, shape.high, middle - (side == 1 || bank.depth_back > 0 ? 0.12 : 0.3),
                    middle + bank.depth_front + 0.45};
    return finish_view(canvas, desk, bank, axes, shape, slab, [&](const View& view, Labels& labels) {
        number_heaters(view, plant, bank, side, labels);
        auto edges = heater_edges(view, plant, bank, side);
        edges.insert(edges.end(), {std::min(a, b), std::max(a, b)});
        const double floor = view.at(0, 0).y + 10;
        draw_chain(view, {edges, floor + 20, floor}, desk.system, labels);
        label_headers(view, plant, bank, labels);
    });
}

std::string draw_end(Canvas& canvas, const Desk& desk, const plant::Bank& bank) {
    const shape::Vec u = bank.place.turn({1, 0, 0}), v = bank.place.turn({0, 1, 0});
    // standing at the feed end and looking along the headers
    const Axes axes = bank.mirrored ? Axes{-v, {0, 0, 1}, u} : Axes{v, {0, 0, 1}, -u};
    const double middle = dot(bank.place({0, 0, 0}), axes.right);
    const double sign = bank.mirrored ? -1 : 1;
    const double front = middle + sign * (bank.depth_front + 0.75), back = middle - sign * (bank.depth_back + 0.35);
    const Shape shape{std::min(front, back), std::max(front, back)};
    const double near_a = dot(bank.place({0, 0, 0}), axes.towards),
                 near_b = dot(bank.place({bank.length, 0, 0}), axes.towards);
    const Slab slab{shape.low, shape.high, std::min(near_a, near_b), std::max(near_a, near_b)};
    return finish_view(canvas, desk, bank, axes, shape, slab, [&](const View& view, Labels& labels) {
        const double floor = view.at(0, 0).y + 10;
        std::vector<double> stations{middle, middle + sign * bank.depth_front, middle - sign * bank.depth_back};
        if (bank.back_plane > 0)
            stations.insert(stations.end(), {middle + sign * bank.back_plane, middle - sign * bank.back_plane});
        draw_chain(view, {stations, floor + 20, floor}, desk.system, labels);
    });
}

}  // namespace bw::draw
