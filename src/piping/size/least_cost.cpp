// SPDX-License-Identifier: MIT
#include "piping/size/least_cost.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <queue>
#include <tuple>
#include <utility>

namespace bw::piping {
namespace {

/// A way to lay all that lies behind, by what it costs and what its worst way loses.
struct Point {
    double loss = 0, cost = 0;
    std::vector<std::pair<int, int>> picks;  ///< by stretch next behind: its size, and the point there
};
using Frontier = std::vector<Point>;  ///< by rising loss and falling cost

void keep_the_best(Frontier& points) {
    std::ranges::stable_sort(
        points, [](const Point& a, const Point& b) { return std::tie(a.loss, a.cost) < std::tie(b.loss, b.cost); });
    double cheapest = std::numeric_limits<double>::infinity();
    std::erase_if(points, [&](const Point& p) {
        if (p.cost >= cheapest) return true;
        cheapest = p.cost;
        return false;
    });
}

/// Both together: a loss is borne by each, the costs add up.
Frontier both(const Frontier& a, const Frontier& b) {
    Frontier out;
    for (std::size_t i = 0, k = 0; i < a.size() && k < b.size();) {
        // the next loss at which either becomes cheaper
        while (i + 1 < a.size() && a[i + 1].loss <= std::max(a[i].loss, b[k].loss)) ++i;
        while (k + 1 < b.size() && b[k + 1].loss <= std::max(a[i].loss, b[k].loss)) ++k;
        Point point{std::max(a[i].loss, b[k].loss), a[i].cost + b[k].cost, a[i].picks};
        point.picks.insert(point.picks.end(), b[k].picks.begin(), b[k].picks.end());
        out.push_back(std::move(point));
        const double next_a = i + 1 < a.size() ? a[i + 1].loss : std::numeric_limits<double>::infinity();
        const double next_b = k + 1 < b.size() ? b[k + 1].loss : std::numeric_limits<double>::infinity();
        if (next_a == next_b && i + 1 >= a.size()) break;
        (next_a <= next_b ? i : k) += 1;
    }
    return out;
}

class Tree {
public:
    Tree(const std::vector<Stretch>& stretches, double most, const Change& change)
        : stretches_(stretches), most_(most), change_(change), behind_(stretches.size()), best_(stretches.size()) {}

    std::optional<LeastCost> solve() {
        for (std::size_t i = stretches_.size(); i-- > 0;) {
            for (std::size_t size = 0; size < stretches_[i].offers.size(); ++size)
                best_[i].push_back(frontier(i, static_cast<int>(size)));
            if (stretches_[i].before >= 0)
                behind_[static_cast<std::size_t>(stretches_[i].before)].insert(
                    behind_[static_cast<std::size_t>(stretches_[i].before)].begin(), i);
        }
        LeastCost found;
        found.size.assign(stretches_.size(), -1);
        for (std::size_t i = 0; i < stretches_.size(); ++i) {
            if (stretches_[i].before >= 0) continue;
            const auto [size, point] = cheapest_of(best_[i]);
            if (size < 0) return std::nullopt;
            found.cost += at(i, size, point).cost;
            found.loss = std::max(found.loss, at(i, size, point).loss);
            take(found, i, size, point);
        }
        return found;
    }

private:
    const Point& at(std::size_t stretch, int size, int point) const {
        return best_[stretch][static_cast<std::size_t>(size)][static_cast<std::size_t>(point)];
    }

    Frontier frontier(std::size_t i, int size) const {
        const auto& offer = stretches_[i].offers[static_cast<std::size_t>(size)];
        if (!offer) return {};
        Frontier all{Point{}};
        for (const std::size_t next : behind_[i]) all = both(all, seen_from(size, next));
        for (auto& point : all) point.loss += offer->loss, point.cost += offer->cost;
        std::erase_if(all, [&](const Point& p) { return p.loss > most_; });
        return all;
    }

    /// The next stretch's frontier over all sizes it may have behind one of this size.
    Frontier seen_from(int size, std::size_t next) const {
        Frontier seen;
        const auto behind = stretches_[next].behind;
        for (int its = 0; its < static_cast<int>(best_[next].size()); ++its) {
            if (behind == Stretch::Behind::same && its != size) continue;
            if (behind == Stretch::Behind::no_larger && its > size) continue;
            const double more = behind == Stretch::Behind::no_larger && its != size ? change_(next, size, its) : 0;
            if (!std::isfinite(more)) continue;
            const auto& points = best_[next][static_cast<std::size_t>(its)];
            for (int k = 0; k < static_cast<int>(points.size()); ++k)
                seen.push_back({points[static_cast<std::size_t>(k)].loss,
                                points[static_cast<std::size_t>(k)].cost + more,
                                {{its, k}}});
        }
        keep_the_best(seen);
        return seen;
    }

    static std::pair<int, int> cheapest_of(const std::vector<Frontier>& by_size) {
        std::pair<int, int> best{-1, -1};
        double least = std::numeric_limits<double>::infinity();
        for (int size = 0; size < static_cast<int>(by_size.size()); ++size) {
            const auto& points = by_size[static_cast<std::size_t>(size)];
            if (points.empty() || points.back().cost >= least) continue;
            least = points.back().cost;
            best = {size, static_cast<int>(points.size()) - 1};
        }
        return best;
    }

    void take(LeastCost& found, std::size_t i, int size, int point) const {
        found.size[i] = size;
        const auto& picks = at(i, size, point).picks;
        for (std::size_t k = 0; k < behind_[i].size(); ++k) take(found, behind_[i][k], picks[k].first, picks[k].second);
    }

    const std::vector<Stretch>& stretches_;
    double most_;
    const Change& change_;
    std::vector<std::vector<std::size_t>> behind_;
    std::vector<std::vector<Frontier>> best_;  ///< by stretch and size
};

}  // namespace

std::optional<LeastCost> least_cost(const std::vector<Stretch>& stretches, double most, const Change& change) {
    return Tree(stretches, most, change).solve();
}

Cheapest cheapest(const std::vector<std::vector<double>>& costs, int most,
                  const std::function<bool(const std::vector<int>&)>& passes) {
    struct Choice {
        double cost;
        std::vector<int> option;
        std::size_t last;  ///< list last moved along; earlier ones stay, so that each choice comes once
        bool operator<(const Choice& other) const {
            return std::tie(other.cost, other.option) < std::tie(cost, option);
        }
    };
    Cheapest found;
    Choice first{0, std::vector<int>(costs.size()), 0};
    for (const auto& list : costs) {
        if (list.empty()) return found;
        first.cost += list.front();
    }
    std::priority_queue<Choice> waiting;
    waiting.push(std::move(first));
    while (!waiting.empty() && found.tried < most) {
        const Choice choice = waiting.top();
        waiting.pop();
        ++found.tried;
        found.bound = choice.cost;
        if (passes(choice.option)) {
            found.option = choice.option;
            return found;
        }
        for (std::size_t i = choice.last; i < costs.size(); ++i) {
            const auto at = static_cast<std::size_t>(choice.option[i]);
            if (at + 1 >= costs[i].size()) continue;
            Choice next = choice;
            next.cost += costs[i][at + 1] - costs[i][at];
            ++next.option[i];
            next.last = i;
            waiting.push(std::move(next));
        }
    }
    return found;
}

}  // namespace bw::piping
