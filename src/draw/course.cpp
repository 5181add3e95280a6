// SPDX-License-Identifier: MIT
#include "draw/course.h"

#include <algorithm>

namespace bw::draw {
namespace {

using Kind = Node::Kind;

/// Where the nodes of a line stand, and where it comes into a row and leaves it.
struct Course {
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

}  // namespace

std::string flag_name(const Band& band, std::size_t line, int wraps) {
    std::string name(1, band.letter);
    if (line > 0) name += std::to_string(line);
    if (wraps > 0) name += static_cast<char>('a' + wraps - 1);
    return name;
}

Sketch sketch(const Line& line, std::size_t index, int row, const Band& band, const Rows& rows, const Area& area) {
    const Course course(line, rows, band);
    const auto& places = course.places;
    const double turn = course.backward ? -1 : 1;
    Sketch out;
    out.backward = course.backward;
    std::size_t leads = 0, order = 0;
    while (band.upright && leads < places.size() && places[leads].node->kind != Node::Kind::column) ++leads;
    int wraps = 0;
    double from = places.empty() ? 0 : area.x + places.front().x;
    for (std::size_t k = 0; k < places.size(); ++k) {
        const auto& place = places[k];
        const auto kind = place.node->kind;
        const bool wrapped = k > 0 && places[k - 1].row != place.row;
        const double x = area.x + place.x;
        if (wrapped) ++wraps;
        if (wrapped && places[k - 1].row == row) {
            out.paths.back().push_back({area.x + places[k - 1].x + turn * rows.pitch * 0.45, band.line});
            out.flags.emplace_back(out.paths.back().back(), flag_name(band, index, wraps));
        }
        if (place.row == row) {
            if (out.paths.empty() || wrapped) out.paths.emplace_back();
            if (wrapped) {
                from = x - turn * rows.pitch * 0.8;
                out.paths.back().push_back({from, band.line});
                out.flags.emplace_back(out.paths.back().back(), flag_name(band, index, wraps));
            }
            const At at{x, k < leads ? band.line - 26 - device_step * static_cast<double>(leads - 1 - k) : band.line};
            if (k == leads && k > 0) out.paths.back().push_back({area.x + places[k - 1].x, band.line});
            out.paths.back().push_back(at);
            out.stops.push_back({place.node, at, k < leads, order});
            if (kind == Node::Kind::column || kind == Node::Kind::split) {
                out.spans.push_back({&place.node->run, from, x, order == 0 && place.node->run.piece >= 0});
                from = x;
            }
        }
        if (kind == Node::Kind::column) ++order;
    }
    return out;
}

}  // namespace bw::draw
