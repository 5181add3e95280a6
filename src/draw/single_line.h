// SPDX-License-Identifier: MIT
#pragma once
// A service read off the pieces as lines of a diagram: what comes after what, with the runs between.

#include <string>
#include <vector>

#include "plant/plant.h"

namespace bw::draw {

/// Pipe from one labelled node to the next: its sizes in order, developed length, and what is fed through it.
struct Run {
    std::vector<plant::Nominal> sizes;
    double length = 0;  ///< metres of centre line
    int heaters = 0;
    int piece = -1;  ///< a pipe of it, to ask what flows there
};

/// Something on a line, in the order of the way from its root.
struct Node {
    enum class Kind {
        start,   ///< point of connection, or where another line splits
        device,  ///< valve, union, reducer …: `piece`
        stub,    ///< a side outlet that feeds no heater: `devices` in order; a pocket that is capped has the cap alone
        column,  ///< one heater's branch: `devices` from the line to the heater
        split,   ///< line `line` leaves here
        joined,  ///< a tee to another service: a return, a drain
        end
    };
    Kind kind{};
    int piece = -1;
    std::vector<int> devices;
    int heater = 0;
    int line = -1;
    bool widens = false;  ///< a reducer whose way goes from its small end
    Run run;              ///< that leads here; of labelled nodes (column, split, end) alone
    Run branch;           ///< of a column: from the line to the heater
};

struct Line {
    text::Service service{};
    int root = -1;   ///< the connection's piece; -1 where the line leaves another
    int first = -1;  ///< the piece it begins with
    std::vector<Node> nodes;
    [[nodiscard]] int columns() const;
};

/// Every line of a service, those that split off after the one they leave. A service without a point of connection, or
/// that is no tree from it, has none.
[[nodiscard]] std::vector<Line> lines_of(const plant::Plant& plant, text::Service service);

/// Whether a diagram shows such a part as a sign of its own: pipe, elbows and couplings are the line itself.
[[nodiscard]] bool has_sign(plant::Part part);

}  // namespace bw::draw
