// SPDX-License-Identifier: MIT
#pragma once
// Labels that keep off one another, and dimension lines.

#include <string>
#include <vector>

#include "draw/view.h"

namespace bw::draw {

/// Remembers what is written where, and finds room for the next label near its anchor.
class Labels {
public:
    Labels(Canvas& canvas, Area area) : canvas_(&canvas), area_(area) {}
    /// Keeps an area free of labels.
    void keep_off(Area taken) { taken_.push_back(taken); }
    /// Writes the text near the point, with a thin leader where it had to move away.
    void put(At anchor, const std::string& text, const TextStyle& style);

private:
    [[nodiscard]] bool free(const Area& a) const;
    Canvas* canvas_;
    Area area_;
    std::vector<Area> taken_;
};

/// A chain of dimensions along one line: `stations` in metres along the view's right (horizontal) or up (vertical)
/// direction; `line_at` is where the dimension line lies on the sheet, points, and `from` where its witness lines
/// begin.
struct Chain {
    std::vector<double> stations;
    double line_at = 0, from = 0;
    bool vertical = false;
};
/// Draws each gap in feet and inches (or mm); texts that do not fit between their ticks step away from the line in
/// turn. Gaps under 1/16 in are left out.
void draw_chain(const View& view, Chain chain, units::System system, Labels& labels);

}  // namespace bw::draw
