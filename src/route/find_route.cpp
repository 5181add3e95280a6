// SPDX-License-Identifier: MIT
// The way through the room: A* over the crossings of a few meaningful planes. One move is one straight leg, so every
// node but the first is a turn and the room its elbows need is a bound on the move's length.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <map>
#include <memory>
#include <new>
#include <queue>

#include "route/clearance_map.h"
#include "route/planes.h"
#include "units/constants.h"

namespace bw::route {
namespace {

using shape::Vec;

using units::tolerance;
constexpr double off_level = 1.35;  ///< a metre away from the levels a service likes counts as this much

/// Elements all zero whose memory the system gives page by page as it is touched: a search's room has up to a million
/// states, of which most routes look at a few hundred.
template <class T>
class Untouched {
public:
    /// Forgets what there is where more is wanted.
    void hold(std::size_t count) {
        if (count <= count_) return;
        elements_.reset(static_cast<T*>(std::calloc(count, sizeof(T))));
        if (!elements_) throw std::bad_alloc();
        count_ = count;
    }
    T& operator[](std::size_t i) { return elements_.get()[i]; }
    const T& operator[](std::size_t i) const { return elements_.get()[i]; }

private:
    struct Free {
        void operator()(T* at) const { std::free(at); }
    };
    std::unique_ptr<T, Free> elements_;
    std::size_t count_ = 0;
};

/// What is known of a state, valid when stamped by the search that runs: the memory outlives the searches.
struct Known {
    unsigned stamp;
    float cost;
    int before;
};
struct Judged {
    unsigned stamp;
    bool free;
    float price;  ///< of a metre, by where people walk
};
struct Memory {
    unsigned stamp = 0;
    Untouched<Known> states;
    Untouched<Judged> traversals;  ///< by node and axis, to the next node
};
Memory& memory() {
    thread_local Memory memory;
    return memory;
}

class Search {
public:
    Search(const ClearanceMap& space, const RouteRequest& ask, Detail detail)
        : space_(space), ask_(ask), planes_(planes_of(space, ask, detail)) {
        for (int axis = 0; axis < 3; ++axis) count_[static_cast<std::size_t>(axis)] = planes_.count(axis);
        const auto nodes = static_cast<std::size_t>(count_[0]) * static_cast<std::size_t>(count_[1]) *
                           static_cast<std::size_t>(count_[2]);
        nodes_ = nodes;
        known_.states.hold(nodes * 6);
        known_.traversals.hold(nodes * 3);
        ++known_.stamp;
        kept_off_.assign(ask.keep_off.size(), 0);
        stride_ = {1, count_[0], count_[0] * count_[1]};
        goal_ = node_of(ask.to);
        for (int axis = 0; axis < 3; ++axis)
            for (const double at : planes_.at[static_cast<std::size_t>(axis)])
                away_[static_cast<std::size_t>(axis)].push_back(
                    static_cast<float>(std::abs(at - coordinate(axis, goal_[static_cast<std::size_t>(axis)]))));
        turn_price_ = static_cast<float>(ask.turn_price);
        goal_direction_ = direction_of(-ask.to_facing);
        goal_state_ = state(goal_, goal_direction_);
        greed_ = detail == Detail::fine ? 2.0F : 1.0F;
        // a way costs at most that much more here than by its length
        if (ask.most) dearest_ = static_cast<float>(greed_ * off_level * *ask.most);
        level_.resize(static_cast<std::size_t>(count_[2]), ask.levels.empty());
        for (double level : ask.levels) level_[static_cast<std::size_t>(planes_.index(2, level))] = true;
    }

    Result<std::vector<Vec>> find() {
        const std::array<int, 3> from = node_of(ask_.from);
        const int start_direction = direction_of(ask_.from_facing);
        const int start = state(from, start_direction);
        if (walled_in(from)) return blocked();
        know(start, 0, -1);
        open_.push({0, start});
        while (!open_.empty()) {
            const Entry top = open_.top();
            open_.pop();
            const auto [node, direction] = unpacked(top.state);
            if (top.state == goal_state_ && top.state != start) return path(top.state, start);
            const float spent = cost(top.state);
            if (top.estimate > spent + guess(node, direction, top.state == start) + 1e-4F) continue;
            if (++expanded_ > most_expanded || (dearest_ && top.estimate > *dearest_)) break;
            for (int next = 0; next < 6; ++next) {
                const bool straight = top.state == start;
                if (straight ? next != direction : next / 2 == direction / 2) continue;
                go(node, next, straight, spent, top.state);
            }
        }
        return blocked();
    }

private:
    struct Entry {
        float estimate;
        int state;
        bool operator<(const Entry& other) const {
            return estimate != other.estimate ? estimate > other.estimate : state > other.state;
        }
    };
    static constexpr int most_expanded = 5000;

    std::array<int, 3> node_of(const Vec& at) const {
        return {planes_.index(0, at.x), planes_.index(1, at.y), planes_.index(2, at.z)};
    }
    int packed(const std::array<int, 3>& n) const { return (n[2] * count_[1] + n[1]) * count_[0] + n[0]; }
    int state(const std::array<int, 3>& n, int direction) const { return packed(n) * 6 + direction; }
    std::pair<std::array<int, 3>, int> unpacked(int state) const {
        const int node = state / 6;
        return {{node % count_[0], node / count_[0] % count_[1], node / count_[0] / count_[1]}, state % 6};
    }
    double coordinate(int axis, int i) const {
        return planes_.at[static_cast<std::size_t>(axis)][static_cast<std::size_t>(i)];
    }
    Vec place(const std::array<int, 3>& n) const {
        return {coordinate(0, n[0]), coordinate(1, n[1]), coordinate(2, n[2])};
    }

    [[nodiscard]] float cost(int state) const {
        const Known& known = known_.states[static_cast<std::size_t>(state)];
        return known.stamp == known_.stamp ? known.cost : 1e30F;
    }
    void know(int state, float cost, int before) {
        known_.states[static_cast<std::size_t>(state)] = {known_.stamp, cost, before};
    }

    /// Whether the goal stands in a small pocket: the search, which comes from the other end, would look through all
    /// the room before it knew.
    bool walled_in(const std::array<int, 3>& from) {
        constexpr std::size_t pocket = 300;
        std::vector<std::array<int, 3>> reached{goal_};
        std::vector<bool> seen(nodes_);
        seen[static_cast<std::size_t>(packed(goal_))] = true;
        for (std::size_t i = 0; i < reached.size() && reached.size() < pocket; ++i) {
            const auto node = reached[i];
            if (packed(node) == packed(from)) return false;
            for (int direction = 0; direction < 6; ++direction) {
                if (i == 0 && direction != (goal_direction_ ^ 1)) continue;
                auto next = node;
                auto& along = next[static_cast<std::size_t>(direction / 2)];
                along += direction % 2 == 0 ? 1 : -1;
                if (along < 0 || along >= count_[static_cast<std::size_t>(direction / 2)]) continue;
                auto mark = seen[static_cast<std::size_t>(packed(next))];
                if (mark || !passage(packed(node), node[static_cast<std::size_t>(direction / 2)], direction).free)
                    continue;
                mark = true;
                reached.push_back(next);
            }
        }
        return reached.size() < pocket;
    }

    /// A bound on what is still to pay from a node reached along an axis; `start` needs no turn to go on.
    [[nodiscard]] float guess(const std::array<int, 3>& node, int direction, bool start) const {
        float way = 0;
        int legs = 0;
        for (int axis = 0; axis < 3; ++axis) {
            const auto d =
                away_[static_cast<std::size_t>(axis)][static_cast<std::size_t>(node[static_cast<std::size_t>(axis)])];
            way += d;
            legs += d > tolerance && (start || axis != direction / 2);
        }
        if (!start && direction / 2 == goal_direction_ / 2) legs = std::max(legs, 2);
        return greed_ * (way + turn_price_ * static_cast<float>(start ? std::max(legs - 1, 0) : legs));
    }

    /// All ends of a straight leg from a node, until something is in the way.
    void go(std::array<int, 3> node, int direction, bool straight, float spent, int from_state) {
        const auto axis = static_cast<std::size_t>(direction / 2);
        const int step = direction % 2 == 0 ? 1 : -1, stride = step * stride_[axis] * 6;
        const auto& at = planes_.at[axis];
        const double begin = at[static_cast<std::size_t>(node[axis])];
        const double price = axis == 2 || level_[static_cast<std::size_t>(node[2])] ? 1.0 : off_level;
        const double least = straight ? ask_.first + ask_.turn : 2 * ask_.turn + ask_.least;
        const double least_to_goal = straight ? std::max(ask_.least, ask_.first + ask_.last) : ask_.turn + ask_.last;
        const float paid = spent + (straight ? 0 : turn_price_);
        double dear = 0;  // the leg so far, at its price
        for (int to = state(node, direction);;) {
            const int here = node[axis];
            node[axis] += step;
            if (node[axis] < 0 || node[axis] >= count_[axis]) return;
            const Judged& step_on = passage(to / 6, here, direction);
            if (!step_on.free) return;
            dear += std::abs(at[static_cast<std::size_t>(node[axis])] - at[static_cast<std::size_t>(here)]) * price *
                    static_cast<double>(step_on.price);
            to += stride;
            const double length = std::abs(at[static_cast<std::size_t>(node[axis])] - begin);
            const bool goal = to == goal_state_;
            if (length < (goal ? least_to_goal : least) - tolerance) continue;
            const float spending = paid + static_cast<float>(dear);
            if (spending >= cost(to) - 1e-6F) continue;
            know(to, spending, from_state);
            open_.push({spending + (goal ? 0 : guess(node, direction, false)), to});
        }
    }

    /// Whether the pipe may pass from a node, which is plane `at` of the direction's axis, to the next; remembered.
    const Judged& passage(int node, int at, int direction) {
        const int axis = direction / 2,
                  low = direction % 2 == 0 ? node : node - stride_[static_cast<std::size_t>(axis)];
        Judged& known = known_.traversals[static_cast<std::size_t>(low * 3 + axis)];
        if (known.stamp != known_.stamp) {
            Vec from = place(unpacked(low * 6).first), to = from;
            set(to, axis, planes_.at[static_cast<std::size_t>(axis)][static_cast<std::size_t>(at + 1 - direction % 2)]);
            known = {known_.stamp, judge(from, to, axis), 1};
            if (known.free && ask_.walk_price > 1)
                known.price = static_cast<float>(1 + (ask_.walk_price - 1) * space_.walked_share(from, to));
        }
        return known;
    }

    [[nodiscard]] bool is_end(const Vec& p) const {
        return shape::distance(p, ask_.from) < 1e-4 || shape::distance(p, ask_.to) < 1e-4;
    }

    bool judge(const Vec& low, const Vec& high, int axis) {
        const bool from_end = is_end(low), to_end = is_end(high);
        const auto grown = [&](double by) {
            shape::Box box{low, high};
            for (int i = 0; i < 3; ++i) {
                if (i != axis || !from_end) set(box.min, i, part(box.min, i) - by);
                if (i != axis || !to_end) set(box.max, i, part(box.max, i) + by);
            }
            return box;
        };
        if (too_high(ask_, high.z) || !space_.in_room(grown(ask_.radius))) {
            ++hits_[ClearanceMap::no_owner];
            return false;
        }
        shape::Box roomy = grown(ask_.radius + ask_.clearance);
        roomy.max.z += ask_.rises;
        for (std::size_t i = 0; i < ask_.keep_off.size(); ++i)
            if (shape::overlap(ask_.keep_off[i].box, roomy, tolerance)) {
                ++kept_off_[i];
                return false;
            }
        const auto owner = space_.taken(roomy, ask_.from_owner, ask_.to_owner);
        if (owner) ++hits_[*owner];
        return !owner;
    }

    Result<std::vector<Vec>> path(int state, int start) const {
        std::vector<Vec> corners;
        for (; state != start; state = known_.states[static_cast<std::size_t>(state)].before)
            corners.push_back(place(unpacked(state).first));
        std::ranges::reverse(corners);
        return corners;
    }

    Result<std::vector<Vec>> blocked() const {
        int worst = ClearanceMap::no_owner, most = 0;
        for (const auto& [owner, times] : hits_)
            if (owner != ClearanceMap::no_owner && times > most) worst = owner, most = times;
        std::map<std::string, int> kept_off;  // a thing may be kept off by several boxes
        for (std::size_t i = 0; i < kept_off_.size(); ++i) kept_off[ask_.keep_off[i].what] += kept_off_[i];
        for (const auto& [what, times] : kept_off)
            if (times > most) return no_route(ask_, what);
        return no_route(ask_, worst == ClearanceMap::no_owner ? "the room's walls, floor and ceiling"
                              : worst < 0                     ? space_.what(worst)
                                                              : "pieces laid before");
    }

    const ClearanceMap& space_;
    const RouteRequest& ask_;
    Planes planes_;
    std::array<int, 3> count_{}, stride_{};
    std::array<std::vector<float>, 3> away_;  ///< from the goal, by plane
    float turn_price_ = 0;
    std::array<int, 3> goal_{};
    int goal_direction_ = 0, goal_state_ = 0, expanded_ = 0;
    float greed_ = 1;
    std::optional<float> dearest_;
    Memory& known_ = memory();
    std::size_t nodes_ = 0;
    std::vector<bool> level_;
    std::priority_queue<Entry> open_;
    std::map<int, int> hits_;
    std::vector<int> kept_off_;  ///< hits by index of the ask
};

}  // namespace

bool nears_itself(const Vec& from, const std::vector<Vec>& way, double apart) {
    std::vector<Vec> points{from};
    points.insert(points.end(), way.begin(), way.end());
    for (std::size_t i = 0; i + 1 < points.size(); ++i)
        for (std::size_t k = i + 2; k + 1 < points.size(); ++k) {
            const auto one = shape::box_of(points[i], points[i + 1]), other = shape::box_of(points[k], points[k + 1]);
            if (shape::gap(one, other) < apart - tolerance) return true;
        }
    return false;
}

Result<std::vector<Vec>> find_route(const ClearanceMap& space, const RouteRequest& ask) {
    if (auto shut = blocked_at_end(space, ask)) return tl::unexpected(std::move(*shut));
    if (ask.detail) return Search(space, ask, *ask.detail).find();
    for (Detail detail : {Detail::coarse, Detail::middle})
        if (auto found = Search(space, ask, detail).find()) return found;
    return Search(space, ask, Detail::fine).find();
}

}  // namespace bw::route
