// SPDX-License-Identifier: MIT
#include "layout/headroom.h"

#include <algorithm>
#include <cmath>

namespace bw::layout {
namespace {

shape::Box moved(shape::Box box, double u, double across) {
    const shape::Vec by{u, across, 0};
    return {box.min + by, box.max + by};
}

}  // namespace

Headroom headroom(const View& view, const Block& block, double u, double across) {
    std::optional<Headroom> worst;
    for (const Zone& zone : block.zones) {
        const Headroom here{zone.least_ceiling, view.ceiling.lowest(moved(zone.box, u, across)), zone.use};
        if (!worst || here.lacks() > worst->lacks()) worst = here;
    }
    return worst.value_or(Headroom{});
}

View without_ceiling(View view) {
    view.ceiling = {};
    return view;
}

std::vector<double> lines_under(const View& view, const Block& block) {
    const double rise = view.ceiling.rise_y;
    std::vector<double> out;
    if (std::abs(rise) < 1e-12 || std::abs(view.ceiling.rise_x) > 1e-12) return out;
    for (const Zone& zone : block.zones) {
        const double at = (zone.least_ceiling - view.ceiling.lowest(zone.box)) / rise;
        out.push_back(rise > 0 ? snap_up(at) : snap_down(at));
    }
    return out;
}

LeastLacking::LeastLacking(const Job& job) : job_(job) {
    for (const View& view : job.views) views_.push_back(without_ceiling(view));
}

void LeastLacking::slide(int turns, const Block& block, double across, double low, double high) {
    const View& open = view(turns);
    for (const Stretch& s : layout::slide(open, block, across, low, high)) {
        if (snap_up(s.low) > snap_down(s.high) + grid / 2) continue;
        for (const double u : {snap_up(s.low), snap_down(s.high)}) {
            const Headroom here = headroom(job_.views[static_cast<std::size_t>(turns)], block, u, across);
            if (!least_ || here.lacks() < least_->lacks()) least_ = here;
        }
    }
}

}  // namespace bw::layout
