// SPDX-License-Identifier: MIT
// A common pipe above a row of heaters: where it can run, and how big it must be.

#include <fmt/format.h>

#include <cmath>

#include "piping/kit/rack_room.h"
#include "piping/vent/vent.h"
#include "plant/stations.h"

namespace bw::piping {
namespace {

constexpr int planned = 1 << 24;  // owners of what stands only in a plan
constexpr int most_tries = 6;     // header places tried for one flue before its way out counts as blocked
constexpr double step = 1 * inch_m;

struct Trial {
    const Builder& b;
    const ClearanceMap& space;
    const Flue& flue;
    const survey::Connection& outlet;
    Vec hole;    ///< where it leaves the room
    Line line;   ///< of the common pipe
    Line riser;  ///< of a heater's own pipe
    const Item *tee, *elbow, *damper, *cap;
};

std::optional<Trial> trial(const Builder& b, const ClearanceMap& space, const Flue& flue,
                           const survey::Connection& outlet, Vec hole, Material material, Nominal size) {
    const auto* port = b.heater.port(text::name(flue.service));
    Line line{
        .service = flue.service, .material = material, .size = size, .name = flue.name, .bank = flue.bank->number};
    Line riser = line;
    riser.size = port->size;
    const Item* tee = nullptr;
    for (int eighths = riser.size.eighths; eighths <= size.eighths && !tee; ++eighths)
        tee = b.seek(Part::vent_tee, line, Nominal{eighths});
    const Trial made{b,
                     space,
                     flue,
                     outlet,
                     hole,
                     line,
                     riser,
                     tee,
                     b.seek(Part::vent_elbow, riser),
                     flue.service == Service::exhaust ? b.seek(Part::vent_damper, riser) : nullptr,
                     b.seek(Part::cap, line)};
    const bool complete = tee && tee->branch.value_or(size) == riser.size && made.elbow && made.cap &&
                          (made.damper || flue.service == Service::intake);
    if (!complete) return std::nullopt;
    return made;
}

/// How far above its port a heater's own parts reach before the common pipe's branch or an elbow can follow.
double rise(const Trial& t) {
    const double least = shortest(t.riser.material, t.riser.size);
    const double start = start_length(t.b, t.riser, t.riser.size, t.riser.size);
    return start + least + (t.damper ? 2 * t.damper->run.value() + least : 0);
}

std::vector<Vec> ports(const Trial& t) {
    std::vector<Vec> all;
    for (const int heater : t.flue.heaters) all.push_back(t.b.at(heater_port(t.b, heater, t.flue.service)).at);
    return all;
}

VentHeader header_at(const Trial& t, Vec along, Vec aside, double height) {
    VentHeader header{.along = along, .aside = aside, .height = height};
    auto at = ports(t);
    header.heaters = t.flue.heaters;
    if (shape::dot(at.back() - at.front(), along) < 0) {
        std::ranges::reverse(at);
        std::ranges::reverse(header.heaters);
    }
    const double out = shape::length(aside) < 0.5
                           ? 0
                           : t.elbow->run.value() + shortest(t.riser.material, t.riser.size) + t.tee->stem.value();
    for (const Vec& port : at) {
        Vec middle = port + out * aside;
        middle.z = height;
        header.middle.push_back(middle);
    }
    header.low_end = header.middle.front() - (t.tee->run.value() + shortest(t.line.material, t.line.size)) * along;
    return header;
}

std::vector<shape::Box> boxes_of(const Trial& t, const VentHeader& header) {
    const double fat = std::max(t.tee->outside.value(), t.cap->outside.value()) / 2;
    const Vec end = header.middle.back() + t.tee->run.value() * header.along;
    const Vec start = header.low_end - 2 * t.cap->run.value() * header.along;
    std::vector<shape::Box> boxes{shape::bounds(shape::Cylinder{start, end, fat})};
    const double thin = std::max({radius_of(t.b, t.riser), t.damper ? t.damper->outside.value() / 2 : 0.0});
    for (std::size_t i = 0; i < header.middle.size(); ++i) {
        const Vec port = t.b.at(heater_port(t.b, header.heaters[i], t.flue.service)).at;
        const Vec top{port.x, port.y, header.height};
        boxes.push_back(shape::bounds(shape::Cylinder{port + Vec{0, 0, grid}, top, thin}));
        if (shape::length(header.aside) > 0.5)
            boxes.push_back(shape::bounds(shape::Cylinder{top, header.middle[i], thin}));
    }
    return boxes;
}

bool stands_free(const Trial& t, const VentHeader& header) {
    const auto racks = rack_rooms(t.b, 6 * inch_m);
    for (const auto& box : boxes_of(t, header)) {
        const auto meets = [&](const KeepOff& rack) { return shape::overlap(rack.box, box); };
        if (!t.space.in_room(box) || t.space.taken(box) || std::ranges::any_of(racks, meets)) return false;
    }
    return true;
}

/// Whether pipe between neighbouring tees can be made up.
bool tees_fit(const Trial& t, const VentHeader& header) {
    for (std::size_t i = 1; i < header.middle.size(); ++i)
        if (shape::distance(header.middle[i], header.middle[i - 1]) - 2 * t.tee->run.value() <
            shortest(t.line.material, t.line.size) - 1e-9)
            return false;
    return true;
}

/// Places of the header worth trying, the likeliest first: straight above or aside, at the outlet's height or as low as
/// the risers let it.
std::vector<VentHeader> places(const Trial& t) {
    const auto& bank = *t.flue.bank;
    const Vec u = bank.place.turn({1, 0, 0}), v = bank.place.turn({0, 1, 0});
    const auto at = ports(t);
    const Vec middle = 0.5 * (at.front() + at.back());
    const Vec out = shape::dot(t.outlet.at - middle, u) < 0 ? -u : u;
    std::vector<VentHeader> found;
    for (const Vec& along : {out, -out}) {
        for (const Vec& aside : {Vec{}, v, -v}) {
            const bool above = shape::length(aside) < 0.5;
            const double low = at.front().z + rise(t) + (above ? t.tee->stem.value() : t.elbow->run.value());
            std::vector<double> heights;
            const double wanted = on_grid_from(at.front(), t.hole, {}).z;
            if (wanted >= low - 1e-9 && std::abs(t.outlet.facing.z) < 0.5) heights.push_back(wanted);
            for (double z = low; z < t.b.space.top() && heights.size() < 60; z += step) heights.push_back(z);
            int taken = 0;
            for (const double height : heights) {
                auto header = header_at(t, along, aside, height);
                if (!tees_fit(t, header)) return {};
                if (!stands_free(t, header)) continue;
                found.push_back(std::move(header));
                if (++taken == 2) break;
            }
        }
    }
    return found;
}

double developed(const FluePlan& plan) {
    return shape::distance(plan.header.middle.front(), plan.header.middle.back()) +
           shape::distance(plan.header.middle.back(), plan.course.from) + plan.course.length() + through_wall;
}

reason::Derivation working(const FluePlan& plan, const catalogue::CommonVentLimit& limit) {
    using units::amount;
    const double header = shape::distance(plan.header.middle.front(), plan.header.middle.back());
    return {{.says = fmt::format("Heaters on a common pipe of {} in", units::print(limit.size)),
             .formula = "n <= most listed",
             .given = {{"n", "heaters", units::count(static_cast<double>(plan.flue.heaters.size()))},
                       {"most", "the heater's listing", units::count(limit.most)}}},
            {.says = "Developed length from the farthest heater's tee to the terminal",
             .formula = "L = row + way out",
             .given = {{"row", "farthest tee to nearest", amount(header * units::metre, units::Kind::long_length)},
                       {"way out", "centre line, through the wall",
                        amount((plan.developed - header) * units::metre, units::Kind::long_length)},
                       {"longest", "the heater's listing", amount(limit.longest, units::Kind::long_length)}},
             .result = reason::Term{"L", "developed length",
                                    amount(plan.developed * units::metre, units::Kind::long_length)}},
            fall_step(plan.developed)};
}

/// One flue to its hole at one size; takes its place in `space` when it succeeds.
Result<FluePlan> one(const Builder& b, ClearanceMap& space, const Flue& flue, Vec hole,
                     const survey::Connection& outlet, Material material, const catalogue::CommonVentLimit& limit,
                     int owner) {
    const auto t = trial(b, space, flue, outlet, hole, material, limit.size);
    if (!t)
        return fail(fmt::format("no {} in tee with a heater's branch, or no damper, in the catalogue",
                                units::print(limit.size)),
                    "rows for them, or another vent material");
    auto candidates = places(*t);
    if (candidates.size() > most_tries) candidates.resize(most_tries);
    Error last{fmt::format("no room above the heaters for a {} in common pipe with its tees and dampers",
                           units::print(limit.size)),
               "a higher ceiling, single vents, or fewer heaters to a common vent",
               {}};
    // simple ways from every place first: a search is dear, and from a few places tells as much as from all
    constexpr std::size_t searched = 3;
    for (const auto how : {Thoroughness::simple, Thoroughness::searched})
        for (std::size_t i = 0; i < candidates.size(); ++i) {
            if (how == Thoroughness::searched && i == searched) break;
            auto& header = candidates[i];
            ClearanceMap with = space;
            for (const auto& box : boxes_of(*t, header)) with.take(box, owner);
            const Vec from = header.middle.back() + t->tee->run.value() * header.along;
            const RouteRequest ask =
                ask_for(b, t->line, from, header.along, hole, outlet, shape::distance(header.low_end, from));
            auto corners = find_vent(with, ask, how);
            if (corners && route::nears_itself(from, *corners, 2 * (ask.radius + ask.clearance)))
                corners = crosses_itself();
            if (!corners) {
                if (how == Thoroughness::searched) last = corners.error();
                continue;
            }
            FluePlan plan{.flue = flue,
                          .size = limit.size,
                          .course = {from, header.along, std::move(*corners)},
                          .header = header};
            plan.bodies = boxes_of(*t, header);
            plan.outlet_facing = outlet.facing;
            plan.limit = limit.longest.value();
            plan.developed = developed(plan);
            plan.derivation = working(plan, limit);
            if (plan.developed > plan.limit) {
                last = {fmt::format("{:.0f} ft developed at {} in, and the listing allows {:.0f} ft",
                                    plan.developed / 0.3048, units::print(limit.size), plan.limit / 0.3048),
                        "an outlet nearer to the heaters",
                        {}};
                continue;
            }
            take(with, plan.course, {ask.radius, mouth_of(b, t->line)}, owner, flue.service, behind(plan));
            space = std::move(with);
            return plan;
        }
    last.what = flue.name + ": " + last.what;
    return tl::unexpected(last);
}

Result<std::vector<FluePlan>> in_order(const Builder& b, const std::vector<Flue>& all, const std::vector<Vec>& holes,
                                       const survey::Connection& outlet, Material material,
                                       const catalogue::CommonVentLimit& limit) {
    ClearanceMap space = b.space;
    std::vector<FluePlan> plans;
    for (std::size_t i = 0; i < all.size(); ++i) {
        auto plan = one(b, space, all[i], holes[i], outlet, material, limit, planned + static_cast<int>(i));
        if (!plan) return tl::unexpected(plan.error());
        plans.push_back(std::move(*plan));
    }
    return plans;
}

/// How far an exhaust's end would stand in the ceiling when it is hung with its fall; 0 where it stands below.
double over_ceiling(const Builder& b, const std::vector<FluePlan>& plans, const Line& line) {
    double over = 0;
    if (line.service != Service::exhaust) return over;
    for (const auto& plan : plans) {
        if (plan.course.corners.empty() || std::abs(plan.outlet_facing.z) > 0.5) continue;
        const Vec& hole = plan.course.corners.back();
        const double rise = (behind(plan) + plan.course.length()) * plant::stations::fall;
        over = std::max(over, hole.z + rise + mouth_of(b, line) - b.ground.room.overhead().at(hole));
    }
    return over;
}

}  // namespace

Result<std::vector<FluePlan>> plan_common(const Builder& b, const std::vector<Flue>& all,
                                          const survey::Connection& outlet, Material material) {
    std::size_t most = 0;
    for (const auto& flue : all) most = std::max(most, flue.heaters.size());
    std::optional<Error> first;
    const auto planned = [&](const survey::Connection& place, const catalogue::CommonVentLimit& limit, double spacing,
                             bool reversed) -> Result<std::vector<FluePlan>> {
        auto holes = terminal_row(b.ground.room, place, static_cast<int>(all.size()), spacing, spacing / 2);
        if (!holes) return tl::unexpected(holes.error());
        if (reversed) std::ranges::reverse(*holes);
        return in_order(b, all, *holes, place, material, limit);
    };
    const Line least{.service = all[0].service, .material = material, .size = b.heater.common_vents.front().size};
    for (const auto& place : places_to_leave(b, all, outlet, least))
        for (const auto& limit : b.heater.common_vents) {
            if (limit.most < static_cast<int>(most) || !b.catalogue.pipe(material, limit.size)) continue;
            Line line = least;
            line.size = limit.size;
            const double spacing = spacing_of(b, line);
            for (const bool reversed : {false, true}) {
                if (reversed && all.size() < 2) break;
                auto plans = planned(place, limit, spacing, reversed);
                if (!plans) {
                    if (!first) first = plans.error();
                    continue;
                }
                // the way found may be longer than was reckoned: its end then lower by as much as it would rise too far
                if (const double over = over_ceiling(b, *plans, line); over > 0) {
                    auto lower = place;
                    lower.at.z -= snap_up(over);
                    if (auto again = planned(lower, limit, spacing, reversed)) return again;
                }
                return plans;
            }
        }
    if (!first)
        first =
            Error{fmt::format("no listed common size takes {} heaters", most), "single vents, or another heater", {}};
    first->what =
        fmt::format("{}: {}", all[0].service == Service::exhaust ? "common vent" : "common air intake", first->what);
    return tl::unexpected(*first);
}

}  // namespace bw::piping
