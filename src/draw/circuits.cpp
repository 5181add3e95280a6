// SPDX-License-Identifier: MIT
#include "draw/circuits.h"

namespace bw::draw {
namespace {

using plant::Part;
using plant::PortRef;
using text::Service;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class Follower {
public:
    Follower(const plant::Plant& plant, Circuit& circuit) : plant_(plant), circuit_(circuit) {}

    /// Out of a port, through cables, to whatever stands on the circuit.
    void follow(PortRef out) {
        const auto in = plant_.mate(out);
        if (in.piece < 0 || plant_.at(in).service != Service::power) return;
        const auto& piece = plant_.pieces[at(in.piece)];
        switch (piece.part) {
            case Part::panel_feed: circuit_.breaker = in.piece; return through(in);
            case Part::emergency_stop: circuit_.stop = in.piece; return through_stop(in);
            case Part::cable:
                if (piece.heater == 0) length_ += piece.cut, size_ = piece.size;
                return through(in);
            case Part::disconnect: {
                circuit_.outlets.push_back({piece.heater, in.piece, length_, size_});
                length_ = 0;
                if (const int on = plant_.port(in.piece, "on"); on >= 0) follow({in.piece, on});
                return;
            }
            case Part::heater: circuit_.outlets.push_back({piece.heater, -1, length_, size_}); return;
            default: return;
        }
    }

private:
    void through(PortRef in) {
        const auto& ports = plant_.pieces[at(in.piece)].ports;
        for (int k = 0; k < static_cast<int>(ports.size()); ++k)
            if (k != in.port && ports[at(k)].service == Service::power) return follow({in.piece, k});
    }
    /// "in-2" goes on at "out-2".
    void through_stop(PortRef in) {
        const auto& name = plant_.at(in).name;
        const int out = name.starts_with("in-") ? plant_.port(in.piece, "out-" + name.substr(3)) : -1;
        if (out >= 0) follow({in.piece, out});
    }

    const plant::Plant& plant_;
    Circuit& circuit_;
    double length_ = 0;
    plant::Nominal size_;
};

}  // namespace

std::vector<Circuit> circuits_of(const plant::Plant& plant) {
    std::vector<Circuit> circuits;
    const int panel = plant.find("site.panel");
    if (panel < 0) return circuits;
    for (int k = 0; k < static_cast<int>(plant.pieces[at(panel)].ports.size()); ++k) {
        Circuit circuit;
        Follower(plant, circuit).follow({panel, k});
        if (circuit.breaker >= 0 && !circuit.outlets.empty()) circuits.push_back(std::move(circuit));
    }
    return circuits;
}

std::vector<Link> links_of(const plant::Plant& plant) {
    std::vector<Link> links;
    for (std::size_t i = 0; i < plant.pieces.size(); ++i) {
        if (plant.pieces[i].part != Part::link_cable) continue;
        Link link{.cable = static_cast<int>(i)};
        for (int k = 0; k < static_cast<int>(plant.pieces[i].ports.size()); ++k) {
            const auto far = plant.mate({link.cable, k});
            if (far.piece < 0) continue;
            const auto& heater = plant.pieces[at(far.piece)];
            if (heater.part == Part::heater) (plant.at(far).name == "link-out" ? link.from : link.to) = heater.heater;
        }
        if (link.from > 0 && link.to > 0) links.push_back(link);
    }
    return links;
}

}  // namespace bw::draw
