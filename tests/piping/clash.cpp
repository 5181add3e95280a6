// SPDX-License-Identifier: MIT
#include "clash.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace bw::tests {
namespace {

/// How deep two bodies stand in one another, metres; bars by their axes, boxes by their faces.
double overlap(const shape::Solid& a, const shape::Solid& b) {
    const auto box_a = shape::bounds(a), box_b = shape::bounds(b);
    const double x = std::min(box_a.max.x, box_b.max.x) - std::max(box_a.min.x, box_b.min.x);
    const double y = std::min(box_a.max.y, box_b.max.y) - std::max(box_a.min.y, box_b.min.y);
    const double z = std::min(box_a.max.z, box_b.max.z) - std::max(box_a.min.z, box_b.min.z);
    const double boxes = std::min({x, y, z});
    if (boxes <= 0) return boxes;
    const auto *bar_a = std::get_if<shape::Cylinder>(&a), *bar_b = std::get_if<shape::Cylinder>(&b);
    if (!bar_a || !bar_b) return boxes;
    // the bars' axes as thin lines: what is missing of both radii between them
    const double apart = shape::gap(shape::Solid{shape::Cylinder{bar_a->a, bar_a->b, 1e-6}},
                                    shape::Solid{shape::Cylinder{bar_b->a, bar_b->b, 1e-6}});
    return std::min(boxes, bar_a->radius + bar_b->radius - apart);
}

}  // namespace

std::vector<std::string> clashes(const plant::Plant& plant, double depth) {
    std::set<std::pair<int, int>> joined;
    for (const auto& joint : plant.joints) joined.insert(std::minmax(joint.a.piece, joint.b.piece));
    struct Body {
        shape::Box box;
        const shape::Solid* solid;
        int piece;
    };
    std::vector<Body> bodies;
    for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i)
        for (const auto& solid : plant.pieces[static_cast<std::size_t>(i)].solids)
            bodies.push_back({shape::bounds(solid), &solid, i});
    std::ranges::sort(bodies, {}, [](const Body& body) { return body.box.min.x; });
    std::vector<std::string> found;
    std::set<std::pair<int, int>> told;
    for (std::size_t i = 0; i < bodies.size(); ++i) {
        for (std::size_t k = i + 1; k < bodies.size() && bodies[k].box.min.x < bodies[i].box.max.x; ++k) {
            const std::pair<int, int> pair = std::minmax(bodies[i].piece, bodies[k].piece);
            if (pair.first == pair.second || joined.contains(pair) || told.contains(pair)) continue;
            if (!shape::overlap(bodies[i].box, bodies[k].box, depth)) continue;
            const double deep = overlap(*bodies[i].solid, *bodies[k].solid);
            if (deep <= depth) continue;
            told.insert(pair);
            found.push_back(fmt::format("{} and {} by {:.0f} mm", plant.pieces[static_cast<std::size_t>(pair.first)].id,
                                        plant.pieces[static_cast<std::size_t>(pair.second)].id, deep * 1000));
        }
    }
    std::ranges::sort(found);
    return found;
}

}  // namespace bw::tests
