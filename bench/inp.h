// SPDX-License-Identifier: MIT
#pragma once
// Reads the part of the open EPANET input format that the benchmark's networks use: junctions, reservoirs and pipes,
// Darcy-Weisbach, litres a second, metres, bore and roughness in millimetres.

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include "flow/network.h"

namespace bench {

/// Darcy-Weisbach by head, in the same form and with the same constants as the engine it is timed against.
inline bw::flow::Pipe by_head(double length, double bore, double roughness, double local) {
    constexpr double pi = 3.14159265358979323846, gravity = 32.2 * 0.3048, viscosity = 1.1e-5 * 0.3048 * 0.3048;
    const double one = 8 / (pi * pi * gravity * std::pow(bore, 4));
    return {one * length / bore, one * local, 4 / (pi * bore * viscosity), roughness / bore,
            bw::flow::Friction::swamee_jain};
}

inline bw::flow::Network read_inp(std::istream& in) {
    bw::flow::Network network;
    std::map<std::string, int> node;
    std::string section;
    for (std::string line; std::getline(in, line);) {
        std::istringstream words(line);
        std::string id, from, to;
        if (!(words >> id) || id[0] == ';') continue;
        double a = 0, b = 0, c = 0, d = 0;
        if (id[0] == '[')
            section = id;
        else if (section == "[JUNCTIONS]" && words >> a >> b)
            node[id] = network.add_node(id, -b / 1000);
        else if (section == "[RESERVOIRS]" && words >> a)
            node[id] = network.add_fixed(id, a);
        else if (section == "[PIPES]" && words >> from >> to >> a >> b >> c >> d)
            network.add_link(id, node.at(from), node.at(to), by_head(a, b / 1000, c / 1000, d));
    }
    return network;
}

inline bw::flow::Network read_inp(const std::string& path) {
    std::ifstream in(path);
    return read_inp(in);
}

}  // namespace bench
