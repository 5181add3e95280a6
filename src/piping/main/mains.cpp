// SPDX-License-Identifier: MIT
// From the banks' feed ends to the points of connection.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "piping/main/inline_items.h"
#include "piping/main/main_parts.h"
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

/// Where a rack's posts and rails will stand: behind the heaters of a side, from end to end.
void append_rack(std::vector<KeepOff>& boxes, const plant::Bank& bank, double top) {
    constexpr double posts = 5 * inch_m;
    const std::string what = fmt::format("the rack of bank {}", bank.number);
    const auto slab = [&](double from, double to) {
        boxes.push_back({shape::box_of(bank.place({0, from, 0}), bank.place({bank.length, to, top})), what});
    };
    if (bank.back_plane > 0) {
        slab(bank.back_plane - posts, bank.back_plane);
        slab(-bank.back_plane, posts - bank.back_plane);
    } else {
        slab(-bank.depth_back, 0);
    }
}

/// What mains keep off besides pieces: the banks with the room their vents will want, and the way in at doors.
std::vector<KeepOff> keep_off(const Builder& b) {
    std::vector<KeepOff> boxes;
    constexpr double vent_room = 30 * inch_m, door_depth = 36 * inch_m;
    for (const auto& bank : b.layout.banks) {
        if (bank.stands.empty()) continue;
        double low = 1e9, high = -1e9;
        for (const auto& stand : bank.stands) {
            low = std::min(low, stand.u);
            high = std::max(high, stand.u + b.heater.width.value());
        }
        const auto foot =
            shape::box_of(bank.place({low, -bank.depth_back, 0}), bank.place({high, bank.depth_front, 0}));
        const double top = std::min(bank.bottom + b.heater.height.value() + vent_room, b.space.ceiling().lowest(foot));
        const auto box =
            shape::box_of(bank.place({low, -bank.depth_back, 0}), bank.place({high, bank.depth_front, top}));
        boxes.push_back({box, fmt::format("bank {} with its vents", bank.number)});
        if (bank.wall < 0) append_rack(boxes, bank, top);
    }
    for (const auto* outlet : {&b.ground.room.exhaust, &b.ground.room.intake}) {
        if (!outlet->given) continue;
        constexpr double half = 8 * inch_m, deep = 24 * inch_m;
        const Vec inward = outlet->at + deep * outlet->facing;
        const Vec across{std::abs(outlet->facing.x) > 0.5 ? 0 : half, std::abs(outlet->facing.y) > 0.5 ? 0 : half,
                         half};
        boxes.push_back({shape::joined(shape::box_of(outlet->at - across, outlet->at + across),
                                       shape::box_of(inward - across, inward + across)),
                         "the vent's way out"});
    }
    const auto& plan = b.ground.room.plan;
    for (std::size_t i = 0; i < b.ground.room.doors.size(); ++i) {
        const auto& door = b.ground.room.doors[i];
        const auto& from = plan[static_cast<std::size_t>(door.wall)];
        const auto& to = plan[(static_cast<std::size_t>(door.wall) + 1) % plan.size()];
        const double length = std::hypot(to.x - from.x, to.y - from.y);
        const Vec along{(to.x - from.x) / length, (to.y - from.y) / length, 0}, inward{-along.y, along.x, 0};
        const Vec near = Vec{from.x, from.y, 0} + door.offset.value() * along;
        const Vec far = near + door.width.value() * along + door_depth * inward + Vec{0, 0, door.height.value()};
        boxes.push_back({shape::box_of(near, far), fmt::format("the way through door {}", i + 1)});
    }
    return boxes;
}

class Main {
public:
    Main(Builder& b, Service service, Thoroughness how) : b_(b), how_(how), keep_off_(keep_off(b)) {
        line_.service = service;
        line_.material = b.ground.pipe(service);
        line_.name = fmt::format("main.{}", text::name(service));
    }

    void lay() {
        const survey::Connection& connection = connection_of(b_, line_.service);
        const MainParts parts = main_parts(b_, line_);
        if (!b_.ok()) return;
        const Nominal there = connection.size.value_or(parts.size_first);
        line_.size = there;
        auto things = parts.things;
        if (there != parts.size_first)
            things.insert(things.begin(), InlineItem{.to = parts.size_first, .name = "size"});
        const PortRef site = b_.site(fmt::format("site.{}", text::name(line_.service)), line_.service,
                                     snap(connection.at), connection.facing, there);
        if (b_.layout.banks.size() == 1) {
            append(things, bank_things(b_, line_, parts.size_last, 1));
            to_one(site, things, largest(parts));
        } else {
            to_all(site, things, parts);
        }
    }

    void lay_between(const Line& begin, Nominal size, PortRef from, PortRef to, const std::vector<InlineItem>& things) {
        line_ = begin;
        const auto path = find(ask(from, to, size), {first_length(things), 0, sizes_first(things), 0});
        if (!path) return refuse(path.error());
        note(lay_dressed(b_, line_, from, *path, things, to));
    }

private:
    static void append(std::vector<InlineItem>& all, const std::vector<InlineItem>& more) {
        all.insert(all.end(), more.begin(), more.end());
    }
    [[nodiscard]] Nominal largest(const MainParts& parts) const {
        return std::max({line_.size, parts.size_first, parts.size_last});
    }
    [[nodiscard]] PortRef feed(int bank) const {
        const auto found = b_.feeds.find({bank, line_.service});
        return found == b_.feeds.end() ? nowhere : found->second;
    }

    RouteRequest ask(const Port& from, const Port& to, Nominal size) const {
        Line line = line_;
        line.size = size;
        const Item* bend = b_.seek(Part::elbow, line);
        RouteRequest ask;
        ask.from = from.at, ask.from_facing = from.facing;
        ask.to = to.at, ask.to_facing = to.facing;
        ask.radius = bend ? bend->outside.value() / 2 : b_.bore(line);
        ask.clearance = clearance_of(line_.service);
        ask.turn = bend ? bend->run.value() : 0;
        ask.turn_price = turn_price;
        ask.least = ask.first = ask.last = shortest(line.material, size);
        const double over = b_.space.ceiling().lowest(shape::box_of(from.at, to.at));
        ask.levels = {snap(over - below_ceiling(line_.service))};
        ask.keep_off = keep_off_;
        ask.keep_off.insert(ask.keep_off.end(), b_.reserved.begin(), b_.reserved.end());
        return ask;
    }

    /// The pieces at a route's ends do not stand in its way.
    RouteRequest ask(PortRef from, PortRef to, Nominal size) const {
        RouteRequest ask = this->ask(b_.at(from), b_.at(to), size);
        ask.from_owner = from.piece;
        ask.to_owner = to.piece;
        return ask;
    }

    /// Straight length beyond the feed end that leaves the mains of the other services room to rise before this one:
    /// hot rises first, cold past it, gas outermost.
    [[nodiscard]] double stagger() const {
        constexpr double each = 5.5 * inch_m;
        return line_.service == Service::hot ? 0 : line_.service == Service::cold ? each : 2 * each;
    }

    /// Straight lengths wanted at the ends of a way, and those that changes of size alone take, metres.
    struct Ends {
        double first = 0, last = 0, least_first = 0, least_last = 0;
    };

    /// Tries the wishes for straight lengths at the ends first, quickly, then does without them.
    Result<std::vector<Vec>> find(const RouteRequest& ask, const Ends& ends) const {
        std::vector<std::pair<double, double>> wishes{{ends.first, ends.last},
                                                      {ends.first, ends.least_last},
                                                      {ends.least_first, ends.last},
                                                      {ends.least_first, ends.least_last},
                                                      {0, 0}};
        for (auto& [begin, end] : wishes) begin = std::max(begin, ask.first), end = std::max(end, ask.last);
        wishes.erase(std::unique(wishes.begin(), wishes.end()), wishes.end());
        const auto with = [&](Detail detail, const std::pair<double, double>& wish) {
            RouteRequest now = ask;
            now.detail = detail;
            std::tie(now.first, now.last) = wish;
            auto found = find_route(b_.space, now);
            if (found && route::nears_itself(ask.from, *found, 2 * ask.radius + inch_m))
                return Result<std::vector<Vec>>(
                    fail("the only way found passes too near itself", "another point of connection"));
            return found;
        };
        std::optional<Error> why;
        for (Detail detail : {Detail::coarse, Detail::middle})
            for (const auto& wish : wishes) {
                auto found = with(detail, wish);
                if (found) return found;
                why = std::move(found.error());
            }
        if (how_ == Thoroughness::searched) return with(Detail::fine, wishes.back());
        return tl::unexpected(std::move(*why));
    }

    void refuse(const Error& error) {
        b_.give_up(fmt::format("{} main: {}", text::name(line_.service), error.what), error.expected);
    }

    void note(const Dressed& dressed) {
        for (const auto& outlet : dressed.outlets) outlets_.push_back(outlet);
        for (const auto& name : dressed.left_out) left_out(name);
    }

    void left_out(const std::string& name) {
        if (name == "size" || name.ends_with("reduced")) {
            b_.give_up(fmt::format("{}: no straight leg is long enough for its change of size", line_.name),
                       "the point of connection farther from the banks");
            return;
        }
        reason::Check check;
        check.id = fmt::format("parts.main.{}.{}", text::name(line_.service), name);
        check.title = fmt::format("Room for the {} in the {} main", name, text::name(line_.service));
        check.service = "parts";
        check.status = reason::Status::fail;
        check.says = "No straight leg of the main has room for it; it is not in the plant.";
        check.sources = {reason::Source{"", "", "", reason::Standing::common_practice}};
        b_.finding(std::move(check));
    }

    /// Length wanted before the first turn: what must stand close to the connection.
    [[nodiscard]] double first_length(const std::vector<InlineItem>& things) const {
        std::vector<InlineItem> near;
        for (const auto& thing : things) {
            near.push_back(thing);
            if (thing.item) break;
        }
        Nominal size = line_.size;
        return length_of(b_, line_, near, size);
    }

    /// Straight length the changes of size take that stand first, without which nothing else can be laid.
    [[nodiscard]] double sizes_first(const std::vector<InlineItem>& things) const {
        std::vector<InlineItem> changes;
        for (const auto& thing : things) {
            if (!thing.changes_size()) break;
            changes.push_back(thing);
        }
        Nominal size = line_.size;
        return length_of(b_, line_, changes, size);
    }
    /// The same of those that stand last.
    [[nodiscard]] double sizes_last(const std::vector<InlineItem>& things) const {
        auto from = things.end();
        while (from != things.begin() && std::prev(from)->changes_size()) --from;
        Nominal size = line_.size;
        for (auto thing = things.begin(); thing != from; ++thing)
            if (thing->changes_size()) size = thing->to;
        return length_of(b_, line_, {from, things.end()}, size);
    }

    void to_one(PortRef site, const std::vector<InlineItem>& things, Nominal size) {
        const PortRef end = feed(1);
        if (end == nowhere || !b_.ok()) return;
        const double change = sizes_last(things);
        const auto path = find(ask(site, end, size),
                               {first_length(things), std::max(stagger(), change), sizes_first(things), change});
        if (!path) return refuse(path.error());
        note(lay_dressed(b_, line_, site, *path, things, end));
    }

    struct Choice {
        std::size_t leg = 0;
        Vec middle, side;
        std::vector<Vec> path;  ///< from the tee's outlet to the other bank
        double price = 1e9;
    };

    static std::vector<KeepOff> bars(Vec from, const std::vector<Vec>& path, double radius) {
        std::vector<KeepOff> boxes;
        for (const Vec& corner : path) {
            boxes.push_back({shape::bounds(shape::Cylinder{from, corner, radius}), "the way to the first bank"});
            from = corner;
        }
        return boxes;
    }

    /// Straight length the things that found no room on earlier legs still take on each leg.
    std::vector<double> things_before(const Port& site, const std::vector<Vec>& path,
                                      const std::vector<InlineItem>& things) const {
        std::vector<double> needed;
        Line line = line_;
        std::size_t next = 0;
        Vec from = site.at;
        for (std::size_t leg = 0; leg < path.size(); ++leg) {
            const std::vector<InlineItem> rest(things.begin() + static_cast<std::ptrdiff_t>(next), things.end());
            Nominal size = line.size;
            needed.push_back(length_of(b_, line, rest, size));
            const Item* bend = b_.seek(Part::elbow, line);
            const double ends = (leg == 0 ? 1 : 2) * (bend ? bend->run.value() : 0);
            next += things_that_fit(b_, line, things, next, shape::distance(from, path[leg]) - ends);
            from = path[leg];
        }
        return needed;
    }

    /// Where on a route the tee to another bank stands best: the cheapest way on from a few points of each leg.
    Choice choose_tee(const Port& site, const std::vector<Vec>& path, const Port& other, const MainParts& parts,
                      const std::vector<InlineItem>& things, Nominal branch) {
        Line line = line_;
        line.size = parts.size_last;
        const Item *tee = nullptr, *bend = b_.seek(Part::elbow, line);
        for (int e = branch.eighths; e <= line.size.eighths && !tee; ++e) tee = b_.seek(Part::tee, line, Nominal{e});
        if (!tee || !bend) return {};
        std::vector<TeePlace> places;
        const double nipple = shortest(line.material, line.size), half = tee->run.value() + nipple;
        const auto needed = things_before(site, path, things);
        const auto own_way = bars(site.at, path, tee->outside.value() / 2);
        const double turn = ask(site, other, branch).turn;
        Vec from = site.at;
        for (std::size_t leg = 0; leg < path.size(); ++leg) {
            const Vec way = path[leg] - from;
            const double length = shape::length(way);
            const Vec along = (1 / length) * way;
            const double low = half + (leg == 0 ? 0.0 : bend->run.value()) + needed[leg];
            const double high = length - half - (leg + 1 < path.size() ? bend->run.value() : 0);
            if (low <= high) add_tee_places(places, {leg, from, along, low, high}, other, *tee, turn);
            from = path[leg];
        }
        return cheapest(std::move(places), other, *tee, branch, own_way);
    }

    Choice cheapest(std::vector<TeePlace> places, const Port& other, const Item& tee, Nominal branch,
                    const std::vector<KeepOff>& own_way) const {
        std::ranges::stable_sort(places, {}, &TeePlace::least);
        Choice best;
        for (const auto& place : places) {
            if (place.least >= best.price) break;
            Port outlet;
            outlet.at = place.middle + tee.stem.value() * place.side;
            outlet.facing = place.side;
            RouteRequest on = ask(outlet, other, branch);
            on.detail = Detail::coarse;
            on.most = best.price;
            on.keep_off.insert(on.keep_off.end(), own_way.begin(), own_way.end());
            auto path = find_route(b_.space, on);
            if (!path) continue;
            const double cost = price_of(outlet.at, *path);
            if (cost < best.price) best = {place.leg, place.middle, place.side, std::move(*path), cost};
        }
        return best;
    }

    void to_all(PortRef site, const std::vector<InlineItem>& things, const MainParts& parts) {
        const PortRef near = feed(1), far = feed(2);
        if (b_.layout.banks.size() > 2) {
            b_.give_up(fmt::format("{} banks are asked for", b_.layout.banks.size()), "two banks at most");
            return;
        }
        if (near == nowhere || far == nowhere || !b_.ok()) return;
        std::optional<Error> why;
        // feed first the bank that leaves the shorter whole
        for (const auto& [one, other, number] : {std::tuple(near, far, 1), std::tuple(far, near, 2)}) {
            if (try_two(site, one, other, number, things, parts, why) || !b_.ok()) return;
        }
        refuse(why.value_or(Error{"no place for the tee between the banks", "a longer way from the connection", {}}));
    }

    bool try_two(PortRef site, PortRef one, PortRef other, int number, const std::vector<InlineItem>& things,
                 const MainParts& parts, std::optional<Error>& why) {
        const auto here = bank_things(b_, line_, parts.size_last, number);
        const auto there = bank_things(b_, line_, bank_size(b_, line_.service, 3 - number), 3 - number);
        Nominal size = parts.size_last;
        const double last = length_of(b_, line_, here, size);
        Line main = line_;
        main.size = parts.size_last;
        const double change = [&] {
            Nominal from = parts.size_last;
            std::vector<InlineItem> changes;
            std::ranges::copy_if(here, std::back_inserter(changes), &InlineItem::changes_size);
            return length_of(b_, main, changes, from);
        }();
        const Nominal branch = bank_size(b_, line_.service, 3 - number);
        // everything and the tee on the first leg, where no way found without that wish leaves the tee a place
        for (const double first : {first_length(things), length_with_tee(things, branch)}) {
            const auto path =
                find(ask(site, one, largest(parts)), {first, std::max(last, stagger()), sizes_first(things), change});
            if (!path) {
                why = path.error();
                return false;
            }
            const Choice choice = choose_tee(b_.at(site), *path, b_.at(other), parts, things, branch);
            if (choice.path.empty()) continue;
            lay_two(site, one, other, *path, choice, things, here, there, branch);
            return true;
        }
        return false;
    }

    [[nodiscard]] double length_with_tee(std::vector<InlineItem> things, Nominal branch) const {
        InlineItem tee;
        tee.outlet = branch;
        things.push_back(tee);
        Nominal size = line_.size;
        return length_of(b_, line_, things, size);
    }

    void lay_two(PortRef site, PortRef one, PortRef other, const std::vector<Vec>& path, const Choice& choice,
                 const std::vector<InlineItem>& things, const std::vector<InlineItem>& here,
                 const std::vector<InlineItem>& there, Nominal branch) {
        std::vector<Vec> before(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(choice.leg));
        const Vec from = choice.leg == 0 ? b_.at(site).at : path[choice.leg - 1];
        const Vec along = (1 / shape::distance(from, path[choice.leg])) * (path[choice.leg] - from);
        Line line = line_;
        line.size = last_size(things);
        const Item* tee = nullptr;
        for (int e = branch.eighths; e <= line.size.eighths && !tee; ++e) tee = b_.seek(Part::tee, line, Nominal{e});
        if (!tee) return;
        before.push_back(choice.middle - tee->run.value() * along);
        Dressed first = lay_dressed(b_, line_, site, before, things);
        // what found no room before the tee goes on the way to the first bank only where it is no shared thing
        note(first);
        if (!b_.ok()) return;
        const Fork fork = b_.tee(line, first.end, choice.side, branch, "split");
        const std::vector<Vec> rest(path.begin() + static_cast<std::ptrdiff_t>(choice.leg), path.end());
        note(lay_dressed(b_, line, fork.on, rest, here, one));
        Line smaller = line;
        smaller.size = branch;
        if (!b_.ok()) return;
        // once more, now that the first way stands in the room
        Nominal at_valve = branch;
        const double last = std::max(length_of(b_, smaller, there, at_valve), stagger());
        const auto on = find(ask(fork.branch, other, branch), {0, last, 0, 0});
        if (!on) return refuse(on.error());
        note(lay_dressed(b_, smaller, fork.branch, *on, there, other));
    }

    [[nodiscard]] Nominal last_size(const std::vector<InlineItem>& things) const {
        Nominal size = line_.size;
        for (const auto& thing : things)
            if (thing.to.eighths > 0) size = thing.to;
        return size;
    }

    Builder& b_;
    Thoroughness how_;
    Line line_;
    std::vector<KeepOff> keep_off_;

public:
    std::vector<Outlet> outlets_;
};

}  // namespace

void lay_routed(Builder& b, const Line& begin, Nominal largest, PortRef from, PortRef to,
                const std::vector<InlineItem>& things) {
    if (!b.ok()) return;
    Main main(b, begin.service, Thoroughness::searched);
    main.lay_between(begin, largest, from, to, things);
}

std::optional<Service> add_mains(Builder& b, std::span<const Service> order, Thoroughness how) {
    std::vector<Outlet> outlets;
    for (Service service : order) {
        Main main(b, service, how);
        main.lay();
        if (!b.ok()) return service;
        outlets.insert(outlets.end(), main.outlets_.begin(), main.outlets_.end());
    }
    finish_outlets(b, outlets);
    return std::nullopt;
}

}  // namespace bw::piping
