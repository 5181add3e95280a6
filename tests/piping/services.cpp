// SPDX-License-Identifier: MIT
#include "services.h"

#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <map>

namespace bw::tests {
namespace {

Plant build_first(Job job) {
    std::string reasons;
    for (const auto& layout : job.layouts.candidates) {
        auto built = piping::build(job.survey, demo_catalogue(), job.demand, job.capacity, layout);
        if (built) return {std::move(job), layout, std::move(*built)};
        reasons += "  " + layout.id + ": " + units::describe(built.error()) + "\n";
    }
    std::cerr << job.name << ": no candidate could be built\n" << reasons;
    std::abort();
}

using Chain = std::map<int, int>;  // piece to the piece before it

/// Breadth first from a port's mate; `onto` says which ports lead on.
std::vector<int> walk(const plant::Plant& plant, plant::PortRef from,
                      const std::function<bool(const plant::Port&)>& onto, Chain& before) {
    std::vector<int> order;
    const auto first = plant.mate(from);
    if (first.piece < 0) return order;
    before[first.piece] = -1;
    order.push_back(first.piece);
    for (std::size_t i = 0; i < order.size(); ++i) {
        const int here = order[i];
        const auto& piece = plant.pieces[static_cast<std::size_t>(here)];
        if (piece.part == text::Part::heater || piece.part == text::Part::connection) continue;
        for (int port = 0; port < static_cast<int>(piece.ports.size()); ++port) {
            if (!onto(piece.ports[static_cast<std::size_t>(port)])) continue;
            const int next = plant.mate({here, port}).piece;
            if (next < 0 || next == from.piece || before.contains(next)) continue;
            before[next] = here;
            order.push_back(next);
        }
    }
    return order;
}

}  // namespace

const Plant& plant_of(const std::string& example) {
    static std::map<std::string, Plant> kept;
    const auto found = kept.find(example);
    return found != kept.end() ? found->second : kept.emplace(example, build_first(job_of(example))).first->second;
}

Plant plant_with(const std::string& example, const std::function<void(survey::Survey&)>& change) {
    auto survey = job_of(example).survey;
    change(survey);
    return build_first(job_from(example, std::move(survey)));
}

const catalogue::Heater& heater_of(const Plant& plant) { return *demo_catalogue().heater(plant.job.capacity.heater); }

std::vector<int> reached(const plant::Plant& plant, plant::PortRef from, text::Service service) {
    Chain before;
    return walk(
        plant, from, [&](const plant::Port& port) { return port.service == service; }, before);
}

std::vector<int> way_to(const plant::Plant& plant, plant::PortRef from, text::Part part) {
    Chain before;
    const auto service = plant.at(from).service;
    const auto order = walk(
        plant, from, [&](const plant::Port& port) { return port.service == service; }, before);
    const auto end = std::ranges::find_if(
        order, [&](int piece) { return plant.pieces[static_cast<std::size_t>(piece)].part == part; });
    std::vector<int> way;
    if (end == order.end()) return way;
    for (int at = *end; at >= 0; at = before.at(at)) way.push_back(at);
    std::ranges::reverse(way);
    return way;
}

plant::PortRef heater_port_of(const plant::Plant& plant, int heater, std::string_view port) {
    const int piece = plant.find("heater-" + std::to_string(heater));
    return {piece, piece < 0 ? -1 : plant.port(piece, port)};
}

int count(const plant::Plant& plant, text::Part part) {
    return static_cast<int>(std::ranges::count_if(plant.pieces, [&](const auto& piece) { return piece.part == part; }));
}

}  // namespace bw::tests
