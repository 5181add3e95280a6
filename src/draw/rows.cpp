// SPDX-License-Identifier: MIT
// Where the heaters of a diagram stand.
#include <algorithm>

#include "draw/course.h"

namespace bw::draw {
namespace {

constexpr double least_pitch = 46, most_pitch = 150;

}  // namespace

double lead_of(const Line& line) {
    double lead = 10, labelled = 10;
    for (const auto& node : line.nodes) {
        if (node.kind == Node::Kind::column || node.kind == Node::Kind::end) break;
        lead += step_of(node.kind);
        if (node.kind == Node::Kind::split) lead = std::max(lead, labelled + label_room), labelled = lead;
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
            if (node.kind != Node::Kind::column || rows.heater.contains(node.heater)) continue;
            if (x > last) x = first, ++rows.count;
            rows.heater[node.heater] = {rows.count - 1, x};
            x += rows.pitch;
        }
    }
    return rows;
}

}  // namespace bw::draw
