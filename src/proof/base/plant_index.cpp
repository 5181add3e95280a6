// SPDX-License-Identifier: MIT
#include "proof/base/plant_index.h"

#include <algorithm>

#include "survey/points.h"

namespace bw::proof {
namespace {

constexpr std::array walked{Service::gas, Service::cold, Service::hot};

std::string_view root_of(Service service) {
    const auto points = survey::points();
    return std::ranges::find(points, service, [](const auto& point) { return point.service.value; })->site;
}

Result<network::Tree> read(const plant::Plant& plant, Service service) {
    const auto root = root_of(service);
    const int at = plant.find(root);
    if (at < 0)
        return fail(fmt::format("the plant has no piece {}", root), "every service begins at a point of connection");
    return network::trace_service(plant, service, at);
}

}  // namespace

PlantIndex::PlantIndex(const Case& c) : Case(c), plant(c.built.plant), bodies_(c.built.plant, c.survey.room) {
    by_part_.resize(static_cast<std::size_t>(Part::connection) + 1);
    items_.reserve(plant.pieces.size());
    pipes_.reserve(plant.pieces.size());
    for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i) {
        const auto& p = piece(i);
        by_part_[static_cast<std::size_t>(p.part)].push_back(i);
        const auto* pipe_row = p.item.empty() ? nullptr : catalogue.pipe(p.item);
        pipes_.push_back(pipe_row);
        items_.push_back(pipe_row || p.item.empty() ? nullptr : catalogue.item(p.item));
        if (p.part != Part::heater || p.heater < 1) continue;
        if (static_cast<int>(heater_at_.size()) < p.heater) heater_at_.resize(static_cast<std::size_t>(p.heater), -1);
        heater_at_[static_cast<std::size_t>(p.heater) - 1] = i;
    }
    for (const auto service : walked) trees_.push_back(read(plant, service));
}

int PlantIndex::heater_piece(int number) const {
    return number < 1 || number > heaters() ? -1 : heater_at_[static_cast<std::size_t>(number) - 1];
}

const std::vector<int>& PlantIndex::of(Part part) const { return by_part_[static_cast<std::size_t>(part)]; }

std::vector<int> PlantIndex::of(Part part, int heater_number) const {
    std::vector<int> found;
    for (const int i : of(part))
        if (piece(i).heater == heater_number) found.push_back(i);
    return found;
}

std::optional<Material> PlantIndex::material(int index) const {
    if (const auto* row = pipe(index)) return row->material;
    if (const auto* row = item(index)) return row->material;
    return {};
}

std::optional<double> PlantIndex::number(int index, std::string_view name) const {
    const auto* row = item(index);
    return row ? row->number(name) : std::nullopt;
}

PortRef PlantIndex::heater_port(int number, std::string_view name) const {
    const int at = heater_piece(number);
    if (at < 0) return {};
    const int port = plant.port(at, name);
    return port < 0 ? PortRef{} : PortRef{at, port};
}

const Result<network::Tree>& PlantIndex::tree(Service service) const {
    for (std::size_t i = 0; i < walked.size(); ++i)
        if (walked[i] == service) return trees_[i];
    static const Result<network::Tree> none = fail("this service is not read as a tree", "gas, cold or hot");
    return none;
}

std::vector<Step> PlantIndex::back(const std::vector<Step>& walk, int step) {
    std::vector<Step> path;
    for (; step >= 0; step = walk[static_cast<std::size_t>(step)].before)
        path.push_back(walk[static_cast<std::size_t>(step)]);
    std::reverse(path.begin(), path.end());
    return path;
}

}  // namespace bw::proof
