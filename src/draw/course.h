// SPDX-License-Identifier: MIT
#pragma once
// How a line of a diagram runs through the rows: where its nodes stand, and what of it lies in one row.

#include "draw/chart.h"

namespace bw::draw {

/// Points a node takes on its line before the first column; label room between splits; beyond the last column.
inline constexpr double device_step = 23, split_step = 58, label_room = 78, end_step = 16;
[[nodiscard]] constexpr double step_of(Node::Kind kind) {
    return kind == Node::Kind::split ? split_step : kind == Node::Kind::start ? 0 : device_step;
}

/// What a flag is called: the service's letter, the line's number, the wrap's letter.
[[nodiscard]] std::string flag_name(const Band& band, std::size_t line, int wraps);

/// Something on a line, on the page.
struct Stop {
    const Node* node = nullptr;
    At at;
    bool upright = false;
    std::size_t order = 0;  ///< among the line's columns
};

/// A row's share of a line on the page.
struct Sketch {
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

/// `area` is the diagram's, before it is enlarged.
[[nodiscard]] Sketch sketch(const Line& line, std::size_t index, int row, const Band& band, const Rows& rows,
                            const Area& area);

}  // namespace bw::draw
