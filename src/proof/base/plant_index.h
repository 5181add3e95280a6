// SPDX-License-Identifier: MIT
#pragma once
// A case as the checks read it: pieces by part and heater, their catalogue rows, and the trees of the services.

#include <optional>
#include <string>
#include <vector>

#include "network/run/level_runs.h"
#include "network/service_tree.h"
#include "plant/words.h"
#include "proof/base/collision_grid.h"
#include "proof/proof.h"

namespace bw::proof {

using network::carries_flow;
using plant::Part;
using plant::Piece;
using plant::PortRef;
using text::Material;
using text::Service;

/// A piece met on a walk, and the port it was entered by.
struct Step {
    int piece = -1;
    int in = -1;
    int before = -1;   ///< index of the step before; -1 at the start
    double along = 0;  ///< metres of straight lines between ports from the start to `in`
};

class PlantIndex : public Case {
public:
    explicit PlantIndex(const Case& c);

    const plant::Plant& plant;

    [[nodiscard]] int heaters() const { return static_cast<int>(heater_at_.size()); }
    /// Piece index of a heater by its number, 1-based; -1 when the plant has none of that number.
    [[nodiscard]] int heater_piece(int number) const;
    [[nodiscard]] const Piece& piece(int index) const { return plant.pieces[static_cast<std::size_t>(index)]; }
    /// As one says it: "heater 3's gas valve".
    [[nodiscard]] std::string name(int index) const { return plant::in_words(piece(index).id); }
    [[nodiscard]] const std::vector<int>& of(Part part) const;
    /// Pieces of a part that serve one heater.
    [[nodiscard]] std::vector<int> of(Part part, int heater_number) const;
    [[nodiscard]] const catalogue::Item* item(int piece) const { return items_[static_cast<std::size_t>(piece)]; }
    [[nodiscard]] const catalogue::Pipe* pipe(int piece) const { return pipes_[static_cast<std::size_t>(piece)]; }
    [[nodiscard]] std::optional<Material> material(int piece) const;
    /// A named number of a piece's catalogue row.
    [[nodiscard]] std::optional<double> number(int piece, std::string_view name) const;
    [[nodiscard]] PortRef heater_port(int number, std::string_view name) const;

    /// The service's tree from its point of connection; the error says why it could not be read.
    [[nodiscard]] const Result<network::Tree>& tree(Service service) const;
    /// Every solid of the plant and the room's obstacles, by place.
    [[nodiscard]] const CollisionGrid& bodies() const { return bodies_; }

    /// Everything reached from `from` outwards, nearest first, never back into its own piece, never over supports,
    /// wires or links unless it began on one. `through(piece, in)` says whether the walk goes on past a piece; a piece
    /// it does not pass is still listed.
    template <class Through>
    [[nodiscard]] std::vector<Step> outward(PortRef from, Through through) const;
    /// The steps from the start of a walk to one of its steps, in order.
    [[nodiscard]] static std::vector<Step> back(const std::vector<Step>& walk, int step);

private:
    std::vector<std::vector<int>> by_part_;
    std::vector<int> heater_at_;
    std::vector<const catalogue::Item*> items_;
    std::vector<const catalogue::Pipe*> pipes_;
    std::vector<Result<network::Tree>> trees_;
    CollisionGrid bodies_;
};

[[nodiscard]] inline bool is_valve(Part part) {
    return part == Part::ball_valve || part == Part::gas_valve || part == Part::service_valve_cold ||
           part == Part::service_valve_hot || part == Part::check_valve || part == Part::balancing_valve ||
           part == Part::mixing_valve || part == Part::pressure_reducer || part == Part::backflow_preventer;
}

template <class Through>
std::vector<Step> PlantIndex::outward(PortRef from, Through through) const {
    std::vector<Step> walk;
    if (from.piece < 0) return walk;
    const bool wired = !carries_flow(plant.at(from).service);
    std::vector<char> seen(plant.pieces.size(), 0);
    seen[static_cast<std::size_t>(from.piece)] = 1;
    const auto enter = [&](PortRef out, int before, double along) {
        const auto service = plant.at(out).service;
        if (wired ? service != plant.at(from).service : !carries_flow(service)) return;
        const PortRef in = plant.mate(out);
        if (in.piece < 0 || seen[static_cast<std::size_t>(in.piece)]) return;
        seen[static_cast<std::size_t>(in.piece)] = 1;
        walk.push_back({in.piece, in.port, before, along});
    };
    enter(from, -1, 0);
    for (std::size_t i = 0; i < walk.size(); ++i) {
        const Step step = walk[i];
        if (!through(step.piece, step.in)) continue;
        const auto& ports = piece(step.piece).ports;
        for (int port = 0; port < static_cast<int>(ports.size()); ++port) {
            if (port == step.in) continue;
            const auto run =
                shape::distance(ports[static_cast<std::size_t>(port)].at, ports[static_cast<std::size_t>(step.in)].at);
            enter({step.piece, port}, static_cast<int>(i), step.along + run);
        }
    }
    return walk;
}

}  // namespace bw::proof
