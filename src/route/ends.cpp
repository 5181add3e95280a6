// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "route/clearance_map.h"
#include "units/amount.h"
#include "units/constants.h"

namespace bw::route {
namespace {

using shape::Vec;

using units::tolerance;

std::string spoken(const Vec& at) {
    const auto feet = [](double metres) { return units::print_feet_inches(metres * units::metre); };
    return fmt::format("({}, {}, {})", feet(at.x), feet(at.y), feet(at.z));
}

bool look_at_one_another(const RouteRequest& ask) {
    const Vec way = ask.to - ask.from;
    return shape::dot(ask.from_facing, ask.to_facing) < -0.5 &&
           shape::length(way - shape::dot(way, ask.from_facing) * ask.from_facing) < 1e-4;
}

}  // namespace

std::optional<std::string> in_front(const ClearanceMap& space, const RouteRequest& ask, const Vec& end,
                                    const Vec& facing, double straight) {
    const Vec turn = end + (straight + ask.turn) * facing;
    const auto bar = [&](double radius) {
        return shape::bounds(shape::Cylinder{end, turn + ask.radius * facing, radius});
    };
    if (too_high(ask, turn.z) || !space.in_room(bar(ask.radius))) return "the room's walls, floor and ceiling";
    const shape::Box roomy = bar(ask.radius + ask.clearance);
    for (const auto& off : ask.keep_off)
        if (shape::overlap(off.box, roomy, tolerance)) return off.what;
    const auto owner = space.taken(roomy, ask.from_owner, ask.to_owner);
    if (!owner) return std::nullopt;
    return *owner < 0 ? space.what(*owner) : "pieces laid before";
}

tl::unexpected<Error> no_route(const RouteRequest& ask, const std::string& in_the_way) {
    return fail(
        fmt::format("no route from {} to {}; most in the way: {}", spoken(ask.from), spoken(ask.to), in_the_way),
        fmt::format("{:.1f} in of clear width for the pipe with its clearance, or the connection elsewhere",
                    2 * (ask.radius + ask.clearance) / 0.0254));
}

std::optional<Error> blocked_at_end(const ClearanceMap& space, const RouteRequest& ask) {
    if (look_at_one_another(ask)) return std::nullopt;
    auto what = in_front(space, ask, ask.from, ask.from_facing, ask.first);
    if (!what) what = in_front(space, ask, ask.to, ask.to_facing, ask.last);
    if (!what) return std::nullopt;
    return no_route(ask, *what).value();
}

}  // namespace bw::route
