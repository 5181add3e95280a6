// SPDX-License-Identifier: MIT
#include "proof/base/collision_grid.h"
#include "text/give_way.h"
#include "units/constants.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace bw::proof {
namespace {

using shape::Box;
using shape::Vec;

constexpr double fit = units::grid;  ///< metres: unjoined pieces may touch by this much, the grid they are cut on
constexpr int most_cells = 48;       ///< along one axis

const plant::Piece& of(const plant::Plant& plant, int i) { return plant.pieces[static_cast<std::size_t>(i)]; }

shape::Solid shrunk(const shape::Solid& solid, double by) {
    if (const auto* box = std::get_if<Box>(&solid)) {
        const Vec mid = 0.5 * (box->min + box->max);
        const auto in = [by](double edge, double middle) {
            return std::fabs(edge - middle) < by ? middle : edge + (edge < middle ? by : -by);
        };
        return Box{{in(box->min.x, mid.x), in(box->min.y, mid.y), in(box->min.z, mid.z)},
                   {in(box->max.x, mid.x), in(box->max.y, mid.y), in(box->max.z, mid.z)}};
    }
    auto bar = std::get<shape::Cylinder>(solid);
    const double length = shape::distance(bar.a, bar.b), cut = std::min(by, 0.49 * length);
    const Vec way = length > 0 ? (1 / length) * (bar.b - bar.a) : Vec{};
    return shape::Cylinder{bar.a + cut * way, bar.b - cut * way, std::max(0.0, bar.radius - by)};
}

bool meet(const shape::Solid& a, const shape::Solid& b, double shrunk_by) {
    return shape::gap(shrunk(a, shrunk_by), shrunk(b, shrunk_by)) <= 0;
}

/// Both bodies' shrinking at which they part, to a tenth of a millimetre.
double depth(const Body& a, const Body& b) {
    double meeting = fit / 2, apart = 1;
    while (apart - meeting > 5e-5) {
        const double by = (meeting + apart) / 2;
        (meet(a.solid, b.solid, by) ? meeting : apart) = by;
    }
    return 2 * meeting;
}

}  // namespace

CollisionGrid::CollisionGrid(const plant::Plant& plant, const survey::Room& room) {
    std::size_t solids = room.obstacles.size();
    for (const auto& piece : plant.pieces) solids += piece.solids.size();
    all_.reserve(solids);
    for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i)
        for (const auto& solid : of(plant, i).solids) all_.push_back({shape::bounds(solid), solid, i});
    for (int k = 0; k < static_cast<int>(room.obstacles.size()); ++k) {
        const auto& box = room.obstacles[static_cast<std::size_t>(k)].box;
        all_.push_back({box, box, -1 - k});
    }
    sort_into_cells();
}

void CollisionGrid::sort_into_cells() {
    if (!all_.empty()) {
        Box hull = all_.front().box;
        for (const auto& body : all_) hull = shape::joined(hull, body.box);
        const Vec extent = hull.max - hull.min;
        corner_ = hull.min;
        size_ = std::max(size_, std::max({extent.x, extent.y, extent.z}) / most_cells);
        const double along[3] = {extent.x, extent.y, extent.z};
        for (int axis = 0; axis < 3; ++axis) count_[axis] = 1 + static_cast<int>(along[axis] / size_);
    }
    spans_.reserve(all_.size());
    first_.assign(static_cast<std::size_t>(count_[0] * count_[1] * count_[2]) + 1, 0);
    const auto each = [this](std::size_t i, auto f) {
        const auto& span = spans_[i];
        for (int z = span.low[2]; z <= span.high[2]; ++z)
            for (int y = span.low[1]; y <= span.high[1]; ++y)
                for (int x = span.low[0]; x <= span.high[0]; ++x) f(cell(x, y, z));
    };
    for (std::size_t i = 0; i < all_.size(); ++i) {
        spans_.push_back(cells(all_[i].box));
        each(i, [this](std::size_t c) { ++first_[c]; });
    }
    int sum = 0;
    for (auto& first : first_) sum += first, first = sum;
    held_.resize(static_cast<std::size_t>(sum));
    for (std::size_t i = all_.size(); i-- > 0;)
        each(i, [this, i](std::size_t c) { held_[static_cast<std::size_t>(--first_[c])] = static_cast<int>(i); });
}

CollisionGrid::Cells CollisionGrid::cells(const Box& box) const {
    const auto index = [this](double at, double corner, int count) {
        return static_cast<int>(std::clamp(std::floor((at - corner) / size_), 0.0, static_cast<double>(count - 1)));
    };
    return {{index(box.min.x, corner_.x, count_[0]), index(box.min.y, corner_.y, count_[1]),
             index(box.min.z, corner_.z, count_[2])},
            {index(box.max.x, corner_.x, count_[0]), index(box.max.y, corner_.y, count_[1]),
             index(box.max.z, corner_.z, count_[2])}};
}

bool clash(const shape::Solid& a, const shape::Solid& b) { return meet(a, b, fit / 2); }

double into_ceiling(const survey::Room& room, const shape::Solid& solid) {
    const auto ceiling = room.overhead();
    const auto* bar = std::get_if<shape::Cylinder>(&solid);
    if (ceiling.level()) return shape::reaches_above(ceiling, solid);
    const Box hull = shape::bounds(room.plan), box = shape::bounds(solid);
    if (!bar) {
        const Box within{{std::max(box.min.x, hull.min.x), std::max(box.min.y, hull.min.y), box.min.z},
                         {std::min(box.max.x, hull.max.x), std::min(box.max.y, hull.max.y), box.max.z}};
        return within.min.x < within.max.x && within.min.y < within.max.y ? shape::reaches_above(ceiling, within) : -1;
    }
    double from = 0, to = 1;
    const Vec way = bar->b - bar->a;
    const auto clip = [&](double at, double along, double low, double high) {
        if (std::fabs(along) < 1e-9) return low <= at && at <= high;
        const double one = (low - at) / along, two = (high - at) / along;
        from = std::max(from, std::min(one, two));
        to = std::min(to, std::max(one, two));
        return from < to;
    };
    if (!clip(bar->a.x, way.x, hull.min.x, hull.max.x) || !clip(bar->a.y, way.y, hull.min.y, hull.max.y)) return -1;
    return shape::reaches_above(ceiling, shape::Cylinder{bar->a + from * way, bar->a + to * way, bar->radius});
}

bool passes_ceiling(const survey::Room& room, const plant::Piece& piece) {
    constexpr double short_of_it = 0.25 * 0.0254;  // holes in a slope stand on the grid below it
    const auto ceiling = room.overhead();
    return piece.service != text::Service::structure && std::ranges::any_of(piece.ports, [&](const plant::Port& port) {
               return std::fabs(port.facing.z) > 0.5 && port.at.z > ceiling.at(port.at) - short_of_it;
           });
}

bool joined(const plant::Plant& plant, int a, int b) {
    if (of(plant, a).ports.size() > of(plant, b).ports.size()) std::swap(a, b);
    for (int p = 0; p < static_cast<int>(of(plant, a).ports.size()); ++p)
        if (plant.mate({a, p}).piece == b) return true;
    return false;
}

bool kin(const plant::Plant& plant, int a, int b, int joints) {
    if (joined(plant, a, b)) return true;
    if (joints <= 1) return false;
    for (int p = 0; p < static_cast<int>(of(plant, a).ports.size()); ++p) {
        const int next = plant.mate({a, p}).piece;
        if (next >= 0 && kin(plant, next, b, joints - 1)) return true;
    }
    return false;
}

std::vector<Clash> clashes(const plant::Plant& plant, const CollisionGrid& bodies) {
    std::vector<Clash> found;
    bodies.pairs([&](const Body& a, const Body& b) {
        const bool obstacle = a.piece < 0 || b.piece < 0;
        if (a.piece == b.piece || (a.piece < 0 && b.piece < 0)) return;
        for (const int i : {a.piece, b.piece})
            if (i >= 0 && text::gives_way(of(plant, i).part)) return;
        if (!clash(a.solid, b.solid) || (!obstacle && joined(plant, a.piece, b.piece))) return;
        const auto [low, high] = std::minmax(a.piece, b.piece);
        found.push_back(obstacle ? Clash{high, low, depth(a, b)} : Clash{low, high, depth(a, b)});
    });
    std::sort(found.begin(), found.end(), [](const Clash& x, const Clash& y) {
        return std::tie(x.a, x.b) != std::tie(y.a, y.b) ? std::tie(x.a, x.b) < std::tie(y.a, y.b) : x.depth > y.depth;
    });
    const auto same = [](const Clash& x, const Clash& y) { return x.a == y.a && x.b == y.b; };
    found.erase(std::unique(found.begin(), found.end(), same), found.end());
    return found;
}

}  // namespace bw::proof
