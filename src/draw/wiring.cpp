// SPDX-License-Identifier: MIT
// Circuits from the panel to the heaters, and the chain of links between heaters.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "draw/circuits.h"
#include "draw/diagrams.h"
#include "draw/palette.h"
#include "draw/signs.h"

namespace bw::draw {
namespace {

using text::Part;
using text::Service;
using units::amount;
using units::metre;

constexpr double row_height = 150, wire_at = 40, heater_at = 84, box = 34, lead = 216, panel_width = 46,
                 breaker_at = 68, stop_at = 118, least_pitch = 58, most_pitch = 110, link_lane = 16;

/// Part of a circuit that goes on one row.
struct Row {
    std::size_t circuit = 0, first = 0, end = 0;
};

struct Plan {
    std::vector<Circuit> circuits;
    std::vector<Link> links;
    std::vector<Row> rows;
    std::map<int, std::pair<int, double>> heater;  ///< number to row and points from the drawing's left
    double pitch = most_pitch;
};

Plan plan_of(const plant::Plant& plant, double width) {
    Plan plan{circuits_of(plant), links_of(plant), {}, {}};
    std::size_t most = 1;
    for (const auto& c : plan.circuits) most = std::max(most, c.outlets.size());
    const auto room = static_cast<std::size_t>((width - lead - least_pitch / 2) / least_pitch) + 1;
    plan.pitch = std::clamp((width - lead - least_pitch / 2) / static_cast<double>(most), least_pitch, most_pitch);
    for (std::size_t c = 0; c < plan.circuits.size(); ++c)
        for (std::size_t first = 0; first < plan.circuits[c].outlets.size(); first += room) {
            const auto end = std::min(first + room, plan.circuits[c].outlets.size());
            for (std::size_t k = first; k < end; ++k)
                plan.heater[plan.circuits[c].outlets[k].heater] = {static_cast<int>(plan.rows.size()),
                                                                   lead + plan.pitch * static_cast<double>(k - first)};
            plan.rows.push_back({c, first, end});
        }
    return plan;
}

class Sheet {
public:
    Sheet(Canvas& canvas, const SheetContext& context, Area area, const Plan& plan)
        : canvas_(canvas), context_(context), area_(area), plan_(plan) {}

    void rows(int from, int to) {
        const double first = area_.y + 24;
        for (int row = from; row < to; ++row) draw_row(row, first + row_height * (row - from));
        links(from, to, first);
        const double bottom = first + row_height * (to - from - 1) + wire_at + 26;
        canvas_.rectangle({area_.x, first + 8}, panel_width, bottom - first - 8, {.width = 1.2}, white);
        canvas_.text({area_.x + panel_width / 2, first + 12}, "P",
                     {.size = 10, .bold = true, .anchor = Anchor::centre});
        canvas_.text({area_.x + panel_width / 2, first + 24}, "panel", {.size = 6.5, .anchor = Anchor::centre});
        if (!stops_.empty()) stop_frame();
    }

private:
    const plant::Piece& piece(int i) const {
        return context_.result.chosen->built.plant.pieces[static_cast<std::size_t>(i)];
    }
    std::string rating(int index) const {
        const auto* item = context_.catalogue.item(piece(index).item);
        const auto amps = item ? item->number("rating") : std::nullopt;
        return amps ? units::print(units::Amount{*amps, units::Kind::current}, context_.system) : std::string();
    }
    double x_of(int heater) const { return area_.x + plan_.heater.at(heater).second; }

    void draw_row(int number, double y) {
        const auto& row = plan_.rows[static_cast<std::size_t>(number)];
        const auto& circuit = plan_.circuits[row.circuit];
        const double wire = y + wire_at;
        const auto name = fmt::format("{}{}", row.circuit + 1, row.first == 0 ? "" : "a");
        const double last = x_of(circuit.outlets[row.end - 1].heater);
        const bool on = row.end < circuit.outlets.size();
        const Pen pen{.width = 1.2, .colour = ink(Service::power)};
        const double start = row.first == 0 ? area_.x + panel_width : area_.x + stop_at;
        canvas_.line({start, wire}, {last + (on ? plan_.pitch * 0.45 : 0), wire}, pen);
        if (row.first > 0) draw_flag(canvas_, {start, wire}, fmt::format("P{}", row.circuit + 1), pen.colour);
        if (on) draw_flag(canvas_, {last + plan_.pitch * 0.45, wire}, fmt::format("P{}", row.circuit + 1), pen.colour);
        if (row.first == 0) feed(circuit, row.circuit, wire);
        double before = row.first == 0 ? area_.x + (circuit.stop >= 0 ? stop_at + 18 : breaker_at + 9) : start;
        for (std::size_t k = row.first; k < row.end; ++k) {
            const double x = x_of(circuit.outlets[k].heater);
            outlet(circuit.outlets[k], x, before, wire, y + heater_at);
            before = x;
        }
    }

    /// Breaker and emergency stop.
    void feed(const Circuit& circuit, std::size_t number, double wire) {
        const double x = area_.x + breaker_at;
        const Pen pen{.width = 1.0};
        canvas_.rectangle({x - 9, wire - 5}, 18, 10, pen, white);
        canvas_.arc({x, wire + 4}, 7.5, 3.7, 5.72, pen);
        canvas_.text({x, wire - 24}, fmt::format("circuit {}", number + 1),
                     {.size = 6.5, .bold = true, .anchor = Anchor::centre});
        canvas_.text({x, wire - 15}, rating(circuit.breaker), {.size = 6.5, .anchor = Anchor::centre});
        const auto* heater = context_.catalogue.heater(context_.result.chosen->capacity.heater);
        if (heater) {
            const auto each = std::max(heater->current_running, heater->current_freeze);
            canvas_.text(
                {x, wire + 9},
                units::print(amount(static_cast<double>(circuit.outlets.size()) * each), context_.system) + " load",
                {.size = 6, .anchor = Anchor::centre});
        }
        if (circuit.stop < 0) return;
        const double s = area_.x + stop_at;  // a contact that is closed until the button is struck
        canvas_.line({s - 8, wire}, {s + 8, wire}, {.width = 2.4, .colour = white});
        canvas_.line({s - 8, wire}, {s + 9, wire - 5}, pen);
        for (const double end : {s - 8, s + 8}) canvas_.circle({end, wire}, 1.8, pen, white);
        stops_.push_back(wire);
    }

    void stop_frame() {
        const double s = area_.x + stop_at, top = stops_.front() - 34, bottom = stops_.back() + 14;
        canvas_.polyline({{s - 18, top}, {s + 18, top}, {s + 18, bottom}, {s - 18, bottom}},
                         {.width = 0.8, .colour = {0.68, 0.1, 0.1}, .dash = {4, 2}}, true);
        canvas_.text({s, top + 3}, "emergency\nstop",
                     {.size = 6.5, .bold = true, .colour = {0.68, 0.1, 0.1}, .anchor = Anchor::centre, .width = 40});
    }

    void outlet(const Outlet& outlet, double x, double before, double wire, double top) {
        const Pen pen{.width = 1.2, .colour = ink(Service::power)};
        const double middle = (before + (before < area_.x + lead - 30 ? x - 26 : x)) / 2;
        canvas_.text({middle, wire - 19}, units::print(outlet.size) + " in cable",
                     {.size = 5.6, .anchor = Anchor::centre});
        canvas_.text({middle, wire - 12}, units::print(amount(outlet.cable * metre), context_.system),
                     {.size = 5.6, .anchor = Anchor::centre});
        canvas_.line({x, wire}, {x, top}, pen);
        canvas_.circle({x, wire}, 1.6, pen, pen.colour);
        if (outlet.disconnect >= 0) {
            const double y = (wire + top) / 2;
            canvas_.rectangle({x - 7, y - 10}, 14, 20, {.width = 0.9}, white);
            canvas_.line({x, y - 10}, {x, y - 6}, pen);
            canvas_.line({x, y + 6}, {x - 5, y - 5}, pen);
            canvas_.line({x, y + 6}, {x, y + 10}, pen);
            canvas_.text({x + 10, y - 4}, rating(outlet.disconnect), {.size = 6});
        }
        canvas_.rectangle({x - 17, top}, 34, box, {.width = 1.0}, {0.97, 0.97, 0.97});
        canvas_.text({x, top + box / 2 - 7.5}, std::to_string(outlet.heater),
                     {.size = 12, .bold = true, .anchor = Anchor::centre});
    }

    /// Neighbours by a straight line, others under the rows; what goes to another sheet ends at a flag.
    void links(int from, int to, double first) {
        const Pen pen{.width = 1.1, .colour = ink(Service::link), .dash = {4, 2}};
        const auto top = [&](int row) { return first + row_height * (row - from) + heater_at; };
        for (const auto& link : plan_.links) {
            const auto a = plan_.heater.find(link.from), b = plan_.heater.find(link.to);
            if (a == plan_.heater.end() || b == plan_.heater.end()) continue;
            const auto [row_a, xa] = a->second;
            const auto [row_b, xb] = b->second;
            const bool here_a = row_a >= from && row_a < to, here_b = row_b >= from && row_b < to;
            const double turn = xb > xa ? 1 : -1;
            if (here_a && row_a == row_b && std::abs(xa - xb) < plan_.pitch * 1.5) {
                const double y = top(row_a) + box / 2;
                canvas_.line({area_.x + xa + turn * 17, y}, {area_.x + xb - turn * 17, y}, pen);
            } else if (here_a && here_b) {
                across({area_.x + xa, top(row_a)}, {area_.x + xb, top(row_b)}, row_a == row_b, pen);
            } else {
                if (here_a) loose(area_.x + xa, top(row_a), link, pen);
                if (here_b) loose(area_.x + xb, top(row_b), link, pen);
            }
        }
        plugs(from, to, top);
    }

    void across(At a, At b, bool same_row, const Pen& pen) {
        const double lane = a.y + box + link_lane;
        if (same_row) return canvas_.polyline({{a.x, a.y + box}, {a.x, lane}, {b.x, lane}, {b.x, b.y + box}}, pen);
        const double side = b.x - 24, under = b.y + box / 2;
        canvas_.polyline({{a.x, a.y + box}, {a.x, lane}, {side, lane}, {side, under}, {b.x - 17, under}}, pen);
    }

    void loose(double x, double top, const Link& link, const Pen& pen) {
        canvas_.line({x, top + box}, {x, top + box + 10}, pen);
        draw_flag(canvas_, {x, top + box + 15}, fmt::format("L{}", link.from), pen.colour);
    }

    template <class Top>
    void plugs(int from, int to, const Top& top) {
        for (const auto& p : context_.result.chosen->built.plant.pieces) {
            if (p.part != Part::link_plug || !plan_.heater.contains(p.heater)) continue;
            const auto [row, x] = plan_.heater.at(p.heater);
            if (row < from || row >= to) continue;
            const At at{area_.x + x - 10, top(row) + box};
            canvas_.rectangle(at, 6, 6, {.width = 0.8, .colour = ink(Service::link)}, ink(Service::link));
        }
    }

    Canvas& canvas_;
    const SheetContext& context_;
    Area area_;
    const Plan& plan_;
    std::vector<double> stops_;
};

int how_many(const plant::Plant& plant, Part part) {
    return static_cast<int>(std::ranges::count_if(plant.pieces, [&](const auto& p) { return p.part == part; }));
}

void signs(NotesColumn& notes, Canvas& canvas, const plant::Plant& plant) {
    const auto power = ink(Service::power), link = ink(Service::link);
    const auto key = [&](Colour colour, Part part, const char* text, const std::function<void(At)>& draw) {
        if (const int n = how_many(plant, part); n > 0) notes.sign(colour, draw, fmt::format("{} ({})", text, n));
    };
    notes.head("Signs, and how many there are");
    key(power, Part::panel_feed, "breaker in the panel", [&canvas](At a) {
        canvas.rectangle({a.x - 8, a.y - 5}, 16, 10, {.width = 1}, white);
    });
    key(power, Part::emergency_stop, "emergency stop, opens every circuit", [&canvas](At a) {
        canvas.line({a.x - 8, a.y}, {a.x + 8, a.y}, {.width = 2.4, .colour = white});
        canvas.line({a.x - 8, a.y}, {a.x + 9, a.y - 5}, {.width = 1});
    });
    key(power, Part::disconnect, "disconnect in sight of its heater", [&canvas](At a) {
        canvas.rectangle({a.x - 10, a.y - 7}, 20, 14, {.width = 0.9}, white);
        canvas.line({a.x + 6, a.y}, {a.x - 5, a.y - 5}, {.width = 1});
    });
    key(power, Part::overflow_switch, "overflow switch of the condensate pump: stops every heater",
        [&canvas](At a) { canvas.circle(a, 3, {.width = 1}, white); });
    key(link, Part::link_cable, "link cable, dashed", [&canvas](At a) {
        for (const int i : {-1, 0, 1})
            canvas.line({a.x + 8.0 * i - 1.5, a.y}, {a.x + 8.0 * i + 1.5, a.y}, {.width = 2.4, .colour = white});
    });
    key(link, Part::link_plug, "plug at an open end of the chain", [&canvas, link](At a) {
        canvas.rectangle({a.x - 3, a.y - 3}, 6, 6, {.width = 0.8, .colour = link}, link);
    });
    key(power, Part::bond, "parts of the gas pipe's bond to earth", [&canvas](At a) {
        for (int i = 0; i < 3; ++i)
            canvas.line({a.x + 3.0 * i, a.y - 6 + 2 * i}, {a.x + 3.0 * i, a.y + 6 - 2 * i}, {.width = 1});
    });
    key(power, Part::co_alarm, "carbon monoxide alarm, on its own supply",
        [&canvas](At a) { canvas.circle(a, 6, {.width = 1}, white); });
}

void notes_of(Canvas& canvas, const SheetContext& context, const Area& area) {
    const auto& plant = context.result.chosen->built.plant;
    NotesColumn notes(canvas, area);
    notes.head("Power and links");
    if (const auto* heater = context.catalogue.heater(context.result.chosen->capacity.heater))
        notes.line(fmt::format(
            "Each heater: {}, {} at most running or kept from freezing.",
            units::print(amount(heater->voltage), context.system),
            units::print(amount(std::max(heater->current_running, heater->current_freeze)), context.system)));
    notes.line("Above each cable: trade size and length to the next disconnect. Flags of one name are one point.");
    notes.line("Circuits are parted so that half the plant runs when one trips.");
    if (const int n = how_many(plant, Part::condensate_pump); n > 0)
        notes.line(
            "The condensate pump has a circuit of its own, which the stop does not cut. Its overflow switch opens the "
            "coil of the stop's contactor: an overfull tank stops every heater. Lift the float to prove it.");
    signs(notes, canvas, plant);
    notes.head("Notes");
    notes.line("Electricity kills: lock out and try before opening anything. By licensed people under the local code.");
}

}  // namespace

std::vector<Planned> wiring(const SheetContext& context) {
    const auto area = frame_of(context.size).drawing;
    const auto& plant = context.result.chosen->built.plant;
    double times = 1;
    for (const double larger : {1.6, 1.4, 1.2, 1.0}) {
        const auto rows = static_cast<double>(plan_of(plant, area.width / larger).rows.size());
        times = larger;
        if (row_height * rows + 24 <= area.height / larger) break;
    }
    const Area drawn{area.x, area.y, area.width / times, area.height / times};
    const auto plan = plan_of(plant, drawn.width);
    const int most = std::max(1, static_cast<int>((drawn.height - 24) / row_height));
    return in_sheets("Wiring and link diagram", "wiring", static_cast<int>(plan.rows.size()), most,
                     [=](Canvas& canvas, const SheetContext& d, int from, int to) {
                         canvas.scale({area.x, area.y}, times);
                         Sheet(canvas, d, drawn, plan).rows(from, to);
                         canvas.unscale();
                         notes_of(canvas, d, frame_of(d.size).notes);
                     });
}

}  // namespace bw::draw
