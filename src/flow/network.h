// SPDX-License-Identifier: MIT
#pragma once
// A network as it is given: nodes with a fixed potential or a fixed flow, and links between them.

#include <limits>
#include <string>
#include <vector>

#include "flow/law.h"

namespace bw::flow {

struct Node {
    std::string name;
    bool fixed = false;    ///< its potential is given
    double potential = 0;  ///< where fixed
    double inflow = 0;     ///< put in from outside where not fixed; drawn off when negative
};

struct Link {
    std::string name;
    int from = -1, to = -1;  ///< flow is positive this way
    Law law;
    double gain = 0;       ///< potential added from `from` to `to` whatever the flow: buoyancy, a fan's shut-off head
    bool one_way = false;  ///< no flow from `to` to `from`: check valve, pump
    bool open = true;
};

struct Network {
    std::vector<Node> nodes;
    std::vector<Link> links;
    double least_potential = -std::numeric_limits<double>::infinity();  ///< below it a potential means nothing

    /// Each returns the index of what was added.
    int add_fixed(std::string name, double potential);
    int add_node(std::string name, double inflow = 0);
    int add_link(std::string name, int from, int to, Law law);
    int add_link(Link link);
};

}  // namespace bw::flow
