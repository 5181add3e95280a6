// SPDX-License-Identifier: MIT
#include "piping/main/tee_choice.h"

#include <algorithm>
#include <utility>

#include "piping/main/inline_lengths.h"
#include "piping/main/tee_places.h"

namespace bw::piping {
namespace {

std::vector<KeepOff> own_way(Vec from, const std::vector<Vec>& path, double radius) {
    std::vector<KeepOff> boxes;
    for (const Vec& corner : path) {
        boxes.push_back({shape::bounds(shape::Cylinder{from, corner, radius}), "the way to the first bank"});
        from = corner;
    }
    return boxes;
}

/// Straight length the things that found no room on earlier legs still take on each leg.
std::vector<double> things_before(const Builder& b, const Trunk& trunk, const std::vector<Vec>& path) {
    std::vector<double> needed;
    Line line = trunk.line;
    std::size_t next = 0;
    Vec from = b.at(trunk.from).at;
    for (std::size_t leg = 0; leg < path.size(); ++leg) {
        needed.push_back(
            length_of(b, line, {trunk.things.begin() + static_cast<std::ptrdiff_t>(next), trunk.things.end()}));
        const Item* bend = b.seek(Part::elbow, line);
        const double ends = (leg == 0 ? 1 : 2) * (bend ? bend->run.value() : 0);
        next += things_that_fit(b, line, trunk.things, next, shape::distance(from, path[leg]) - ends);
        from = path[leg];
    }
    return needed;
}

/// The cheapest way on to the other bank's port from a few places.
class WaysOn {
public:
    WaysOn(const Builder& b, const MainRouter& router, const Port& other, const Item& tee, Nominal outlet,
           std::vector<KeepOff> keep_off)
        : b_(b), router_(router), other_(other), tee_(tee), outlet_(outlet), keep_off_(std::move(keep_off)) {}

    [[nodiscard]] std::optional<TeeChoice> cheapest(std::vector<TeePlace> places) const {
        std::ranges::stable_sort(places, {}, &TeePlace::least);
        // a closer look at the few best, where the coarse one finds none
        for (const auto& [detail, most] :
             {std::pair{Detail::coarse, places.size()}, std::pair{Detail::middle, std::size_t{8}},
              std::pair{Detail::fine, std::size_t{3}}}) {
            if (detail == Detail::fine && router_.thoroughness() == Thoroughness::simple) break;
            places.resize(std::min(places.size(), most));
            if (auto best = cheapest(places, detail)) return best;
        }
        return std::nullopt;
    }

private:
    [[nodiscard]] std::optional<TeeChoice> cheapest(const std::vector<TeePlace>& places, Detail detail) const {
        std::optional<TeeChoice> best;
        for (const auto& place : places) {
            if (best && place.least >= best->price) break;
            Port outlet;
            outlet.at = place.middle + tee_.stem.value() * place.side;
            outlet.facing = place.side;
            RouteRequest on = router_.request(outlet, other_, outlet_);
            on.detail = detail;
            if (best) on.most = best->price;
            on.keep_off.insert(on.keep_off.end(), keep_off_.begin(), keep_off_.end());
            auto path = find_route(b_.space, on);
            if (!path) continue;
            const double price = price_of(outlet.at, *path) +
                                 (router_.walk_price() - 1) * route::walked_length(b_.space, outlet.at, *path);
            if (!best || price < best->price)
                best = TeeChoice{&tee_, place.leg, place.middle, place.side, std::move(*path), price};
        }
        return best;
    }

    const Builder& b_;
    const MainRouter& router_;
    const Port& other_;
    const Item& tee_;
    Nominal outlet_;
    std::vector<KeepOff> keep_off_;
};

}  // namespace

std::optional<TeeChoice> choose_tee(const Builder& b, const MainRouter& router, const Trunk& trunk,
                                    const std::vector<Vec>& path, const Port& other, const TeeWanted& wanted) {
    const Line line = resized(trunk.line, wanted.run);
    const Item *tee = b.seek_tee(line, wanted.outlet), *bend = b.seek(Part::elbow, line);
    if (!tee || !bend) return std::nullopt;
    const Port& site = b.at(trunk.from);
    const double half = tee->run.value() + shortest(line.material, line.size);
    const double turn = router.turn(wanted.outlet);
    const auto needed = things_before(b, trunk, path);
    std::vector<TeePlace> places;
    Vec from = site.at;
    for (std::size_t leg = 0; leg < path.size(); ++leg) {
        const double length = shape::distance(from, path[leg]);
        const Vec along = (1 / length) * (path[leg] - from);
        const double low = half + (leg == 0 ? 0.0 : bend->run.value()) + needed[leg];
        const double high = length - half - (leg + 1 < path.size() ? bend->run.value() : wanted.after);
        if (low <= high) add_tee_places(places, {leg, from, along, low, high}, other, *tee, turn);
        from = path[leg];
    }
    return WaysOn(b, router, other, *tee, wanted.outlet, own_way(site.at, path, tee->outside.value() / 2))
        .cheapest(std::move(places));
}

}  // namespace bw::piping
