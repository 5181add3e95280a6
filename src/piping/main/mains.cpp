// SPDX-License-Identifier: MIT
// From the banks' feed ends to the points of connection.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <tuple>

#include "piping/main/inline_items.h"
#include "piping/main/main_parts.h"
#include "piping/main/main_way.h"
#include "piping/main/tee_places.h"
#include "reason/document.h"
#include "reason/register/register.h"

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

class Main {
public:
    Main(Builder& b, Service service, Thoroughness how)
        : b_(b),
          how_(how),
          walk_price_(b.ground.mains_cross_the_floor ? 1 : walk_price),
          keep_off_(kept_off_by_mains(b)) {
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
            to_one(site, things, largest(parts, 1));
        } else {
            std::vector<int> banks;
            for (const auto& bank : b_.layout.banks) banks.push_back(bank.number);
            to_all(site, things, parts, banks);
        }
    }

    void lay_between(const Line& begin, Nominal size, PortRef from, PortRef to, const std::vector<InlineItem>& things) {
        line_ = begin;
        const auto path = roomy(line_, from, to, size, things, {first_length(things), 0, sizes_first(things), 0});
        if (!path) return refuse(path.error());
        note(lay_dressed(b_, line_, from, *path, things, to));
    }

private:
    static void append(std::vector<InlineItem>& all, const std::vector<InlineItem>& more) {
        all.insert(all.end(), more.begin(), more.end());
    }
    [[nodiscard]] Nominal largest(const MainParts& parts, int bank) const {
        return std::max({line_.size, parts.size_first, parts.size_last, bank_size(b_, line_.service, bank)});
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
        ask.walk_price = walk_price_;
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

    /// The elbow of the size of a point of connection, or nothing for another port.
    [[nodiscard]] double stub_turn(PortRef from) const {
        if (b_.built.plant.pieces[static_cast<std::size_t>(from.piece)].part != Part::connection) return 0;
        Line line = line_;
        line.size = b_.at(from).size;
        const Item* bend = b_.seek(Part::elbow, line);
        return bend ? bend->run.value() : 0;
    }

    Result<std::vector<Vec>> find(PortRef from, PortRef to, Nominal size, const WayEnds& ends) const {
        return find_way(b_.space, ask(from, to, size), ends, how_, stub_turn(from));
    }

    void refuse(const Error& error) {
        b_.give_up(fmt::format("{} main: {}", text::name(line_.service), error.what), error.expected);
    }

    void note(const Dressed& dressed) {
        for (const auto& outlet : dressed.outlets) outlets_.push_back(outlet);
        for (const auto& name : dressed.left_out) left_out(name);
    }

    void left_out(const std::string& name) {
        const bool regulator = b_.ground.regulator_each_bank && name.ends_with("regulator");
        if (name == "size" || name.ends_with("reduced") || regulator) {
            b_.give_up(fmt::format("{}: no straight leg is long enough for {}", line_.name,
                                   regulator ? "the regulator of each bank" : "its change of size"),
                       "the point of connection farther from the banks");
            return;
        }
        const std::string service(text::name(line_.service));
        auto check = reason::new_check("parts.main.<service>.<thing>", {reason::practice()},
                                       {{"service", service, service}, {"thing", name, name}});
        check.status = reason::Status::fail;
        check.says = "No straight leg of the main has room for it; it is not in the plant.";
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

    enum class Wanted { all, sizes };  ///< what is set into a main, or only its changes of size

    /// Whether every thing wanted finds a leg with room for it.
    [[nodiscard]] bool fit(Line line, Vec from, const std::vector<Vec>& path, std::vector<InlineItem> things,
                           Wanted wanted = Wanted::all) const {
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
            const auto [count, moved, spare] = things_on_leg(
                b_, line, things, next, {from + start * along, along, length - start, leg + 1 < path.size()});
            for (std::size_t k = next; k < next + count; ++k)
                if (things[k].changes_size()) line.size = things[k].to;
            next += count;
            from = path[leg];
        }
        return next == things.size();
    }

    /// A way that turns soon and then has a leg so long.
    Result<std::vector<Vec>> aside(PortRef from, PortRef to, Nominal size, double straight, const WayEnds& ends) const {
        const RouteRequest asked = ask(from, to, size);
        const double out = snap_up(asked.first + asked.turn + 2 * inch_m);
        return find_way_aside(b_.space, asked, ends, out, straight);
    }

    /// The way found first, unless another leaves room for more: with everything on its first leg, or on its last.
    Result<std::vector<Vec>> roomy(const Line& line, PortRef from, PortRef to, Nominal size,
                                   const std::vector<InlineItem>& things, const WayEnds& ends) const {
        auto path = find(from, to, size, ends);
        const auto fits = [&](const Result<std::vector<Vec>>& way, Wanted wanted) {
            return way && fit(line, b_.at(from).at, *way, things, wanted);
        };
        if (!path || fits(path, Wanted::all)) return path;
        Nominal at_end = line.size;
        const double all = length_of(b_, line, things, at_end);
        for (const auto& [first, last] : {std::pair{all, ends.last}, {ends.first, all}, {all / 2, all / 2}}) {
            auto other =
                find(from, to, size,
                     {std::max(first, ends.first), std::max(last, ends.last), ends.least_first, ends.least_last});
            if (fits(other, Wanted::all)) return other;
        }
        const auto other = aside(from, to, size, all, ends);
        if (fits(other, Wanted::all)) return other;
        if (fits(path, Wanted::sizes)) return path;
        const double sizes = changes_length(things, line.size);
        for (const auto& way : {other, aside(from, to, size, sizes, ends), find(from, to, size, {sizes, 0, sizes, 0}),
                                find(from, to, size, {0, sizes, 0, sizes})})
            if (fits(way, Wanted::sizes)) return way;
        return path;
    }

    void to_one(PortRef site, const std::vector<InlineItem>& things, Nominal size) {
        const PortRef end = feed(1);
        if (end == nowhere || !b_.ok()) return;
        const double change = sizes_last(things);
        const auto path = roomy(line_, site, end, size, things,
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

    /// Where on a route the tee to another bank stands best: the cheapest way on from a few points of each leg. On the
    /// last it leaves `after` of straight pipe, metres.
    Choice choose_tee(const Port& site, const std::vector<Vec>& path, const Port& other, const MainParts& parts,
                      const std::vector<InlineItem>& things, Nominal branch, double after) {
        Line line = line_;
        line.size = parts.size_last;
        const Item *tee = nullptr, *bend = b_.seek(Part::elbow, line);
        tee = tee_for(line, branch);
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
            const double high = length - half - (leg + 1 < path.size() ? bend->run.value() : after);
            if (low <= high) add_tee_places(places, {leg, from, along, low, high}, other, *tee, turn);
            from = path[leg];
        }
        return cheapest(std::move(places), other, *tee, branch, own_way);
    }

    /// The tee with the outlet wanted, or the next larger.
    [[nodiscard]] const Item* tee_for(const Line& line, Nominal branch) const {
        for (int e = branch.eighths; e <= line.size.eighths; ++e)
            if (const Item* tee = b_.seek(Part::tee, line, Nominal{e})) return tee;
        return nullptr;
    }

    Choice cheapest(std::vector<TeePlace> places, const Port& other, const Item& tee, Nominal branch,
                    const std::vector<KeepOff>& own_way) const {
        std::ranges::stable_sort(places, {}, &TeePlace::least);
        // a closer look at the few best, where the coarse one finds none
        for (const auto& [detail, most] :
             {std::pair{Detail::coarse, places.size()}, std::pair{Detail::middle, std::size_t{8}},
              std::pair{Detail::fine, std::size_t{3}}}) {
            if (detail == Detail::fine && how_ == Thoroughness::simple) break;
            places.resize(std::min(places.size(), most));
            if (auto best = cheapest(places, other, tee, branch, own_way, detail); !best.path.empty()) return best;
        }
        return {};
    }

    Choice cheapest(const std::vector<TeePlace>& places, const Port& other, const Item& tee, Nominal branch,
                    const std::vector<KeepOff>& own_way, Detail detail) const {
        Choice best;
        for (const auto& place : places) {
            if (place.least >= best.price) break;
            Port outlet;
            outlet.at = place.middle + tee.stem.value() * place.side;
            outlet.facing = place.side;
            RouteRequest on = ask(outlet, other, branch);
            on.detail = detail;
            on.most = best.price;
            on.keep_off.insert(on.keep_off.end(), own_way.begin(), own_way.end());
            auto path = find_route(b_.space, on);
            if (!path) continue;
            const double cost =
                price_of(outlet.at, *path) + (walk_price_ - 1) * route::walked_length(b_.space, outlet.at, *path);
            if (cost < best.price) best = {place.leg, place.middle, place.side, std::move(*path), cost};
        }
        return best;
    }

    /// A trunk to one bank with the tee to another, and how much of what they want in it finds room.
    struct Parting {
        int one = 0, other = 0;
        std::vector<Vec> path;
        Choice choice;
        enum class Fits { none, sizes, all } fits{};
    };

    /// The trunk leads to one bank, a tee on it to another; what is left of the trunk goes on so to the rest.
    void to_all(PortRef from, const std::vector<InlineItem>& things, const MainParts& parts,
                const std::vector<int>& banks) {
        if (!b_.ok()) return;
        std::optional<Error> why;
        std::optional<Parting> best;
        // feed first the bank that leaves the shorter whole
        for (const int one : banks)
            for (const int other : banks) {
                if (one == other || feed(one) == nowhere || feed(other) == nowhere) continue;
                if (best && best->fits == Parting::Fits::all) break;
                auto parting = part_two(from, one, other, things, parts, why);
                if (!b_.ok()) return;
                if (parting && (!best || parting->fits > best->fits)) best = std::move(parting);
            }
        if (!best)
            return refuse(
                why.value_or(Error{"no place for the tee between the banks", "a longer way from the connection", {}}));
        lay_two(from, best->one, best->other, banks, best->path, best->choice, things, parts);
    }

    /// Outlet of the tee to a bank: its header's size, or the main's where that is smaller.
    [[nodiscard]] Nominal outlet_to(int bank, const MainParts& parts) const {
        return std::min(bank_size(b_, line_.service, bank), parts.size_last);
    }

    [[nodiscard]] double changes_length(const std::vector<InlineItem>& things, Nominal size) const {
        std::vector<InlineItem> changes;
        std::ranges::copy_if(things, std::back_inserter(changes), &InlineItem::changes_size);
        return length_of(b_, line_, changes, size);
    }

    /// The first that leaves both banks room for their valves and changes of size, else the best there is.
    std::optional<Parting> part_two(PortRef from, int one, int other, const std::vector<InlineItem>& things,
                                    const MainParts& parts, std::optional<Error>& why) {
        const auto here = bank_things(b_, line_, parts.size_last, one);
        Nominal size = parts.size_last;
        const double last = length_of(b_, line_, here, size), change = changes_length(here, parts.size_last);
        const Nominal branch = outlet_to(other, parts);
        // everything and the tee on the first leg, or the tee on the last, where no way found without that wish leaves
        // the tee a place
        const double ahead = first_length(things), all_ahead = length_with_tee(things, branch),
                     behind = std::max(last, stagger()), all_behind = last + length_with_tee({}, branch);
        const double most_behind = std::max(behind, all_behind);
        const std::array<std::pair<double, double>, 4> wishes{
            {{ahead, behind}, {all_ahead, behind}, {ahead, most_behind}, {all_ahead, most_behind}}};
        std::optional<Parting> best;
        for (std::size_t i = 0; i <= wishes.size(); ++i) {
            const bool turns = i == wishes.size();
            const WayEnds ends{turns ? ahead : wishes[i].first, turns ? behind : wishes[i].second, sizes_first(things),
                               change};
            auto path = turns ? aside(from, feed(one), largest(parts, one), all_ahead, ends)
                              : find(from, feed(one), largest(parts, one), ends);
            if (!path) {
                why = path.error();
                if (i == 0) return {};
                continue;
            }
            Choice choice = choose_tee(b_.at(from), *path, b_.at(feed(other)), parts, things, branch, change);
            if (choice.path.empty()) continue;
            const auto fits = [&](Wanted wanted) {
                return rest_fits(*path, choice, here, parts, other, branch, wanted);
            };
            const auto how = fits(Wanted::all)     ? Parting::Fits::all
                             : fits(Wanted::sizes) ? Parting::Fits::sizes
                                                   : Parting::Fits::none;
            if (!best || how > best->fits) best = Parting{one, other, std::move(*path), std::move(choice), how};
            if (how == Parting::Fits::all) break;
        }
        return best;
    }

    /// Whether what each bank has of its own fits beyond the tee.
    [[nodiscard]] bool rest_fits(const std::vector<Vec>& path, const Choice& choice,
                                 const std::vector<InlineItem>& here, const MainParts& parts, int other, Nominal branch,
                                 Wanted wanted) {
        Line on = line_, aside = line_;
        on.size = parts.size_last;
        aside.size = branch;
        const std::vector<Vec> rest(path.begin() + static_cast<std::ptrdiff_t>(choice.leg), path.end());
        const Item* tee = tee_for(on, branch);
        return tee && fit(on, choice.middle, rest, here, wanted) &&
               fit(aside, choice.middle + tee->stem.value() * choice.side, choice.path,
                   bank_things(b_, aside, branch, other), wanted);
    }

    [[nodiscard]] double length_with_tee(std::vector<InlineItem> things, Nominal branch) const {
        InlineItem tee;
        tee.outlet = branch;
        things.push_back(tee);
        Nominal size = line_.size;
        return length_of(b_, line_, things, size);
    }

    void lay_two(PortRef from, int one, int other, const std::vector<int>& banks, const std::vector<Vec>& path,
                 const Choice& choice, const std::vector<InlineItem>& things, const MainParts& parts) {
        std::vector<Vec> before(path.begin(), path.begin() + static_cast<std::ptrdiff_t>(choice.leg));
        const Vec corner = choice.leg == 0 ? b_.at(from).at : path[choice.leg - 1];
        const Vec along = (1 / shape::distance(corner, path[choice.leg])) * (path[choice.leg] - corner);
        const Nominal branch = outlet_to(other, parts);
        Line line = line_;
        line.size = last_size(things);
        const Item* tee = tee_for(line, branch);
        if (!tee) return;
        before.push_back(choice.middle - tee->run.value() * along);
        Dressed first = lay_dressed(b_, line_, from, before, things);
        // what found no room before the tee goes on the way to the first bank only where it is no shared thing
        note(first);
        if (!b_.ok()) return;
        const Fork fork =
            b_.tee(line, first.end, choice.side, branch, banks.size() > 2 ? fmt::format("split-{}", other) : "split");
        if (!b_.ok()) return;
        if (banks.size() == 2) {
            const std::vector<Vec> rest(path.begin() + static_cast<std::ptrdiff_t>(choice.leg), path.end());
            note(lay_dressed(b_, line, fork.on, rest, bank_things(b_, line_, parts.size_last, one), feed(one)));
        }
        lay_branch_to(fork.branch, other, branch);
        if (banks.size() == 2) return;
        auto rest = banks;
        std::erase(rest, other);
        line_.size = line.size;
        to_all(fork.on, {}, parts, rest);
    }

    /// From a tee's outlet to a bank, once more, now that the first way stands in the room.
    void lay_branch_to(PortRef outlet, int bank, Nominal branch) {
        if (!b_.ok()) return;
        Line line = line_;
        line.size = branch;
        const auto there = bank_things(b_, line, branch, bank);
        Nominal at_valve = branch;
        const double last = std::max(length_of(b_, line, there, at_valve), stagger());
        const auto on = roomy(line, outlet, feed(bank), std::max(branch, bank_size(b_, line_.service, bank)), there,
                              {0, last, 0, changes_length(there, branch)});
        if (!on) return refuse(on.error());
        note(lay_dressed(b_, line, outlet, *on, there, feed(bank)));
    }

    [[nodiscard]] Nominal last_size(const std::vector<InlineItem>& things) const {
        Nominal size = line_.size;
        for (const auto& thing : things)
            if (thing.to.eighths > 0) size = thing.to;
        return size;
    }

    Builder& b_;
    Thoroughness how_;
    double walk_price_;
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
