// SPDX-License-Identifier: MIT
// The longest-length method's length.

#include <algorithm>
#include <cmath>

#include "network/gas_loss.h"
#include "network/service_tree.h"
#include "piping/main/main_parts.h"
#include "piping/size/sizing.h"

namespace bw::piping {

GasLengths guess_gas_lengths(const Builder& b) {
    const Vec from = b.ground.room.gas.at;
    double farthest = 0;
    for (const auto& bank : b.layout.banks)
        for (const auto& stand : bank.stands) {
            const Vec way = heater_point(bank, stand, b.heater, {0, 0, 0}) - from;
            farthest = std::max(farthest, std::abs(way.x) + std::abs(way.y) + std::abs(way.z));
        }
    constexpr double fittings_and_turns = 1.5;
    const double all = farthest * fittings_and_turns + 3;
    if (!b.ground.regulator_each_bank) return {all, b.ground.regulator ? 3 : 0.0};
    double longest = 0;
    for (const auto& bank : b.layout.banks) longest = std::max(longest, bank.length * fittings_and_turns + 3);
    return {longest, all};
}

namespace {

/// Pipe that loses what velocity heads do, in fully rough flow (Colebrook's limit, steel's roughness of 0.0018 in).
double as_pipe(double heads, double bore) {
    constexpr double roughness = 0.0018 * inch_m;
    const double root = 2 * std::log10(3.7 * bore / roughness);
    return heads * bore * root * root;
}

/// A reducer's loss is held in its large end's velocity; what it counts as is pipe of its small end.
double reducer_as_pipe(const Builder& b, const Piece& piece) {
    Nominal small = piece.size;
    for (const auto& port : piece.ports) small = std::min(small, port.size);
    const auto* row = b.catalogue.pipe(b.ground.gas_pipe, small);
    const double bore = row ? row->inside.value() : piece.bore;
    return as_pipe(piece.loss_run * std::pow(bore / piece.bore, 4), bore);
}

/// Developed length of one passage: centre line and what its fittings count as, by the code's table or by their loss.
double developed(const Builder& b, const Piece& piece, const network::Traversal& passage) {
    if (passage.in < 0 || passage.out < 0) return 0;
    const auto& in = piece.ports[static_cast<std::size_t>(passage.in)];
    const auto& out = piece.ports[static_cast<std::size_t>(passage.out)];
    const Vec way = out.at - in.at;
    const double straight = std::abs(way.x) + std::abs(way.y) + std::abs(way.z);
    if (piece.part == Part::pipe || piece.bore <= 0) return straight;
    if (piece.part == Part::reducer) return straight + reducer_as_pipe(b, piece);
    const auto fitting = network::gas_fitting(piece, passage, units::Length::from_value(piece.bore));
    return straight + fitting.as_pipe.value() + as_pipe(fitting.velocity_heads, piece.bore);
}

}  // namespace

Result<GasLengths> measure_gas_lengths(const Builder& b) {
    const auto& plant = b.built.plant;
    const auto tree = network::trace_service(plant, Service::gas, plant.find("site.gas"));
    if (!tree) return tl::unexpected(tree.error());
    GasLengths lengths;
    for (int heater = 1; heater <= static_cast<int>(tree->leaf.size()); ++heater) {
        double length = 0;
        for (int at : network::path_to(*tree, heater)) {
            const network::Traversal& passage = tree->traversals[static_cast<std::size_t>(at)];
            const Piece& piece = plant.pieces[static_cast<std::size_t>(passage.piece)];
            if (piece.part == Part::regulator) {
                lengths.service = std::max(lengths.service, length);
                length = 0;
                continue;
            }
            length += developed(b, piece, passage);
        }
        lengths.longest = std::max(lengths.longest, length);
    }
    if (lengths.longest <= 0) return fail("no heater is reached by gas", "a tree from the point of connection");
    return lengths;
}

}  // namespace bw::piping
