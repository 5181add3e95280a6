// SPDX-License-Identifier: MIT
#include "piping/main/main_router.h"

#include <algorithm>
#include <functional>
#include <utility>

#include "piping/main/inline_lengths.h"
#include "piping/main/tee_places.h"

namespace bw::piping {
namespace {

/// Free room to other things: hot and cold pipe wear insulation.
double clearance_of(Service service) { return (service == Service::gas ? 1.0 : 1.5) * inch_m; }

/// Heights below the ceiling at which each service likes to cross the room, metres.
double below_ceiling(Service service) {
    switch (service) {
        case Service::gas: return 6 * inch_m;
        case Service::hot: return 14 * inch_m;
        case Service::cold: return 22 * inch_m;
        default: return 30 * inch_m;
    }
}

}  // namespace

MainRouter::MainRouter(const Builder& b, const Line& line, Thoroughness how)
    : b_(b),
      line_(line),
      how_(how),
      walk_price_(b.ground.mains_cross_the_floor ? 1 : piping::walk_price),
      keep_off_(kept_off_by_mains(b)) {}

double MainRouter::turn(Nominal size) const {
    const Item* bend = b_.seek(Part::elbow, resized(line_, size));
    return bend ? bend->run.value() : 0;
}

RouteRequest MainRouter::request(const Port& from, const Port& to, Nominal size) const {
    const Line line = resized(line_, size);
    const Item* bend = b_.seek(Part::elbow, line);
    RouteRequest ask;
    ask.from = from.at, ask.from_facing = from.facing;
    ask.to = to.at, ask.to_facing = to.facing;
    ask.radius = bend ? bend->outside.value() / 2 : b_.bore(line);
    ask.clearance = clearance_of(line_.service);
    ask.turn = turn(size);
    ask.turn_price = turn_price;
    ask.walk_price = walk_price_;
    ask.least = ask.first = ask.last = shortest(line.material, size);
    const double over = b_.space.ceiling().lowest(shape::box_of(from.at, to.at));
    ask.levels = {snap(over - below_ceiling(line_.service))};
    ask.keep_off = keep_off_;
    ask.keep_off.insert(ask.keep_off.end(), b_.reserved.begin(), b_.reserved.end());
    return ask;
}

/// The pieces at a route's ends do not stand in its way.
RouteRequest MainRouter::request(PortRef from, PortRef to, Nominal size) const {
    RouteRequest ask = request(b_.at(from), b_.at(to), size);
    ask.from_owner = from.piece;
    ask.to_owner = to.piece;
    return ask;
}

double MainRouter::stagger() const {
    constexpr double each = 5.5 * inch_m;
    return line_.service == Service::hot ? 0 : line_.service == Service::cold ? each : 2 * each;
}

/// What the elbow of a point of connection's own size takes, or nothing for another port.
double MainRouter::stub_turn(PortRef from) const {
    if (b_.built.plant.pieces[static_cast<std::size_t>(from.piece)].part != Part::connection) return 0;
    return turn(b_.at(from).size);
}

Result<std::vector<Vec>> MainRouter::find(PortRef from, PortRef to, Nominal size, const WayEnds& ends) const {
    return find_way(b_.space, request(from, to, size), ends, how_, stub_turn(from));
}

Result<std::vector<Vec>> MainRouter::find_aside(PortRef from, PortRef to, Nominal size, double straight,
                                                const WayEnds& ends) const {
    const RouteRequest asked = request(from, to, size);
    const double out = snap_up(asked.first + asked.turn + 2 * inch_m);
    return find_way_aside(b_.space, asked, ends, out, straight);
}

bool MainRouter::fit(Line line, Vec from, const std::vector<Vec>& path, std::vector<InlineItem> things,
                     Wanted wanted) const {
    std::size_t next = 0;
    for (std::size_t leg = 0; leg < path.size(); ++leg) {
        // on the last leg changes of size come before other things
        if (wanted == Wanted::sizes && leg + 1 == path.size())
            things.erase(std::remove_if(things.begin() + static_cast<std::ptrdiff_t>(next), things.end(),
                                        std::not_fn(std::mem_fn(&InlineItem::changes_size))),
                         things.end());
        const Item* bend = b_.seek(Part::elbow, line);
        const double start = leg == 0 || !bend ? 0 : bend->run.value(), length = shape::distance(from, path[leg]);
        const Vec along = (1 / length) * (path[leg] - from);
        const auto [count, moved, spare] =
            things_on_leg(b_, line, things, next, {from + start * along, along, length - start, leg + 1 < path.size()});
        for (std::size_t k = next; k < next + count; ++k)
            if (things[k].changes_size()) line.size = things[k].to;
        next += count;
        from = path[leg];
    }
    return next == things.size();
}

Result<std::vector<Vec>> MainRouter::find_roomy(const Line& line, PortRef from, PortRef to, Nominal size,
                                                const std::vector<InlineItem>& things, const WayEnds& ends) const {
    auto path = find(from, to, size, ends);
    const auto fits = [&](const Result<std::vector<Vec>>& way, Wanted wanted) {
        return way && fit(line, b_.at(from).at, *way, things, wanted);
    };
    if (!path || fits(path, Wanted::all)) return path;
    const double all = length_of(b_, line, things);
    for (const auto& [first, last] : {std::pair{all, ends.last}, {ends.first, all}, {all / 2, all / 2}}) {
        auto other = find(from, to, size,
                          {std::max(first, ends.first), std::max(last, ends.last), ends.least_first, ends.least_last});
        if (fits(other, Wanted::all)) return other;
    }
    const auto other = find_aside(from, to, size, all, ends);
    if (fits(other, Wanted::all)) return other;
    if (fits(path, Wanted::sizes)) return path;
    const double sizes = length_of_changes(b_, line, things);
    for (const auto& way : {other, find_aside(from, to, size, sizes, ends), find(from, to, size, {sizes, 0, sizes, 0}),
                            find(from, to, size, {0, sizes, 0, sizes})})
        if (fits(way, Wanted::sizes)) return way;
    return path;
}

}  // namespace bw::piping
