// SPDX-License-Identifier: MIT
#include "projection/order.h"

#include <cmath>
#include <set>

namespace bw::projection {
namespace {

shape::Box bounds_of(const Item& item) {
    if (const auto* box = std::get_if<shape::Box>(&item.solid)) return *box;
    if (const auto* bar = std::get_if<shape::Cylinder>(&item.solid)) return shape::bounds(*bar);
    const auto& ball = std::get<Ball>(item.solid);
    const Vec r{ball.radius, ball.radius, ball.radius};
    return {ball.centre - r, ball.centre + r};
}

/// 1 where `a` stands before `b`, -1 behind it, 0 where bounds say nothing, 2 where they cannot cover one another.
int before(const shape::Box& a, const shape::Box& b, Vec towards) {
    constexpr double hair = 1e-6;
    int told = 0;
    const auto axis = [&](double a_low, double a_high, double b_low, double b_high, double d) {
        const int side = a_low >= b_high - hair ? 1 : b_low >= a_high - hair ? -1 : 0;
        if (side == 0) return;
        const int says = std::abs(d) < hair ? 2 : d > 0 ? side : -side;
        told = told == 0 || told == says ? says : 2;
    };
    axis(a.min.x, a.max.x, b.min.x, b.max.x, towards.x);
    axis(a.min.y, a.max.y, b.min.y, b.max.y, towards.y);
    axis(a.min.z, a.max.z, b.min.z, b.max.z, towards.z);
    return told;
}

}  // namespace

std::vector<int> painted(const std::vector<Item>& items, const std::vector<bool>& shown, const Field& field,
                         const Eye& eye) {
    const std::size_t n = items.size();
    std::vector<shape::Box> box(n);
    std::vector<double> depth(n);
    for (std::size_t i = 0; i < n; ++i) {
        box[i] = bounds_of(items[i]);
        depth[i] = dot(0.5 * (box[i].min + box[i].max), eye.towards);
    }
    std::vector<std::vector<int>> covers(n);  // by item: those painted after it
    std::vector<int> waits(n, 0);
    for (const auto& [a, b] : field.neighbours()) {
        const auto i = static_cast<std::size_t>(a), k = static_cast<std::size_t>(b);
        if (!shown[i] || !shown[k]) continue;
        int told = before(box[i], box[k], eye.towards);
        if (told == 2) continue;
        if (told == 0) told = depth[i] > depth[k] ? 1 : -1;
        covers[told > 0 ? k : i].push_back(told > 0 ? a : b);
        ++waits[told > 0 ? i : k];
    }
    using Key = std::pair<double, int>;
    std::set<Key> ready, left;
    for (std::size_t i = 0; i < n; ++i)
        if (shown[i]) (waits[i] == 0 ? ready : left).emplace(depth[i], static_cast<int>(i));
    std::vector<int> order;
    while (!ready.empty() || !left.empty()) {
        auto& from = ready.empty() ? left : ready;  // a ring: its farthest goes first
        const int next = from.begin()->second;
        from.erase(from.begin());
        waits[static_cast<std::size_t>(next)] = -1;
        order.push_back(next);
        for (const int after : covers[static_cast<std::size_t>(next)]) {
            auto& wait = waits[static_cast<std::size_t>(after)];
            if (wait <= 0 || --wait > 0) continue;
            const Key key{depth[static_cast<std::size_t>(after)], after};
            left.erase(key);
            ready.insert(key);
        }
    }
    return order;
}

}  // namespace bw::projection
