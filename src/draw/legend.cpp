// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "draw/chart.h"
#include "draw/palette.h"
#include "draw/signs.h"

namespace bw::draw {

void write_legend(NotesColumn& notes, Canvas& canvas, const SheetContext& context,
                  const std::vector<const std::vector<Line>*>& lines) {
    const auto& plant = context.result.chosen->built.plant;
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
                if (node.kind == Node::Kind::device || node.kind == Node::Kind::end)
                    count(node.piece, ink(line.service), false);
                for (const int d : node.devices) count(d, ink(line.service), node.kind == Node::Kind::column);
            }
    notes.head("Signs, and how many there are");
    for (const auto& [what, found] : shown) {
        const auto part = what.first;
        const auto [n, colour] = found;
        const bool pocket = what.second;
        notes.sign(
            colour,
            [&canvas, part, pocket, colour = colour](At at) {
                if (pocket) return draw_pocket(canvas, {at.x - 4, at.y}, colour);
                draw_sign(canvas, {at}, part, colour);
            },
            fmt::format("{} ({})", pocket ? "sediment trap" : sign_name(part), n));
    }
}

}  // namespace bw::draw
