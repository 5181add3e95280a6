// SPDX-License-Identifier: MIT
// The way through the room: A* over the crossings of a few meaningful planes. One move is one straight leg, so every
// node but the first is a turn and the room its elbows need is a bound on the move's length.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <queue>

#include "piping/space.h"

namespace bw::piping {
namespace {

using shape::Vec;

constexpr double grid = 0.0254 / 16, hair = 1e-6;
constexpr double off_level = 1.35;  ///< a metre away from the levels a service likes counts as this much

double part(const Vec& v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }
void set(Vec& v, int axis, double to) { (axis == 0 ? v.x : axis == 1 ? v.y : v.z) = to; }
double on_grid(double x) { return std::round(x / grid) * grid; }

/// Directions are 2 * axis, plus 1 towards smaller coordinates.
int direction_of(const Vec& v) {
    for (int axis = 0; axis < 3; ++axis)
        if (std::abs(part(v, axis)) > 0.5) return 2 * axis + (part(v, axis) < 0 ? 1 : 0);
    return 0;
}

struct Planes {
    struct Plane {
        double at;
        bool kept;  ///< ends of the route and their first turns are never thinned out
    };
    std::array<std::vector<Plane>, 3> all;
    std::array<std::vector<double>, 3> at;

    void add(int axis, double where, bool kept = false) {
        all[static_cast<std::size_t>(axis)].push_back({on_grid(where), kept});
    }

    /// Sorts, and drops planes nearer than an inch to one that stays.
    void settle() {
        for (std::size_t axis = 0; axis < 3; ++axis) {
            auto& planes = all[axis];
            std::ranges::stable_sort(planes, [](const Plane& a, const Plane& b) {
                return a.at < b.at - hair || (std::abs(a.at - b.at) <= hair && a.kept && !b.kept);
            });
            std::vector<Plane> stay;
            for (const Plane& plane : planes) {
                const double near = plane.kept ? hair : 0.0254;
                if (!stay.empty() && plane.at - stay.back().at <= near) {
                    if (!plane.kept || plane.at - stay.back().at <= hair) continue;
                }
                while (plane.kept && !stay.empty() && !stay.back().kept && plane.at - stay.back().at < 0.0254)
                    stay.pop_back();
                stay.push_back(plane);
            }
            for (const Plane& plane : stay) at[axis].push_back(plane.at);
        }
    }
    [[nodiscard]] int index(int axis, double where) const {
        const auto& list = at[static_cast<std::size_t>(axis)];
        const auto it = std::ranges::lower_bound(list, on_grid(where) - hair);
        return static_cast<int>(it - list.begin());
    }
};

void add_end(Planes& planes, const Vec& end, const Vec& facing, double first, const Ask& ask, Detail detail) {
    const bool near = detail != Detail::coarse;
    const double pitch = std::max(2 * ask.turn + ask.least, 2 * (ask.radius + ask.clearance));
    const int ahead = direction_of(facing) / 2;
    for (int axis = 0; axis < 3; ++axis) {
        planes.add(axis, part(end, axis), true);
        if (axis == ahead) {
            const double sign = part(facing, axis) > 0 ? 1 : -1;
            for (int k = 0; k < (near ? 4 : 2); ++k)
                planes.add(axis, part(end, axis) + sign * (first + ask.turn + k * pitch), k == 0);
        } else if (near) {
            for (int k : {-2, -1, 1, 2}) planes.add(axis, part(end, axis) + k * pitch);
        }
    }
}

void add_edges(Planes& planes, const shape::Box& box, double away) {
    for (int axis = 0; axis < 3; ++axis) {
        planes.add(axis, part(box.min, axis) - away);
        planes.add(axis, part(box.max, axis) + away);
    }
}

Planes planes_of(const Space& space, const Ask& ask, Detail detail) {
    const bool fine = detail == Detail::fine;
    Planes planes;
    add_end(planes, ask.from, ask.from_facing, ask.first, ask, detail);
    add_end(planes, ask.to, ask.to_facing, ask.last, ask, detail);
    const double away = ask.radius + ask.clearance + grid;
    for (const auto& corner : space.plan()) {
        for (int axis = 0; axis < 2; ++axis) {
            const double edge = axis == 0 ? corner.x : corner.y;
            planes.add(axis, edge + away);
            planes.add(axis, edge - away);
        }
    }
    for (double level : ask.levels) planes.add(2, level, true);
    planes.add(2, space.ceiling() - away);
    constexpr double long_piece = 0.9;  // shorter pieces are passed by the planes of the ends
    for (const auto& taken : space.boxes()) {
        const bool piece = taken.owner >= 0;
        const Vec size = taken.box.max - taken.box.min;
        if (!fine || (piece && std::max({size.x, size.y, size.z}) < long_piece)) continue;
        add_edges(planes, taken.box, away);
    }
    if (fine)
        for (const auto& off : ask.keep_off) add_edges(planes, off.box, away);
    planes.settle();
    return planes;
}

class Search {
public:
    Search(const Space& space, const Ask& ask, Detail detail)
        : space_(space), ask_(ask), planes_(planes_of(space, ask, detail)) {
        for (int axis = 0; axis < 3; ++axis)
            count_[axis] = static_cast<int>(planes_.at[static_cast<std::size_t>(axis)].size());
        const auto nodes = static_cast<std::size_t>(count_[0]) * static_cast<std::size_t>(count_[1]) *
                           static_cast<std::size_t>(count_[2]);
        best_.assign(nodes * 6, 1e30F);
        before_.assign(nodes * 6, -1);
        free_.assign(nodes * 3, 0);
        goal_direction_ = direction_of(-ask.to_facing);
        level_.resize(static_cast<std::size_t>(count_[2]), ask.levels.empty());
        for (double level : ask.levels) level_[static_cast<std::size_t>(planes_.index(2, level))] = true;
    }

    Result<std::vector<Vec>> find() {
        const std::array<int, 3> from = node_of(ask_.from);
        goal_ = node_of(ask_.to);
        const int start_direction = direction_of(ask_.from_facing);
        const int start = state(from, start_direction);
        best_[static_cast<std::size_t>(start)] = 0;
        open_.push({0, start});
        while (!open_.empty()) {
            const Entry top = open_.top();
            open_.pop();
            const auto [node, direction] = unpacked(top.state);
            if (node == goal_ && direction == goal_direction_ && top.state != start) return path(top.state, start);
            const float spent = best_[static_cast<std::size_t>(top.state)];
            if (top.estimate > spent + guess(node, direction, top.state == start) + 1e-4F) continue;
            if (++expanded_ > most_expanded) break;
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
    static constexpr int most_expanded = 12000;

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

    float guess(const std::array<int, 3>& node, int direction, bool start) const {
        double way = 0;
        int legs = 0;
        for (int axis = 0; axis < 3; ++axis) {
            const double d = std::abs(coordinate(axis, node[static_cast<std::size_t>(axis)]) -
                                      coordinate(axis, goal_[static_cast<std::size_t>(axis)]));
            way += d;
            if (d > hair && (start || axis != direction / 2)) ++legs;
        }
        if (!start && direction / 2 == goal_direction_ / 2) legs = std::max(legs, 2);
        return static_cast<float>(way + ask_.turn_price * (start ? std::max(legs - 1, 0) : legs));
    }

    /// All ends of a straight leg from a node, until something is in the way.
    void go(std::array<int, 3> node, int direction, bool straight, float spent, int from_state) {
        const auto axis = static_cast<std::size_t>(direction / 2);
        const int step = direction % 2 == 0 ? 1 : -1;
        const double begin = coordinate(direction / 2, node[axis]);
        const double price = direction / 2 == 2 || level_[static_cast<std::size_t>(node[2])] ? 1.0 : off_level;
        while (true) {
            auto next = node;
            next[axis] += step;
            if (next[axis] < 0 || next[axis] >= count_[axis] || !clear(node, next, direction / 2)) return;
            node = next;
            const double length = std::abs(coordinate(direction / 2, node[axis]) - begin);
            const bool goal = node == goal_ && direction == goal_direction_;
            const double least = straight
                                     ? (goal ? std::max(ask_.least, ask_.first + ask_.last) : ask_.first + ask_.turn)
                                     : ask_.turn + (goal ? ask_.last : ask_.least + ask_.turn);
            if (length < least - hair) continue;
            const float cost = spent + static_cast<float>(length * price + (straight ? 0 : ask_.turn_price));
            const int to = state(node, direction);
            if (cost >= best_[static_cast<std::size_t>(to)] - 1e-6F) continue;
            best_[static_cast<std::size_t>(to)] = cost;
            before_[static_cast<std::size_t>(to)] = from_state;
            open_.push({cost + (goal ? 0 : guess(node, direction, false)), to});
        }
    }

    /// Whether the pipe may pass between two neighbouring nodes; remembered.
    bool clear(const std::array<int, 3>& a, const std::array<int, 3>& b, int axis) {
        const auto& low = a[static_cast<std::size_t>(axis)] < b[static_cast<std::size_t>(axis)] ? a : b;
        char& known = free_[static_cast<std::size_t>(packed(low) * 3 + axis)];
        if (known == 0) known = judge(place(a), place(b), axis) ? 1 : 2;
        return known == 1;
    }

    bool judge(const Vec& a, const Vec& b, int axis) {
        Vec low = a, high = a;
        for (int i = 0; i < 3; ++i) {
            set(low, i, std::min(part(a, i), part(b, i)));
            set(high, i, std::max(part(a, i), part(b, i)));
        }
        const auto is_end = [&](const Vec& p) {
            return shape::distance(p, ask_.from) < 1e-4 || shape::distance(p, ask_.to) < 1e-4;
        };
        const auto grown = [&](double by) {
            shape::Box box{low, high};
            for (int i = 0; i < 3; ++i) {
                if (i != axis || !is_end(low)) set(box.min, i, part(box.min, i) - by);
                if (i != axis || !is_end(high)) set(box.max, i, part(box.max, i) + by);
            }
            return box;
        };
        if (high.z > ask_.highest + hair || !space_.in_room(grown(ask_.radius))) {
            ++hits_[Space::no_owner];
            return false;
        }
        const shape::Box roomy = grown(ask_.radius + ask_.clearance);
        for (const auto& off : ask_.keep_off) {
            if (!shape::overlap(off.box, roomy, hair)) continue;
            ++kept_off_[off.what];
            return false;
        }
        const auto owner = space_.taken(roomy, ask_.from_owner, ask_.to_owner);
        if (owner) ++hits_[*owner];
        return !owner;
    }

    Result<std::vector<Vec>> path(int state, int start) const {
        std::vector<Vec> corners;
        for (; state != start; state = before_[static_cast<std::size_t>(state)])
            corners.push_back(place(unpacked(state).first));
        std::ranges::reverse(corners);
        return corners;
    }

    Result<std::vector<Vec>> blocked() const {
        int worst = Space::no_owner, most = 0;
        for (const auto& [owner, times] : hits_)
            if (owner != Space::no_owner && times > most) worst = owner, most = times;
        for (const auto& [what, times] : kept_off_)
            if (times > most) return no_way(what);
        return no_way(worst == Space::no_owner ? "the room's walls, floor and ceiling"
                      : worst < 0              ? space_.what(worst)
                                               : "pieces laid before");
    }

    tl::unexpected<Error> no_way(const std::string& in_the_way) const {
        return fail(
            fmt::format("no route from ({:.2f}, {:.2f}, {:.2f}) m to ({:.2f}, {:.2f}, {:.2f}) m; most in the way: {}",
                        ask_.from.x, ask_.from.y, ask_.from.z, ask_.to.x, ask_.to.y, ask_.to.z, in_the_way),
            fmt::format("{:.1f} in of clear width for the pipe with its clearance, or the connection elsewhere",
                        2 * (ask_.radius + ask_.clearance) / 0.0254));
    }

    const Space& space_;
    const Ask& ask_;
    Planes planes_;
    int count_[3] = {0, 0, 0};
    std::array<int, 3> goal_{};
    int goal_direction_ = 0, expanded_ = 0;
    std::vector<float> best_;
    std::vector<int> before_;
    std::vector<char> free_;
    std::vector<bool> level_;
    std::priority_queue<Entry> open_;
    std::map<int, int> hits_;
    std::map<std::string, int> kept_off_;
};

}  // namespace

bool nears_itself(const Vec& from, const std::vector<Vec>& way, double apart) {
    std::vector<Vec> points{from};
    points.insert(points.end(), way.begin(), way.end());
    for (std::size_t i = 0; i + 1 < points.size(); ++i)
        for (std::size_t k = i + 2; k + 1 < points.size(); ++k) {
            const auto one = shape::box_of(points[i], points[i + 1]), other = shape::box_of(points[k], points[k + 1]);
            if (shape::gap(one, other) < apart - hair) return true;
        }
    return false;
}

Result<std::vector<Vec>> route(const Space& space, const Ask& ask) {
    if (ask.detail) return Search(space, ask, *ask.detail).find();
    for (Detail detail : {Detail::coarse, Detail::middle})
        if (auto found = Search(space, ask, detail).find()) return found;
    return Search(space, ask, Detail::fine).find();
}

}  // namespace bw::piping
