// SPDX-License-Identifier: MIT
#include "proof/power/power_run.h"

namespace bw::proof {
namespace {

/// The port of an emergency stop that goes on from one it was entered by: its poles do not touch one another.
PortRef other_pole(const View& view, PortRef in) {
    const auto& stop = view.piece(in.piece);
    const std::string name = stop.ports[static_cast<std::size_t>(in.port)].name;
    if (name.rfind("in", 0) == 0) return {in.piece, view.plant.port(in.piece, "out" + name.substr(2))};
    if (name.rfind("out", 0) == 0) return {in.piece, view.plant.port(in.piece, "in" + name.substr(3))};
    return {};
}

/// The disconnect a heater's way passes last, looked for from the heater's end.
int last_disconnect(const View& view, const std::vector<Step>& walk, int at) {
    for (; at >= 0; at = walk[static_cast<std::size_t>(at)].before)
        if (view.piece(walk[static_cast<std::size_t>(at)].piece).part == Part::disconnect)
            return walk[static_cast<std::size_t>(at)].piece;
    return -1;
}

void follow(const View& view, PortRef from, bool stopped, Circuit& circuit, int depth) {
    const auto walk = view.outward(from, [&](int piece, int) {
        const auto part = view.piece(piece).part;
        return part == Part::cable || part == Part::disconnect;
    });
    for (std::size_t i = 0; i < walk.size(); ++i) {
        const auto& piece = view.piece(walk[i].piece);
        if (piece.part == Part::heater)
            circuit.fed.push_back({piece.heater, last_disconnect(view, walk, static_cast<int>(i)), stopped});
        if (piece.part == Part::condensate_pump) circuit.pump = walk[i].piece, circuit.pump_stopped = stopped;
        if (piece.part != Part::emergency_stop || depth > 4) continue;
        const auto on = other_pole(view, {walk[i].piece, walk[i].in});
        if (on.port >= 0 && on.piece >= 0) follow(view, on, true, circuit, depth + 1);
    }
}

}  // namespace

std::vector<Circuit> circuits_of(const View& view) {
    std::vector<Circuit> circuits;
    for (const int breaker : view.of(Part::panel_feed)) {
        Circuit circuit{.breaker = breaker, .fed = {}};
        const auto& ports = view.piece(breaker).ports;
        for (int port = 0; port < static_cast<int>(ports.size()); ++port)
            if (ports[static_cast<std::size_t>(port)].service == Service::power)
                follow(view, {breaker, port}, false, circuit, 0);
        std::sort(circuit.fed.begin(), circuit.fed.end(),
                  [](const Fed& a, const Fed& b) { return a.heater < b.heater; });
        circuits.push_back(std::move(circuit));
    }
    return circuits;
}

}  // namespace bw::proof
