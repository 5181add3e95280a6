// SPDX-License-Identifier: MIT
#include "flow/network.h"

#include <utility>

namespace bw::flow {

int Network::add_fixed(std::string name, double potential) {
    nodes.push_back({std::move(name), true, potential, 0});
    return static_cast<int>(nodes.size()) - 1;
}

int Network::add_node(std::string name, double inflow) {
    nodes.push_back({std::move(name), false, 0, inflow});
    return static_cast<int>(nodes.size()) - 1;
}

int Network::add_link(std::string name, int from, int to, Law law) {
    Link link;
    link.name = std::move(name);
    link.from = from;
    link.to = to;
    link.law = std::move(law);
    return add_link(std::move(link));
}

int Network::add_link(Link link) {
    links.push_back(std::move(link));
    return static_cast<int>(links.size()) - 1;
}

}  // namespace bw::flow
