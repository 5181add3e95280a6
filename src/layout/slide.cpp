// SPDX-License-Identifier: MIT
#include "layout/slide.h"

#include <algorithm>
#include <cmath>

namespace bw::layout {
namespace {

constexpr double touch = 1e-6;  ///< metres: rounding of places that touch

struct Blocked {
    double low, high;
    Cause cause;
};

bool keeps_off(const Blocker& blocker, Use use) {
    switch (blocker.keeps_off) {
        case Off::heaters: return use == Use::heaters;
        case Off::body: return solid(use);
        case Off::all: break;
    }
    return true;
}

class Travel {
public:
    Travel(const View& view, const Block& block, double across) : view_(view), block_(block), across_(across) {
        for (const Zone& zone : block.zones) {
            const double v_low = zone.box.min.y + across, v_high = zone.box.max.y + across;
            if (v_high - v_low <= touch) continue;
            by_walls(zone, v_low + touch, v_high - touch);
            by_blockers(zone, v_low + touch, v_high - touch);
            if (!view.ceiling.level()) by_ceiling(zone);
        }
        std::sort(blocked_.begin(), blocked_.end(), [](const Blocked& a, const Blocked& b) { return a.low < b.low; });
    }

    std::vector<Stretch> free(double low, double high) const {
        std::vector<Stretch> out;
        Stretch open{low, low, {}, {}};
        for (const Blocked& b : blocked_) {
            if (b.low > high) break;
            if (b.low >= open.low) keep(out, {open.low, b.low, open.low_cause, b.cause});
            if (b.high > open.low) {
                open.low = b.high;
                open.low_cause = b.cause;
            }
        }
        if (open.low <= high) keep(out, {open.low, high, open.low_cause, {}});
        return out;
    }

private:
    void block(const Zone& zone, double from, double to, Cause cause) {
        const double low = from - zone.box.max.x + touch, high = to - zone.box.min.x - touch;
        if (low < high) blocked_.push_back({low, high, cause});
    }

    void by_walls(const Zone& zone, double v_low, double v_high) {
        for (std::size_t i = 0; i < view_.plan.size(); ++i) {
            shape::Point a = view_.plan[i], b = view_.plan[(i + 1) % view_.plan.size()];
            if (a.y > b.y) std::swap(a, b);
            if (b.y <= v_low || a.y >= v_high) continue;
            const auto u_at = [&](double v) { return a.x + (b.x - a.x) * (v - a.y) / (b.y - a.y); };
            const double one = a.y < v_low ? u_at(v_low) : a.x, two = b.y > v_high ? u_at(v_high) : b.x;
            block(zone, std::min(one, two), std::max(one, two), {Cause::Kind::wall, static_cast<int>(i)});
        }
    }

    void by_blockers(const Zone& zone, double v_low, double v_high) {
        for (std::size_t i = 0; i < view_.blockers.size(); ++i) {
            const Blocker& b = view_.blockers[i];
            if (!keeps_off(b, zone.use)) continue;
            if (b.box.max.y <= v_low || b.box.min.y >= v_high) continue;
            if (b.box.max.z <= zone.box.min.z + touch || b.box.min.z >= zone.box.max.z - touch) continue;
            block(zone, b.box.min.x, b.box.max.x, {Cause::Kind::blocker, static_cast<int>(i)});
        }
    }

    /// The lowest ceiling over a zone changes evenly along its travel: it is too low up to a place, or from one on.
    void by_ceiling(const Zone& zone) {
        constexpr double endless = 1e6;
        shape::Box box = zone.box;
        box.min.y += across_;
        box.max.y += across_;
        const double lacks = zone.least_ceiling - view_.ceiling.lowest(box), rise = view_.ceiling.rise_x;
        const Cause cause{Cause::Kind::ceiling, 0};
        if (std::abs(rise) < 1e-12) {
            if (lacks > touch) blocked_.push_back({-endless, endless, cause});
        } else if (rise > 0) {
            blocked_.push_back({-endless, lacks / rise - touch, cause});
        } else {
            blocked_.push_back({lacks / rise + touch, endless, cause});
        }
    }

    /// No wall crosses a zone on a free stretch, so a zone whose middle is inside is inside whole.
    void keep(std::vector<Stretch>& out, Stretch s) const {
        const double at = (s.low + s.high) / 2;
        for (const Zone& zone : block_.zones) {
            const shape::Point middle{at + (zone.box.min.x + zone.box.max.x) / 2,
                                      across_ + (zone.box.min.y + zone.box.max.y) / 2};
            if (!shape::inside(view_.plan, middle)) return;
        }
        out.push_back(s);
    }

    const View& view_;
    const Block& block_;
    double across_;
    std::vector<Blocked> blocked_;
};

}  // namespace

std::vector<Stretch> slide(const View& view, const Block& block, double across, double low, double high) {
    if (low > high + touch) return {};
    return Travel(view, block, across).free(low, std::max(low, high));
}

}  // namespace bw::layout
