// SPDX-License-Identifier: MIT
#include "draw/chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <numbers>
#include <set>

#include "draw/palette.h"
#include "draw/signs.h"

namespace bw::draw {
namespace {

using Kind = Node::Kind;
using units::amount;
using units::metre;

constexpr double device_step = 23, split_step = 58, least_pitch = 46, most_pitch = 150, label_room = 78, end_step = 16;

double step_of(Kind kind) { return kind == Kind::split ? split_step : kind == Kind::start ? 0 : device_step; }

std::string sizes_text(const Run& run) {
    std::string text;
    for (const auto& size : run.sizes) text += (text.empty() ? "" : " to ") + units::print(size);
    return text.empty() ? text : text + " in";
}

std::string flag_name(const Band& band, std::size_t line, int wraps) {
    std::string name(1, band.letter);
    if (line > 0) name += std::to_string(line);
    if (wraps > 0) name += static_cast<char>('a' + wraps - 1);
    return name;
}

}  // namespace

double lead_of(const Line& line) {
    double lead = 10, labelled = 10;
    for (const auto& node : line.nodes) {
        if (node.kind == Kind::column || node.kind == Kind::end) break;
        lead += step_of(node.kind);
        if (node.kind == Kind::split) lead = std::max(lead, labelled + label_room), labelled = lead;
    }
    return std::max(lead + device_step, labelled + label_room);
}

double lead_of(const std::vector<Line>& lines) {
    double lead = 0;
    for (const auto& line : lines) lead = std::max(lead, lead_of(line));
    return lead;
}

Fit fitted(const std::vector<Line>& lines, Area area, double lead, double row_height, double trail) {
    const auto at = [&](double times) {
        Fit fit{{}, {area.x, area.y, area.width / times, area.height / times}, times, 1, row_height};
        fit.rows = rows_of(lines, fit.area.width, lead, trail);
        fit.rows_a_sheet = std::max(1, static_cast<int>(fit.area.height / row_height));
        return fit;
    };
    const auto sheets = [](const Fit& fit) { return (fit.rows.count + fit.rows_a_sheet - 1) / fit.rows_a_sheet; };
    const auto plain = at(1);
    for (const double times : {1.6, 1.5, 1.4, 1.3, 1.2, 1.1})
        if (auto larger = at(times); row_height <= larger.area.height && sheets(larger) <= sheets(plain) &&
                                     larger.rows.count <= plain.rows.count)
            return larger;
    return plain;
}

Rows rows_of(const std::vector<Line>& lines, double width, double lead, double trail) {
    int most = 1;
    for (const auto& line : lines) most = std::max(most, line.columns());
    const bool single = most == 1;
    if (single) most = static_cast<int>(lines.size());
    Rows rows;
    rows.pitch = std::clamp((width - lead - trail) / most, least_pitch, most_pitch);
    const double first = lead + rows.pitch / 3, last = width - trail;
    double x = 1e9;
    for (const auto& line : lines) {
        if (!single || x > last) x = first, ++rows.count;
        for (const auto& node : line.nodes) {
            if (node.kind != Kind::column || rows.heater.contains(node.heater)) continue;
            if (x > last) x = first, ++rows.count;
            rows.heater[node.heater] = {rows.count - 1, x};
            x += rows.pitch;
        }
    }
    return rows;
}

/// Where the nodes of a line stand, and where it comes into a row and leaves it.
struct Chart::Course {
    struct Place {
        const Node* node = nullptr;
        int row = 0;
        double x = 0;
    };
    std::vector<Place> places;
    std::map<int, std::vector<const Node*>> columns;  ///< by row
    bool backward = false;                            ///< goes from right to left

    Course(const Line& line, const Rows& rows, const Band& band) {
        std::vector<const Node*> all;
        for (const auto& node : line.nodes)
            if (node.kind == Kind::column && rows.heater.contains(node.heater)) {
                all.push_back(&node);
                columns[rows.heater.at(node.heater).row].push_back(&node);
            }
        if (all.empty()) return;
        const auto& first = rows.heater.at(all.front()->heater);
        const auto& last = rows.heater.at(all.back()->heater);
        backward = band.upright && (last.row < first.row || (last.row == first.row && last.x < first.x));
        place(line, rows, band);
    }

    /// Branch positions of a row: its heaters' places, taken in the line's order.
    [[nodiscard]] std::vector<double> slots(const Rows& rows, const Band& band, int row) const {
        std::vector<double> found;
        for (const auto* node : columns.at(row)) found.push_back(rows.heater.at(node->heater).x + band.shift);
        std::ranges::sort(found);
        if (backward) std::ranges::reverse(found);
        return found;
    }

    void place(const Line& line, const Rows& rows, const Band& band) {
        std::vector<const Node*> waiting;
        std::map<int, std::size_t> used;
        double x = 0;
        int row = -1;
        for (const auto& node : line.nodes) {
            if (node.kind != Kind::column) {
                waiting.push_back(&node);
                continue;
            }
            if (!rows.heater.contains(node.heater)) continue;
            const int to = rows.heater.at(node.heater).row;
            const double slot = slots(rows, band, to)[used[to]++];
            if (row < 0) {
                lead(waiting, to, slot, rows, band);
            } else {
                const double from = to == row ? x : slot - rows.pitch * (backward ? -0.8 : 0.8);
                spread(waiting, to, from, slot);
            }
            places.push_back({&node, to, slot});
            waiting.clear();
            x = slot, row = to;
        }
        // a branch of the other service may stand next to the last
        const double last = (backward ? -1 : 1) * (end_step - 2.8 * std::min(band.shift, 0.0));
        const auto n = static_cast<double>(waiting.size());
        spread(waiting, row, x, x + (last + (backward ? -1 : 1) * device_step * (n - 1)) * (n + 1) / std::max(n, 1.0));
    }

    void spread(const std::vector<const Node*>& nodes, int row, double from, double to) {
        for (std::size_t i = 0; i < nodes.size(); ++i)
            places.push_back({nodes[i], row,
                              from + (to - from) * static_cast<double>(i + 1) / static_cast<double>(nodes.size() + 1)});
    }

    /// What comes before the first column, from the left.
    void lead(const std::vector<const Node*>& nodes, int row, double slot, const Rows& rows, const Band& band) {
        if (band.upright) {
            for (const auto* node : nodes) places.push_back({node, row, slot - (backward ? -1 : 1) * rows.pitch / 2});
            return;
        }
        double x = 10, labelled = 10;
        for (const auto* node : nodes) {
            x += step_of(node->kind);
            if (node->kind == Kind::split) x = std::max(x, labelled + label_room), labelled = x;
            if (node->kind == Kind::joined) x = std::max(x, band.join_at);
            places.push_back({node, row, x});
        }
    }
};

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
    for (auto&& text : {sizes_text(run), units::print(amount(run.length * metre), desk_.system), carried(run)})
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
    const auto text = sizes_text(node.branch) + ", " + units::print(amount(node.branch.length * metre), desk_.system);
    const auto size = canvas_.measure(text, {.size = 5.6});
    canvas_.text({band.shift > 0 ? x + 4 : x - size.height - 11, (band.line + way * jog + band.box) / 2}, text,
                 {.size = 5.6, .colour = colour, .anchor = Anchor::centre, .angle = -std::numbers::pi / 2});
}

/// A row's share of a line on the page.
struct Chart::Sketch {
    struct Span {
        const Run* run = nullptr;
        double from = 0, to = 0;
        bool leading = false;  ///< before the first column
    };
    std::vector<std::vector<At>> paths;
    std::vector<Stop> stops;
    std::vector<Span> spans;
    std::vector<std::pair<At, std::string>> flags;
    bool backward = false;
};

Chart::Sketch Chart::sketch(const Line& line, std::size_t index, int row, const Band& band) const {
    const Course course(line, rows_, band);
    const auto& places = course.places;
    const double turn = course.backward ? -1 : 1;
    Sketch out;
    out.backward = course.backward;
    std::size_t leads = 0, order = 0;
    while (band.upright && leads < places.size() && places[leads].node->kind != Kind::column) ++leads;
    int wraps = 0;
    double from = places.empty() ? 0 : area_.x + places.front().x;
    for (std::size_t k = 0; k < places.size(); ++k) {
        const auto& place = places[k];
        const auto kind = place.node->kind;
        const bool wrapped = k > 0 && places[k - 1].row != place.row;
        const double x = area_.x + place.x;
        if (wrapped) ++wraps;
        if (wrapped && places[k - 1].row == row) {
            out.paths.back().push_back({area_.x + places[k - 1].x + turn * rows_.pitch * 0.45, band.line});
            out.flags.emplace_back(out.paths.back().back(), flag_name(band, index, wraps));
        }
        if (place.row == row) {
            if (out.paths.empty() || wrapped) out.paths.emplace_back();
            if (wrapped) {
                from = x - turn * rows_.pitch * 0.8;
                out.paths.back().push_back({from, band.line});
                out.flags.emplace_back(out.paths.back().back(), flag_name(band, index, wraps));
            }
            const At at{x, k < leads ? band.line - 26 - device_step * static_cast<double>(leads - 1 - k) : band.line};
            if (k == leads && k > 0) out.paths.back().push_back({area_.x + places[k - 1].x, band.line});
            out.paths.back().push_back(at);
            out.stops.push_back({place.node, at, k < leads, order});
            if (kind == Kind::column || kind == Kind::split) {
                out.spans.push_back({&place.node->run, from, x, order == 0 && place.node->run.piece >= 0});
                from = x;
            }
        }
        if (kind == Kind::column) ++order;
    }
    return out;
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
    const auto drawn = sketch(line, index, row, band);
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

void write_legend(NotesColumn& notes, Canvas& canvas, const Desk& desk,
                  const std::vector<const std::vector<Line>*>& lines) {
    const auto& plant = desk.result.chosen->built.plant;
    std::map<std::pair<text::Part, bool>, std::pair<int, Colour>> shown;  // a capped pocket apart from a capped end
    const auto count = [&](int index, Colour colour, bool pocket) {
        const auto part = plant.pieces[static_cast<std::size_t>(index)].part;
        if (!has_sign(part) || part == text::Part::heater) return;
        auto& [n, c] = shown[{part, pocket && part == text::Part::cap}];
        ++n, c = colour;
    };
    for (const auto* list : lines)
        for (const auto& line : *list)
            for (const auto& node : line.nodes) {
                if (node.kind == Kind::device || node.kind == Kind::end) count(node.piece, ink(line.service), false);
                for (const int d : node.devices) count(d, ink(line.service), node.kind == Kind::column);
            }
    notes.head("Signs, and how many there are");
    for (const auto& [what, found] : shown) {
        const auto part = what.first;
        const auto [n, colour] = found;
        const bool pocket = what.second;
        notes.sign(
            colour,
            [&, colour = colour](At at) {
                if (pocket) return draw_pocket(canvas, {at.x - 4, at.y}, colour);
                draw_sign(canvas, {at}, part, colour);
            },
            fmt::format("{} ({})", pocket ? "sediment trap" : sign_name(part), n));
    }
}

}  // namespace bw::draw
