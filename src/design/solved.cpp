// SPDX-License-Identifier: MIT
#include "design/solved.h"

#include "network/service_tree.h"

namespace bw::design {
namespace {

using text::Part;
using text::Service;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class Reader {
public:
    explicit Reader(const Proved& chosen) : plant_(chosen.built.plant), hydraulics_(chosen.hydraulics) {
        const auto n = at(chosen.capacity.installed);
        solved.piece.resize(plant_.pieces.size());
        solved.heater_water.resize(n), solved.heater_gas.resize(n), solved.heater_gas_pressure.resize(n);
        solved.heater_cold.resize(n), solved.heater_hot.resize(n);
        for (const auto& piece : plant_.pieces) solved.port.emplace_back(piece.ports.size(), Flow::unknown);
    }

    void water() {
        const auto& water = hydraulics_.water;
        if (!water || !water->flows.design) return;
        const auto& network = water->network;
        const auto& split = *water->flows.design;
        for (std::size_t l = 0; l < network.pieces.size(); ++l)
            tell(network.pieces[l], network.network.links[l], split.pressure, split.through[l]);
        for (std::size_t n = 0; n < split.heater.size() && n < solved.heater_water.size(); ++n) {
            if (network.heater[n] < 0) continue;
            const auto& link = network.network.links[at(network.heater[n])];
            solved.heater_water[n] = split.heater[n];
            solved.heater_cold[n] = split.pressure[at(link.from)];
            solved.heater_hot[n] = split.pressure[at(link.to)];
        }
    }

    void gas() {
        const auto& gas = hydraulics_.gas;
        if (!gas || !gas->flows.all) return;
        const auto& network = gas->network;
        const auto& all = *gas->flows.all;
        for (std::size_t l = 0; l < network.pieces.size(); ++l)
            tell(network.pieces[l], network.network.links[l], all.pressure, all.through[l]);
        for (std::size_t n = 0; n < all.heater.size() && n < solved.heater_gas.size(); ++n)
            if (network.heater[n] >= 0)
                solved.heater_gas[n] = gas->feed.each, solved.heater_gas_pressure[n] = all.heater[n];
    }

    void vents() {
        if (!hydraulics_.vents) return;
        for (const auto* service : {&hydraulics_.vents->exhaust, &hydraulics_.vents->intake}) {
            if (!*service) continue;
            for (const auto& vent : **service) passage(vent);
        }
    }

    /// Ports by the trees of the services: into a piece on the way from its root, or the other way about where what
    /// flows ends at the root.
    void directions() {
        for (std::size_t i = 0; i < plant_.pieces.size(); ++i) {
            const auto& root = plant_.pieces[i];
            if (root.part != Part::connection || root.ports.empty()) continue;
            const auto service = root.ports.front().service;
            const bool outward = service == Service::hot || service == Service::exhaust ||
                                 service == Service::condensate || service == Service::relief;
            if (service == Service::structure || service == Service::link) continue;
            const auto tree = network::trace_service(plant_, service, static_cast<int>(i));
            if (!tree) continue;
            for (const auto& passage : tree->traversals) {
                auto& ports = solved.port[at(passage.piece)];
                if (passage.in >= 0) ports[at(passage.in)] = outward ? Flow::out : Flow::in;
                if (passage.out >= 0) ports[at(passage.out)] = outward ? Flow::in : Flow::out;
            }
        }
    }

    /// What is no tree from one point: current from each circuit's place in the panel, discharge from each relief
    /// valve.
    void ways_out() {
        for (std::size_t i = 0; i < plant_.pieces.size(); ++i) {
            const auto& piece = plant_.pieces[i];
            const bool panel = piece.part == Part::connection;
            if (!panel && piece.part != Part::relief_valve) continue;
            for (std::size_t k = 0; k < piece.ports.size(); ++k)
                if (piece.ports[k].service == (panel ? Service::power : Service::relief))
                    follow({static_cast<int>(i), static_cast<int>(k)});
        }
    }

    Solved solved;

private:
    /// Out of a port and on through everything of its service. An emergency stop has several circuits: what is named as
    /// an inlet is none's way out.
    void follow(plant::PortRef from) {
        std::vector<plant::PortRef> todo{from};
        while (!todo.empty()) {
            const auto out = todo.back();
            todo.pop_back();
            const auto in = plant_.mate(out);
            auto& known = solved.port[at(out.piece)][at(out.port)];
            if (in.piece < 0 || known != Flow::unknown) continue;
            known = Flow::out;
            solved.port[at(in.piece)][at(in.port)] = Flow::in;
            const auto& ports = plant_.pieces[at(in.piece)].ports;
            for (int k = 0; k < static_cast<int>(ports.size()); ++k)
                if (k != in.port && ports[at(k)].service == plant_.at(in).service &&
                    !ports[at(k)].name.starts_with("in"))
                    todo.push_back({in.piece, k});
        }
    }

    void passage(const network::VentSolution& vent) {
        if (!vent.flows || !vent.flows->all) return;
        const auto& all = *vent.flows->all;
        for (std::size_t l = 0; l < vent.network.pieces.size(); ++l)
            tell(vent.network.pieces[l], vent.network.network.links[l], all.pressure, all.through[l]);
    }

    /// The pieces of a link, unless another link through them carries more.
    template <class Q>
    void tell(const std::vector<int>& pieces, const flow::Link& link, const std::vector<units::Pressure>& pressure,
              Q through) {
        const bool back = through.value() < 0;
        if (at(std::max(link.from, link.to)) >= pressure.size()) return;
        for (const int piece : pieces) {
            auto& state = solved.piece[at(piece)];
            if (state && carried(*state) >= std::abs(through.value())) continue;
            state = State{pressure[at(back ? link.to : link.from)], pressure[at(back ? link.from : link.to)], {}, {}};
            if constexpr (std::is_same_v<Q, units::VolumeFlow>)
                state->flow = back ? -through : through;
            else
                state->mass_flow = back ? -through : through;
        }
    }

    static double carried(const State& s) { return s.flow ? s.flow->value() : s.mass_flow ? s.mass_flow->value() : 0; }

    const plant::Plant& plant_;
    const network::Hydraulics& hydraulics_;
};

}  // namespace

Solved solved(const Result& result) {
    Reader reader(*result.chosen);
    reader.water();
    reader.gas();
    reader.vents();
    reader.directions();
    reader.ways_out();
    return std::move(reader.solved);
}

std::vector<network::HeaderScheme> header_schemes(const Result& result) {
    const auto& chosen = *result.chosen;
    const auto& water = chosen.hydraulics.water;
    if (!water) return {};
    return network::header_schemes(chosen.built.plant, chosen.layout, water->network, water->feed);
}

std::vector<CommonVent> common_vents(const Result& result) {
    const auto& vents = result.chosen->hydraulics.vents;
    if (!vents || !vents->exhaust) return {};
    std::vector<CommonVent> out;
    for (const auto& vent : *vents->exhaust)
        if (auto rows = network::vent_by_number(vent.network, vents->feed); !rows.empty())
            out.push_back({result.chosen->built.plant.pieces[at(vent.network.terminal)].id, std::move(rows)});
    return out;
}

}  // namespace bw::design
