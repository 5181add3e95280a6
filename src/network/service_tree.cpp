// SPDX-License-Identifier: MIT
#include "network/service_tree.h"

#include <fmt/format.h>

#include <algorithm>

#include "network/run/length.h"

namespace bw::network {
namespace {

using plant::Piece;
using plant::Plant;
using plant::PortRef;

struct Reading {
    const Plant& plant;
    text::Service service;
    Tree tree;
    std::vector<char> seen;

    const Piece& piece(int index) const { return plant.pieces[static_cast<std::size_t>(index)]; }

    void note_leaf(int passage) {
        const Piece& end = piece(tree.traversals[static_cast<std::size_t>(passage)].piece);
        if (end.part != text::Part::heater || end.heater < 1) return;
        if (static_cast<int>(tree.leaf.size()) < end.heater) tree.leaf.resize(static_cast<std::size_t>(end.heater), -1);
        tree.leaf[static_cast<std::size_t>(end.heater) - 1] = passage;
    }

    /// Passages of a piece entered at `in`; gives false where the piece was reached before.
    bool enter(int index, int in, int before, double along) {
        if (seen[static_cast<std::size_t>(index)]) return false;
        seen[static_cast<std::size_t>(index)] = 1;
        const Piece& here = piece(index);
        bool ends = true;
        for (int out = 0; out < static_cast<int>(here.ports.size()) && here.part != text::Part::heater; ++out) {
            if (out == in || here.ports[static_cast<std::size_t>(out)].service != service) continue;
            tree.traversals.push_back({index, in, out, before, 0, along});
            ends = false;
        }
        if (ends) {
            tree.traversals.push_back({index, in, -1, before, 0, along});
            note_leaf(static_cast<int>(tree.traversals.size()) - 1);
        }
        return true;
    }
};

}  // namespace

Result<Tree> trace_service(const Plant& plant, text::Service service, int root) {
    if (root < 0 || root >= static_cast<int>(plant.pieces.size()))
        return fail(fmt::format("the {} service has no root", text::name(service)),
                    "its point of connection among the pieces");
    Reading reading{plant, service, {}, std::vector<char>(plant.pieces.size(), 0)};
    reading.enter(root, -1, -1, 0);
    for (std::size_t i = 0; i < reading.tree.traversals.size(); ++i) {
        const Traversal now = reading.tree.traversals[i];
        if (now.out < 0) continue;
        const PortRef next = plant.mate({now.piece, now.out});
        if (next.piece < 0) continue;
        const double along =
            now.along + length_through(reading.piece(now.piece), now.in, now.out, LengthRule::centre_lines);
        if (!reading.enter(next.piece, next.port, static_cast<int>(i), along))
            return fail(
                fmt::format("the {} service comes back to {}", text::name(service), reading.piece(next.piece).id),
                "a tree without loops");
    }
    Tree& tree = reading.tree;
    for (int leaf : tree.leaf)
        if (leaf >= 0) tree.traversals[static_cast<std::size_t>(leaf)].heaters = 1;
    for (std::size_t i = tree.traversals.size(); i-- > 0;)
        if (tree.traversals[i].before >= 0)
            tree.traversals[static_cast<std::size_t>(tree.traversals[i].before)].heaters += tree.traversals[i].heaters;
    return std::move(tree);
}

bool straight_on(const Piece& piece, const Traversal& passage) {
    if (passage.in < 0 || passage.out < 0) return false;
    const auto facing = [&](int port) { return piece.ports[static_cast<std::size_t>(port)].facing; };
    return shape::dot(facing(passage.in), facing(passage.out)) < -0.9;
}

double velocity_heads(const Piece& piece, const Traversal& passage) {
    const bool tee = piece.part == text::Part::tee || piece.part == text::Part::vent_tee;
    return tee && !straight_on(piece, passage) ? piece.loss_stem : piece.loss_run;
}

std::vector<int> path_to(const Tree& tree, int heater) {
    std::vector<int> path;
    if (heater < 1 || heater > static_cast<int>(tree.leaf.size())) return path;
    for (int at = tree.leaf[static_cast<std::size_t>(heater) - 1]; at >= 0;
         at = tree.traversals[static_cast<std::size_t>(at)].before)
        path.push_back(at);
    std::ranges::reverse(path);
    return path;
}

}  // namespace bw::network
