// SPDX-License-Identifier: MIT
#pragma once
// Pieces drawn as solids: filled with their service's tint, outlined where they are seen.

#include <functional>

#include "draw/view.h"
#include "plant/plant.h"
#include "projection/projection.h"

namespace bw::draw {

/// What is looked at; owners are the pieces' indices, or -1 for what is none.
struct Scene {
    std::vector<projection::Item> items;
    std::vector<projection::Wire> wires;
};

/// The pieces that `shown` lets through. Bars thinner than the finest line that reads on paper are wires, and boxes
/// as small as that are left out; nothing is too small where `points_per_metre` is 0.
[[nodiscard]] Scene scene_of(const plant::Plant& plant, const std::function<bool(const plant::Piece&)>& shown,
                             double points_per_metre = 0);

/// Draws what is seen of a scene, and gives it to be labelled.
projection::Seen draw_solids(const View& view, const plant::Plant& plant, const Scene& scene);

}  // namespace bw::draw
