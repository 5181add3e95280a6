// SPDX-License-Identifier: MIT
// A pipe of its own for each heater: from its port to its hole in the wall.

#include <fmt/format.h>

#include <numeric>

#include "piping/vent/vent.h"

namespace bw::piping {
namespace {

constexpr int planned = 1 << 24;  // owners of what stands only in a plan

Line line_of(const Flue& flue, Material material, Nominal size) {
    return {.service = flue.service,
            .material = material,
            .size = size,
            .name = flue.name,
            .heater = flue.heaters[0],
            .bank = flue.bank->number};
}

reason::Derivation working(const Course& course, const catalogue::VentLimit& limit, double developed) {
    return {{.says = fmt::format("Developed length of a {} in vent: straight pipe and {} elbows",
                                 units::print(limit.size), course.turns()),
             .formula = "L = straight + elbows x equivalent",
             .given = {{"straight", "centre line, through the wall",
                        units::amount((course.length() + through_wall) * units::metre, units::Kind::long_length)},
                       {"elbows", "90 degree elbows", units::count(course.turns())},
                       {"equivalent", "of each elbow", units::amount(limit.elbow_equivalent, units::Kind::long_length)},
                       {"longest", "the heater's listing", units::amount(limit.longest, units::Kind::long_length)}},
             .result = reason::Term{"L", "developed length",
                                    units::amount(developed * units::metre, units::Kind::long_length)}},
            fall_step(course.length())};
}

struct Sought {
    const Builder& b;
    const std::vector<Flue>& all;
    const survey::Connection& outlet;
    Material material;
    const catalogue::VentLimit& limit;
};

/// One flue from its heater to a hole, past what is planned already.
Result<FluePlan> one(const Sought& sought, const ClearanceMap& space, const Flue& flue, Vec hole) {
    const auto& [b, all, outlet, material, limit] = sought;
    const Line line = line_of(flue, material, limit.size);
    const PortRef port = heater_port(b, flue.heaters[0], flue.service);
    const Port& open = b.at(port);
    const Vec from = open.at + start_length(b, line, open.size, limit.size) * open.facing;
    RouteRequest ask = ask_for(b, line, from, open.facing, hole, outlet);
    ask.from_owner = port.piece;
    const auto nears = [&](const auto& way) {
        return way && route::nears_itself(from, *way, 2 * (ask.radius + ask.clearance));
    };
    auto corners = find_vent(space, ask);
    if (nears(corners)) {
        ask.levels.clear();
        ask.turn_price *= 4;
        corners = find_vent(space, ask);
    }
    if (nears(corners)) corners = crosses_itself();
    if (!corners) return tl::unexpected(corners.error());
    FluePlan plan{.flue = flue, .size = limit.size, .course = {from, open.facing, std::move(*corners)}};
    plan.outlet_facing = outlet.facing;
    plan.limit = limit.longest.value();
    plan.developed = plan.course.length() + through_wall + plan.course.turns() * limit.elbow_equivalent.value();
    plan.derivation = working(plan.course, limit, plan.developed);
    return plan;
}

/// All flues at one size, each to its hole; the message of what is in the way otherwise. One that finds no way past
/// those planned before it goes first the next time.
Result<std::vector<FluePlan>> at_size(const Sought& sought, const std::vector<Vec>& holes) {
    constexpr int most_turns = 4;
    const Line line = line_of(sought.all[0], sought.material, sought.limit.size);
    const double radius = radius_of(sought.b, line), mouth = mouth_of(sought.b, line);
    std::vector<std::size_t> order(sought.all.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::optional<Error> why;
    for (int turn = 0; turn < most_turns; ++turn) {
        ClearanceMap space = sought.b.space;
        take_starts(space, sought.b, sought.all[0].service, sought.material);
        std::vector<FluePlan> plans(sought.all.size());
        auto next = order.begin();
        for (; next != order.end(); ++next) {
            auto plan = one(sought, space, sought.all[*next], holes[*next]);
            if (!plan) {
                why = plan.error();
                break;
            }
            take(space, plan->course, {radius, mouth}, planned + static_cast<int>(*next), plan->flue.service);
            plans[*next] = std::move(*plan);
        }
        if (next == order.end()) return plans;
        if (next == order.begin()) break;
        std::rotate(order.begin(), next, std::next(next));
    }
    return tl::unexpected(std::move(*why));
}

/// The sets of holes worth trying: in a row about the point of connection; in two rows, where one finds no room;
/// through the ceiling straight up from each heater.
std::vector<Result<std::vector<Vec>>> hole_sets(const Sought& sought, double spacing) {
    const auto& [b, all, outlet, material, limit] = sought;
    const auto count = static_cast<int>(all.size());
    const auto places = places_to_leave(b, all, outlet, line_of(all[0], material, limit.size));
    std::vector<Result<std::vector<Vec>>> sets{
        terminal_row(b.ground.room, places.front(), count, spacing, spacing / 2)};
    if (std::abs(outlet.facing.z) < 0.5) {
        if (count > 1) sets.push_back(terminal_rows(b.ground.room, places.front(), count, spacing, spacing / 2, 2));
        for (std::size_t i = 1; i < places.size(); ++i)
            sets.push_back(terminal_row(b.ground.room, places[i], count, spacing, spacing / 2));
        return sets;
    }
    std::vector<Vec> above;
    for (const auto& flue : all) {
        Vec hole = b.at(heater_port(b, flue.heaters[0], flue.service)).at;
        hole.z = snap_down(b.ground.room.overhead().at(hole));
        for (const Vec& other : above)
            if (shape::distance(other, hole) < spacing - grid) return sets;
        above.push_back(hole);
    }
    sets.emplace_back(std::move(above));
    for (std::size_t i = 1; i < places.size(); ++i)
        sets.push_back(terminal_row(b.ground.room, places[i], count, spacing, spacing / 2));
    return sets;
}

const FluePlan& longest(const std::vector<FluePlan>& plans) {
    return *std::ranges::max_element(plans, {}, [](const FluePlan& p) { return p.developed - p.limit; });
}

}  // namespace

Result<std::vector<FluePlan>> plan_single(const Builder& b, const std::vector<Flue>& all,
                                          const survey::Connection& outlet, Material material) {
    const auto* port = b.heater.port(text::name(all[0].service));
    Error last{fmt::format("{}: no size of {} is both listed for {} and in the catalogue", text::name(all[0].service),
                           text::name(material), b.heater.key),
               "another vent material in the survey's preferences",
               {}};
    for (const auto& limit : b.heater.vents) {
        if (!port || limit.size < port->size || !b.catalogue.pipe(material, limit.size)) continue;
        const double spacing = spacing_of(b, line_of(all[0], material, limit.size));
        const Sought sought{b, all, outlet, material, limit};
        for (const auto& holes : hole_sets(sought, spacing)) {
            if (!holes) {
                last = holes.error();
                continue;
            }
            for (const auto& order : assignments(*holes)) {
                auto plans = at_size(sought, order);
                if (!plans) {
                    last = plans.error();
                    continue;
                }
                const FluePlan& worst = longest(*plans);
                if (worst.developed <= worst.limit) return plans;
                last = {
                    fmt::format("{}: {:.0f} ft developed at {} in, and the listing allows {:.0f} ft", worst.flue.name,
                                worst.developed / 0.3048, units::print(limit.size), worst.limit / 0.3048),
                    "an outlet nearer to the heaters",
                    {}};
            }
        }
    }
    last.what =
        fmt::format("{}: {}", all[0].service == Service::exhaust ? "single vents" : "single air intakes", last.what);
    return tl::unexpected(last);
}

void lay_single(Builder& b, const FluePlan& plan, Material material, int outlet_number) {
    const Line line = line_of(plan.flue, material, plan.size);
    const PortRef from = start_vent(b, line, heater_port(b, line.heater, line.service), plan.size);
    lay_outlet(b, line, from, plan, outlet_number);
}

}  // namespace bw::piping
