// SPDX-License-Identifier: MIT
#include "route/simple_route.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "route/planes.h"
#include "shape/grid.h"
#include "units/constants.h"

namespace bw::route {
namespace {

using shape::snap_up;
using shape::Vec;
using units::tolerance;

struct Way {
    std::vector<Vec> corners;
    double price = 0;
};

/// Corners that turn; nullopt where a leg doubles back or leaves no room for its elbows.
std::optional<Way> made_up(const ClearanceMap& space, const RouteRequest& ask, const std::vector<Vec>& points) {
    Way way;
    Vec before = ask.from, facing = ask.from_facing;
    std::vector<double> legs;
    for (const Vec& point : points) {
        const double length = shape::distance(point, before);
        if (length < tolerance) continue;
        const Vec direction = (1 / length) * (point - before);
        const double along = shape::dot(direction, facing);
        if (along < -0.5 || (legs.empty() && along < 0.5)) return std::nullopt;
        if (along > 0.5 && !legs.empty()) {
            way.corners.back() = point;
            legs.back() += length;
        } else {
            way.corners.push_back(point);
            legs.push_back(length);
        }
        facing = direction;
        before = point;
    }
    if (legs.empty() || shape::dot(facing, ask.to_facing) > -0.5) return std::nullopt;
    for (std::size_t i = 0; i < legs.size(); ++i) {
        const bool first = i == 0, last = i + 1 == legs.size();
        const double ends = (first ? ask.first : ask.turn) + (last ? ask.last : ask.turn);
        if (legs[i] < std::max(ask.least, first || last ? 0.0 : ask.least + 2 * ask.turn) - tolerance ||
            legs[i] < ends - tolerance)
            return std::nullopt;
        way.price += legs[i];
    }
    way.price += ask.turn_price * static_cast<double>(legs.size() - 1);
    if (ask.walk_price > 1) way.price += (ask.walk_price - 1) * walked_length(space, ask.from, way.corners);
    return way;
}

bool is_free(const ClearanceMap& space, const RouteRequest& ask, const Way& way) {
    Vec before = ask.from;
    for (std::size_t i = 0; i < way.corners.size(); ++i) {
        const Vec& corner = way.corners[i];
        const double length = shape::distance(corner, before);
        const Vec direction = (1 / length) * (corner - before);
        // elbows reach past the corners, the two ends stop at their ports
        const Vec low = i == 0 ? before : before - ask.radius * direction;
        const Vec high = i + 1 == way.corners.size() ? corner : corner + ask.radius * direction;
        const auto bar = [&](double radius) { return shape::bounds(shape::Cylinder{low, high, radius}); };
        auto roomy = bar(ask.radius + ask.clearance);
        roomy.max.z += ask.rises;
        if (too_high(ask, corner.z) || !space.in_room(bar(ask.radius)) ||
            space.taken(roomy, ask.from_owner, ask.to_owner))
            return false;
        for (const auto& off : ask.keep_off)
            if (shape::overlap(off.box, roomy, tolerance)) return false;
        before = corner;
    }
    return true;
}

/// How far the first leg may go before it turns: as little as it must, some more, or level with something.
std::vector<double> reaches(const RouteRequest& ask, Vec at, Vec facing, Vec other, double straight) {
    const double least = snap_up(straight + ask.turn), pitch = snap_up(2 * ask.turn + ask.least);
    std::vector<double> found;
    for (const int k : {0, 1, 2, 3, 5}) found.push_back(least + k * pitch);
    const double level_with_other = shape::dot(other - at, facing);
    if (level_with_other >= least - tolerance) found.push_back(level_with_other);
    if (std::abs(facing.z) > 0.5)
        for (const double level : ask.levels)
            if ((level - at.z) * facing.z >= least - tolerance) found.push_back((level - at.z) * facing.z);
    return found;
}

constexpr std::array<std::array<int, 3>, 6> orders{{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}}};

std::vector<Way> ways(const ClearanceMap& space, const RouteRequest& ask) {
    std::vector<Way> found;
    const auto keep = [&](const std::vector<Vec>& points) {
        if (auto way = made_up(space, ask, points)) found.push_back(std::move(*way));
    };
    keep({ask.to});
    for (const double out : reaches(ask, ask.from, ask.from_facing, ask.to, ask.first)) {
        const Vec a = ask.from + out * ask.from_facing;
        keep({a, ask.to});
        for (const double in : reaches(ask, ask.to, ask.to_facing, ask.from, ask.last)) {
            const Vec b = ask.to + in * ask.to_facing;
            for (const auto& order : orders) {
                std::vector<Vec> points{a};
                Vec here = a;
                for (const int axis : order) {
                    set(here, axis, part(b, axis));
                    points.push_back(here);
                }
                points.push_back(ask.to);
                keep(points);
            }
        }
    }
    return found;
}

bool orthogonal(Vec from, const std::vector<Vec>& corners) {
    for (const Vec& corner : corners) {
        const Vec leg = corner - from;
        if ((std::abs(leg.x) > tolerance) + (std::abs(leg.y) > tolerance) + (std::abs(leg.z) > tolerance) != 1)
            return false;
        from = corner;
    }
    return true;
}

}  // namespace

std::optional<std::vector<Vec>> simple_route(const ClearanceMap& space, const RouteRequest& ask) {
    auto found = ways(space, ask);
    std::ranges::stable_sort(found, {}, &Way::price);
    for (const auto& way : found)
        if (orthogonal(ask.from, way.corners) && is_free(space, ask, way)) return way.corners;
    return std::nullopt;
}

}  // namespace bw::route
