// SPDX-License-Identifier: MIT
#include "draw/chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>

#include "draw/course.h"
#include "draw/palette.h"
#include "draw/signs.h"

namespace bw::draw {
namespace {

using Kind = Node::Kind;
using units::amount;
using units::metre;

std::string sizes_text(const Run& run) {
    std::string text;
    for (const auto& size : run.sizes) text += (text.empty() ? "" : " to ") + units::print(size);
    return text.empty() ? text : text + " in";
}

}  // namespace

void Chart::dot(At at, Colour colour) { canvas_.circle(at, 1.6, {.width = 0.2, .colour = colour}, colour); }

void Chart::put_sign(Spot spot, int index, Colour colour, bool widens) {
    const auto& p = piece(index);  // lines are told from their root; hot water and exhaust flow to it
    const bool to_root = p.service == text::Service::hot || p.service == text::Service::exhaust;
    if (p.part == text::Part::reducer ? widens : to_root) spot.dx = -spot.dx, spot.dy = -spot.dy;
    draw_sign(canvas_, spot, piece(index).part, colour);
}

void Chart::label_run(const Run& run, double from, double to, bool leading, const Band& band, Colour colour,
                      const RunText& carried) {
    if (run.length < 0.0005) return;
    const bool below =
        (band.box < band.line) != (leading && !band.upright);  // where the stubs before the first branch are not
    std::vector<std::string> lines;
    for (auto&& text : {sizes_text(run), units::print(amount(run.length * metre), context_.system), carried(run)})
        if (!text.empty()) lines.push_back(text);
    const double height = 7.4, off = leading && !band.upright ? 17 : 8;
    const double beside = to > from ? -30 : 30;  // of what stands upright before the first branch
    const double middle = leading && band.upright ? from + beside : (from + to) / 2 - std::min(band.shift, 0.0);
    double y = below ? band.line + off : band.line - off - height * static_cast<double>(lines.size());
    for (const auto& text : lines) {
        canvas_.text({middle, y}, text, {.size = 6, .colour = colour, .anchor = Anchor::centre, .backed = true});
        y += height;
    }
}

void Chart::draw_stub(const Node& node, At at, const Band& band, Colour colour) {
    const double away = band.box < band.line ? 1 : -1;  // on the side where no branch is
    At end{at.x, at.y};
    for (const int device : node.devices) {
        const At next{end.x, end.y + away * (end.y == at.y ? 26 : 20)};
        canvas_.line(end, next, {.width = 1.1, .colour = colour});
        put_sign({next, 0, away}, device, colour);
        end = next;
    }
    dot(at, colour);
}

void Chart::draw_branch(const Node& node, double slot, const Band& band, std::size_t order, Colour colour) {
    const double x = area_.x + rows_.heater.at(node.heater).x + band.shift, from = area_.x + slot;
    const double way = band.box < band.line ? -1 : 1;
    const double jog = std::abs(x - from) > 0.5 ? 6.0 + 4.0 * static_cast<double>(order % 4) : 0.0;
    const Pen pen{.width = 1.1, .colour = colour};
    canvas_.polyline({{from, band.line}, {from, band.line + way * jog}, {x, band.line + way * jog}, {x, band.box}},
                     pen);
    dot({from, band.line}, colour);
    const double room = std::abs(band.box - band.line) - jog;
    double along = jog;
    const double step = room / static_cast<double>(node.devices.size() + 1);
    for (const int device : node.devices) {
        along += step;
        const At at{x, band.line + way * along};
        const auto part = piece(device).part;
        if (part == text::Part::cap)
            draw_pocket(canvas_, at, colour);
        else if (part == text::Part::relief_valve) {
            canvas_.line(at, {at.x + 10, at.y}, pen);
            put_sign({{at.x + 12, at.y}, 1, 0}, device, ink(text::Service::relief));
        } else
            put_sign({at, 0, way}, device, colour);
    }
    if (node.branch.sizes.empty()) return;
    const auto text =
        sizes_text(node.branch) + ", " + units::print(amount(node.branch.length * metre), context_.system);
    const auto size = canvas_.measure(text, {.size = 5.6});
    // branches of two services stand close: one's text by the boxes, the other's by its line
    const double reach = size.width / 2 + 4, start = band.line + way * (jog + 6);
    const double middle = band.shift > 0   ? band.box - way * reach
                          : band.shift < 0 ? start + way * reach
                                           : (start + band.box) / 2;
    canvas_.text({band.shift > 0 ? x + 4 : x - size.height - 11, middle}, text,
                 {.size = 5.6, .colour = colour, .anchor = Anchor::centre, .angle = -std::numbers::pi / 2});
}

void Chart::draw_split(const Node& node, At at, const Band& band, Colour colour) {
    const At end{at.x, at.y + (band.box < band.line ? 40 : -40)};
    canvas_.line(at, end, {.width = 1.4, .colour = colour});
    dot(at, colour);
    draw_flag(canvas_, end, flag_name(band, static_cast<std::size_t>(node.line), 0), colour);
}

/// A drain's tee or cap: what it collects goes on elsewhere.
void Chart::draw_drain(int index, At at) {
    const auto drains = [](const plant::Port& port) { return port.service == text::Service::condensate; };
    if (!std::ranges::any_of(piece(index).ports, drains)) return;
    const auto colour = ink(text::Service::condensate);
    canvas_.line(at, {at.x, at.y + 16}, {.width = 1.0, .colour = colour});
    draw_flag(canvas_, {at.x, at.y + 20}, "D", colour);
}

void Chart::draw_stop(const Line& line, std::size_t index, const Stop& stop, double turn, const Band& band,
                      std::map<int, At>& joined) {
    const auto colour = ink(line.service);
    const auto& node = *stop.node;
    const Spot spot{stop.at, stop.upright ? 0 : turn, stop.upright ? 1.0 : 0};
    switch (node.kind) {
        case Kind::start:
            if (line.root >= 0)
                draw_connection(canvas_, stop.at, std::string(1, band.letter), colour);
            else
                draw_flag(canvas_, stop.at, flag_name(band, index, 0), colour);
            break;
        case Kind::device: put_sign(spot, node.piece, colour, node.widens); break;
        case Kind::stub: draw_stub(node, stop.at, band, colour); break;
        case Kind::column: draw_branch(node, stop.at.x - area_.x, band, stop.order, colour); break;
        case Kind::split: draw_split(node, stop.at, band, colour); break;
        case Kind::joined:
            dot(stop.at, colour);
            joined[node.piece] = stop.at;
            draw_drain(node.piece, stop.at);
            break;
        case Kind::end:
            draw_drain(node.piece, stop.at);
            if (has_sign(piece(node.piece).part)) put_sign(spot, node.piece, colour);
            break;
    }
}

void Chart::draw_line(const Line& line, std::size_t index, int row, const Band& band, const RunText& carried,
                      std::map<int, At>& joined) {
    const auto drawn = sketch(line, index, row, band, rows_, area_);
    const auto colour = ink(line.service);
    for (const auto& path : drawn.paths) canvas_.polyline(path, {.width = 1.4, .colour = colour});
    for (const auto& [run, from, to, leading] : drawn.spans) label_run(*run, from, to, leading, band, colour, carried);
    for (const auto& stop : drawn.stops) draw_stop(line, index, stop, drawn.backward ? -1 : 1, band, joined);
    for (const auto& [at, name] : drawn.flags) draw_flag(canvas_, at, name, colour);
}

std::map<int, At> Chart::draw_lines(const std::vector<Line>& lines, int row, const Band& band, const RunText& carried) {
    std::map<int, At> joined;
    for (std::size_t i = 0; i < lines.size(); ++i) draw_line(lines[i], i, row, band, carried, joined);
    return joined;
}

void Chart::draw_heaters(int row, double top, double height, const HeaterTexts& texts) {
    const double half = std::min(rows_.pitch / 2 - 5, 22.0);
    for (const auto& [number, stall] : rows_.heater) {
        if (stall.row != row) continue;
        const double x = area_.x + stall.x;
        canvas_.rectangle({x - half, top}, 2 * half, height, {.width = 1.0}, {0.97, 0.97, 0.97});
        const auto inside = texts.inside ? texts.inside(number) : std::string();
        canvas_.text({x, top + height / 2 - (inside.empty() ? 7.5 : 12)}, std::to_string(number),
                     {.size = 12, .bold = true, .anchor = Anchor::centre});
        canvas_.text({x, top + height - 11}, inside, {.size = 6, .anchor = Anchor::centre});
        if (texts.above) canvas_.text({x, top - 9}, texts.above(number), {.size = 6, .anchor = Anchor::centre});
    }
}

At Chart::draw_row(const Line& line, At from, char letter) {
    const auto colour = ink(line.service);
    double x = from.x;
    for (const auto& node : line.nodes) x += node.kind == Kind::device ? device_step : 0;
    const At to{x + device_step, from.y};
    canvas_.line(from, to, {.width = 1.4, .colour = colour});
    draw_connection(canvas_, from, std::string(1, letter), colour);
    x = from.x;
    for (const auto& node : line.nodes)
        if (node.kind == Kind::device) put_sign({{x += device_step, from.y}}, node.piece, colour, node.widens);
    return to;
}

}  // namespace bw::draw
