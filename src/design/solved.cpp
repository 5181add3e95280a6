// SPDX-License-Identifier: MIT
#include "design/solved.h"

#include "matter/air.h"
#include "piping/gas_network.h"
#include "piping/readoff.h"
#include "piping/vent_network.h"
#include "piping/water_network.h"

namespace bw::design {
namespace {

using text::Part;
using text::Service;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

class Solver {
public:
    Solver(const Result& result, const catalogue::Catalogue& catalogue)
        : result_(result), catalogue_(catalogue), plant_(result.chosen->built.plant) {
        const auto n = at(result.chosen->capacity.installed);
        solved.piece.resize(plant_.pieces.size());
        solved.heater_water.resize(n), solved.heater_gas.resize(n), solved.heater_gas_pressure.resize(n);
        solved.heater_cold.resize(n), solved.heater_hot.resize(n);
        for (const auto& piece : plant_.pieces) solved.port.emplace_back(piece.ports.size(), Flow::unknown);
    }

    void water() {
        const auto* heater = catalogue_.heater(result_.chosen->capacity.heater);
        if (!heater) return;
        const auto feed = piping::water_feed(result_.demand, result_.chosen->capacity,
                                             result_.chosen->capacity.installed, *result_.survey.supply.pressure);
        if (!feed) return;
        const auto network = piping::water_network(plant_, catalogue_, *heater, *feed);
        if (!network) return;
        const auto split = piping::water_split(*network, *feed);
        if (!split) return;
        for (std::size_t l = 0; l < network->pieces.size(); ++l)
            tell(network->pieces[l], network->network.links[l], split->pressure, split->through[l]);
        for (std::size_t n = 0; n < split->heater.size() && n < solved.heater_water.size(); ++n) {
            if (network->heater[n] < 0) continue;
            const auto& link = network->network.links[at(network->heater[n])];
            solved.heater_water[n] = split->heater[n];
            solved.heater_cold[n] = split->pressure[at(link.from)];
            solved.heater_hot[n] = split->pressure[at(link.to)];
        }
    }

    void gas() {
        const auto& given = result_.survey.gas;
        const auto atmosphere = matter::atmosphere(*result_.survey.altitude);
        if (!atmosphere) return;
        const piping::GasFeed feed{*given.kind, *given.specific_gravity, *given.delivery_pressure, *atmosphere,
                                   result_.chosen->capacity.each.input / *given.heating_value};
        const auto network = piping::gas_network(plant_, catalogue_, feed);
        if (!network) return;
        const auto flows = piping::gas_flows(*network, feed);
        if (!flows || !flows->all) return;
        const auto& all = *flows->all;
        for (std::size_t l = 0; l < network->pieces.size(); ++l)
            tell(network->pieces[l], network->network.links[l], all.pressure, all.through[l]);
        for (std::size_t n = 0; n < all.heater.size() && n < solved.heater_gas.size(); ++n)
            if (network->heater[n] >= 0)
                solved.heater_gas[n] = feed.each, solved.heater_gas_pressure[n] = all.heater[n];
    }

    void vents() {
        const auto* heater = catalogue_.heater(result_.chosen->capacity.heater);
        if (!heater) return;
        const auto feed = piping::vent_feed(result_.survey, *heater, result_.demand, result_.chosen->capacity);
        if (!feed) return;
        for (const auto service : {Service::exhaust, Service::intake}) {
            const auto networks = piping::vent_networks(plant_, catalogue_, service, *feed);
            if (!networks) continue;
            for (const auto& network : *networks) vent(network, *feed);
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
            const auto tree = piping::read_off(plant_, service, static_cast<int>(i));
            if (!tree) continue;
            for (const auto& passage : tree->passages) {
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

    void vent(const piping::VentNetwork& network, const piping::VentFeed& feed) {
        const auto flows = piping::vent_flows(network, feed);
        if (!flows || !flows->all) return;
        for (std::size_t l = 0; l < network.pieces.size(); ++l)
            tell(network.pieces[l], network.network.links[l], flows->all->pressure, flows->all->through[l]);
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

    const Result& result_;
    const catalogue::Catalogue& catalogue_;
    const plant::Plant& plant_;
};

}  // namespace

Solved solved(const Result& result, const catalogue::Catalogue& catalogue) {
    Solver solver(result, catalogue);
    solver.water();
    solver.gas();
    solver.vents();
    solver.directions();
    solver.ways_out();
    return std::move(solver.solved);
}

}  // namespace bw::design
