// SPDX-License-Identifier: MIT
#include "route/planes.h"

#include <algorithm>
#include <cmath>

#include "shape/grid.h"
#include "units/constants.h"

namespace bw::route {
namespace {

using shape::snap;
using shape::Vec;
using units::grid;
using units::tolerance;

/// Planes while they are gathered, before near ones are thinned out.
struct Gathered {
    struct Plane {
        double at;
        bool kept;  ///< ends of the route and their first turns are never thinned out
    };
    std::array<std::vector<Plane>, 3> all;

    void add(int axis, double where, bool kept = false) {
        all[static_cast<std::size_t>(axis)].push_back({snap(where), kept});
    }

    /// Sorts, and drops planes nearer than an inch to one that stays.
    [[nodiscard]] Planes settled() {
        Planes out;
        for (std::size_t axis = 0; axis < 3; ++axis) {
            auto& planes = all[axis];
            std::ranges::stable_sort(planes, [](const Plane& a, const Plane& b) {
                return a.at < b.at - tolerance || (std::abs(a.at - b.at) <= tolerance && a.kept && !b.kept);
            });
            std::vector<Plane> stay;
            for (const Plane& plane : planes) {
                const double near = plane.kept ? tolerance : 0.0254;
                if (!stay.empty() && plane.at - stay.back().at <= near) {
                    if (!plane.kept || plane.at - stay.back().at <= tolerance) continue;
                }
                while (plane.kept && !stay.empty() && !stay.back().kept && plane.at - stay.back().at < 0.0254)
                    stay.pop_back();
                stay.push_back(plane);
            }
            for (const Plane& plane : stay) out.at[axis].push_back(plane.at);
        }
        return out;
    }
};

void add_end(Gathered& planes, const Vec& end, const Vec& facing, double first, const RouteRequest& ask,
             Detail detail) {
    const bool near = detail != Detail::coarse;
    const double pitch = std::max(2 * ask.turn + ask.least, 2 * (ask.radius + ask.clearance));
    const int ahead = direction_of(facing) / 2;
    for (int axis = 0; axis < 3; ++axis) {
        planes.add(axis, part(end, axis), true);
        if (axis == ahead) {
            const double sign = part(facing, axis) > 0 ? 1 : -1;
            for (int k = 0; k < (near ? 4 : 2); ++k)
                planes.add(axis, part(end, axis) + sign * (first + ask.turn + k * pitch), k == 0);
        } else if (near) {
            for (int k : {-2, -1, 1, 2}) planes.add(axis, part(end, axis) + k * pitch);
        }
    }
}

void add_edges(Gathered& planes, const shape::Box& box, double away) {
    for (int axis = 0; axis < 3; ++axis) {
        planes.add(axis, part(box.min, axis) - away);
        planes.add(axis, part(box.max, axis) + away);
    }
}

}  // namespace

int direction_of(const Vec& facing) {
    for (int axis = 0; axis < 3; ++axis)
        if (std::abs(part(facing, axis)) > 0.5) return 2 * axis + (part(facing, axis) < 0 ? 1 : 0);
    return 0;
}

int Planes::index(int axis, double where) const {
    const auto& list = at[static_cast<std::size_t>(axis)];
    return static_cast<int>(std::ranges::lower_bound(list, snap(where) - tolerance) - list.begin());
}

Planes planes_of(const ClearanceMap& space, const RouteRequest& ask, Detail detail) {
    const bool fine = detail == Detail::fine;
    Gathered planes;
    add_end(planes, ask.from, ask.from_facing, ask.first, ask, detail);
    add_end(planes, ask.to, ask.to_facing, ask.last, ask, detail);
    const double away = ask.radius + ask.clearance + grid;
    for (const auto& corner : space.plan()) {
        for (int axis = 0; axis < 2; ++axis) {
            const double edge = axis == 0 ? corner.x : corner.y;
            planes.add(axis, edge + away);
            planes.add(axis, edge - away);
        }
    }
    for (double level : ask.levels) planes.add(2, level, true);
    planes.add(2, space.top() - away);
    if (const auto& ceiling = space.ceiling(); !ceiling.level()) {
        planes.add(2, ceiling.lowest(space.hull()) - away);
        planes.add(2, ceiling.lowest(shape::grown(shape::box_of(ask.from, ask.to), away)) - away);
    }
    constexpr double long_piece = 0.9;  // shorter pieces are passed by the planes of the ends
    for (const auto& taken : space.boxes()) {
        const bool piece = taken.owner >= 0;
        const Vec size = taken.box.max - taken.box.min;
        if (!fine || (piece && std::max({size.x, size.y, size.z}) < long_piece)) continue;
        add_edges(planes, taken.box, away);
    }
    if (fine)
        for (const auto& off : ask.keep_off) add_edges(planes, off.box, away);
    return planes.settled();
}

}  // namespace bw::route
