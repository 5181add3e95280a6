// SPDX-License-Identifier: MIT
// Hard clashes: solids of pieces that are not joined must not share room.
#include "proof/checks.h"

namespace bw::proof {
namespace {

constexpr double allowed = 0.0254 / 16;  ///< pieces may touch by this much: the grid they are cut on

/// What gives way on site, is driven into something, or is wrapped round what it belongs to.
bool gives_way(Part part) {
    return part == Part::connection || part == Part::cable || part == Part::link_cable || part == Part::firestop ||
           part == Part::bond || part == Part::anchor;
}

shape::Solid shrunk(const shape::Solid& solid) {
    constexpr double by = allowed / 2;
    if (const auto* box = std::get_if<shape::Box>(&solid)) {
        const shape::Vec mid = 0.5 * (box->min + box->max);
        const auto in = [](double edge, double middle) {
            return std::fabs(edge - middle) < by ? middle : edge + (edge < middle ? by : -by);
        };
        return shape::Box{{in(box->min.x, mid.x), in(box->min.y, mid.y), in(box->min.z, mid.z)},
                          {in(box->max.x, mid.x), in(box->max.y, mid.y), in(box->max.z, mid.z)}};
    }
    auto bar = std::get<shape::Cylinder>(solid);
    const double length = shape::distance(bar.a, bar.b), cut = std::min(by, 0.49 * length);
    const shape::Vec way = length > 0 ? (1 / length) * (bar.b - bar.a) : shape::Vec{};
    return shape::Cylinder{bar.a + cut * way, bar.b - cut * way, std::max(0.0, bar.radius - by)};
}

struct Body {
    shape::Box box;
    shape::Solid solid;
    int piece = -1;
};

std::vector<Body> bodies(const View& view) {
    std::vector<Body> all;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        if (gives_way(view.piece(i).part)) continue;
        for (const auto& solid : view.piece(i).solids) {
            const auto small = shrunk(solid);
            all.push_back({shape::bounds(small), small, i});
        }
    }
    std::sort(all.begin(), all.end(), [](const Body& a, const Body& b) { return a.box.min.x < b.box.min.x; });
    return all;
}

/// Joined to one another, or both to a third so short that their bodies meet over it.
bool neighbours(const View& view, int a, int b) {
    for (int p = 0; p < static_cast<int>(view.piece(a).ports.size()); ++p) {
        const auto mate = view.plant.mate({a, p});
        if (mate.piece == b) return true;
    }
    return false;
}

std::vector<std::pair<int, int>> clashes(const View& view) {
    std::vector<std::pair<int, int>> found;
    const auto all = bodies(view);
    for (std::size_t i = 0; i < all.size(); ++i) {
        const auto& a = all[i];
        for (std::size_t j = i + 1; j < all.size() && all[j].box.min.x < a.box.max.x; ++j) {
            const auto& b = all[j];
            if (b.box.min.z >= a.box.max.z || a.box.min.z >= b.box.max.z || b.box.min.y >= a.box.max.y ||
                a.box.min.y >= b.box.max.y)
                continue;
            if (a.piece == b.piece || neighbours(view, a.piece, b.piece) || shape::gap(a.solid, b.solid) > 0) continue;
            found.emplace_back(std::min(a.piece, b.piece), std::max(a.piece, b.piece));
        }
    }
    std::sort(found.begin(), found.end());
    found.erase(std::unique(found.begin(), found.end()), found.end());
    return found;
}

}  // namespace

void check_clash(const View& view, Checks& checks) {
    auto check = draft("plant.clash", "No two pieces share room unless joined", "parts", {by_pieces()});
    const auto found = clashes(view);
    constexpr std::size_t shown = 40;
    for (std::size_t i = 0; i < std::min(found.size(), shown); ++i) {
        step(check, fmt::format("{} and {}.", view.piece(found[i].first).id, view.piece(found[i].second).id));
        about(check, view, {found[i].first, found[i].second});
    }
    check.value = units::count(static_cast<double>(found.size()));
    check.limit = units::count(0);
    check.sense = Sense::at_most;
    check.status = found.empty() ? Status::pass : Status::fail;
    check.says = found.empty() ? "Bodies measured against one another; cables give way on site and are left out."
                               : fmt::format("{} pairs of pieces share room, the first: {} and {}.", found.size(),
                                             view.piece(found.front().first).id, view.piece(found.front().second).id);
    checks.push_back(std::move(check));
}

}  // namespace bw::proof
