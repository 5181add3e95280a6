// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <functional>
#include <map>
#include <set>

#include "draw/bank_view.h"
#include "draw/palette.h"
#include "draw/plan.h"
#include "draw/solids.h"

namespace bw::draw {

namespace {

using units::amount;
using units::metre;

void draw_floor_and_ceiling(const View& view, double low, double high, const std::vector<CeilingLine>& ceiling) {
    auto& canvas = view.canvas();
    const At a = view.at(low, 0), b = view.at(high, 0);
    canvas.hatch({a, b, {b.x, b.y + 7}, {a.x, a.y + 7}}, 5, {.width = 0.3, .colour = grey});
    canvas.line(a, b, {.width = 1.4});
    for (const auto& line : ceiling)
        canvas.line(view.at(line.from, line.left), view.at(line.to, line.right), {.width = 0.9, .dash = {10, 3}});
    if (ceiling.size() < 2) return;
    // the two may lie close: the name of the higher stands above it, that of the lower below
    const CeilingLine &back = ceiling.front(), &front = ceiling.back();
    const auto name = [&](const CeilingLine& line, bool higher, const char* says) {
        const At end = view.at(line.to, line.right);
        canvas.text({end.x + 4, end.y + (higher ? -9.0 : 3.0)}, says, {.size = 7, .italic = true});
    };
    name(back, back.right > front.right, "ceiling, at the back");
    name(front, front.right > back.right, "at the front");
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

void dimension_heights(const View& view, const SheetContext& context, const plant::Bank& bank,
                       const std::vector<CeilingLine>& ceiling, double left, Labels& labels) {
    draw_chain(view, {bank_heights(context, bank, ceiling), left - 16, left, true}, context.system, labels);
    std::vector<double> whole{0, bank.bottom};
    for (const auto& line : ceiling) whole.push_back(line.left);
    draw_chain(view, {whole, left - 48, left, true}, context.system, labels);
}

void write_notes(Canvas& canvas, const SheetContext& context, const Area& area, const plant::Bank& bank,
                 const std::vector<CeilingLine>& ceiling) {
    NotesColumn notes(canvas, area);
    notes.head(fmt::format("Bank {}", bank.number));
    notes.line(fmt::format("{} heaters, {} long.", bank.stands.size(),
                           units::print(amount(bank.length * metre), context.system)));
    notes.line(fmt::format("Heights are to header centre lines, heaters' bottoms and tops, and the ceiling."));
    if (const auto slope = ceiling_note(ceiling, context.system); !slope.empty()) notes.line(slope);
    write_services(notes, context.result.chosen->built.plant);
    notes.head("Notes");
    notes.line("Headers stacked gas lowest, cold above it, hot highest; far ends capped for flushing and extension.");
    notes.line("Exhaust is drawn level: lay it with a fall of 1/4 in a foot back to its drain.");
    notes.line("Relief discharges end above the floor with an air gap; nothing is to be fixed over their ends.");
    notes.line("Anchors, racks and lifting: bolt and check first, then hang. Two people or a hoist for each heater.");
}

std::string finish_view(Canvas& canvas, const SheetContext& context, const plant::Bank& bank, const BankView& seen,
                        const std::function<void(const View&, Labels&)>& more) {
    const auto frame = frame_of(context.size);
    const auto ceiling = ceiling_lines(context.result.survey.room, seen);
    const double top = top_of(ceiling);
    const Area inner{frame.drawing.x + 84, frame.drawing.y + 56, frame.drawing.width - 110, frame.drawing.height - 110};
    const auto scale = fitting_scale(seen.high - seen.low, top, inner, context.system);
    const View view(canvas, seen.axes, scale, inner, {seen.low, 0}, {seen.high, top});
    Labels labels(canvas, frame.drawing);
    draw_floor_and_ceiling(view, seen.low, seen.high, ceiling);
    const At corner = view.at(seen.low, top + 0.2), foot = view.at(seen.high, -0.2);
    canvas.clip(corner, foot.x - corner.x, foot.y - corner.y);
    const auto& plant = context.result.chosen->built.plant;
    const auto scene = scene_of(
        plant, [&](const plant::Piece& p) { return shows(seen, p); }, scale.points_per_metre);
    draw_solids(view, plant, scene);
    canvas.unclip();
    const double floor = view.at(0, 0).y + 10;
    draw_chain(view, {seen.stations, floor + 20, floor}, context.system, labels);
    more(view, labels);
    dimension_heights(view, context, bank, ceiling, view.at(seen.low, 0).x, labels);
    draw_scale_bar(view, {frame.drawing.x + 6, frame.drawing.y + frame.drawing.height - 16}, context.system);
    write_notes(canvas, context, frame.notes, bank, ceiling);
    return scale.name;
}

}  // namespace

void write_services(NotesColumn& notes, const plant::Plant& plant) {
    std::set<text::Service> has;
    for (const auto& piece : plant.pieces)
        if (piece.part != text::Part::heater) has.insert(piece.service);
    notes.head("Services");
    for (const auto service : has) notes.key(ink(service), std::string(text::name(service)));
}

std::string draw_front(Canvas& canvas, const SheetContext& context, const plant::Bank& bank, int side) {
    const auto& plant = context.result.chosen->built.plant;
    return finish_view(canvas, context, bank, front_view(plant, bank, side), [&](const View& view, Labels& labels) {
        number_heaters(view, plant, bank, side, labels);
        label_headers(view, plant, bank, labels);
    });
}

std::string draw_end(Canvas& canvas, const SheetContext& context, const plant::Bank& bank) {
    return finish_view(canvas, context, bank, end_view(bank), [](const View&, Labels&) {});
}

}  // namespace bw::draw
