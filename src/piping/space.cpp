// SPDX-License-Identifier: MIT
#include "piping/space.h"

#include <algorithm>
#include <cmath>

namespace bw::piping {
namespace {
constexpr double cell = 0.3048;
constexpr double touch = 1e-6;
}  // namespace

Space::Space(const shape::Polygon& plan, double ceiling) : plan_(plan), ceiling_(ceiling) {
    if (plan.empty()) return;
    hull_ = {{plan[0].x, plan[0].y, 0}, {plan[0].x, plan[0].y, ceiling}};
    for (const auto& p : plan) {
        hull_.min.x = std::min(hull_.min.x, p.x), hull_.min.y = std::min(hull_.min.y, p.y);
        hull_.max.x = std::max(hull_.max.x, p.x), hull_.max.y = std::max(hull_.max.y, p.y);
    }
    rectangle_ = std::abs(shape::signed_area(plan) - (hull_.max.x - hull_.min.x) * (hull_.max.y - hull_.min.y)) < 1e-9;
    const auto across = [](double length) { return std::clamp(static_cast<int>(std::ceil(length / cell)), 1, 200); };
    count_[0] = across(hull_.max.x - hull_.min.x);
    count_[1] = across(hull_.max.y - hull_.min.y);
    count_[2] = across(ceiling);
    cells_.resize(
        static_cast<std::size_t>(count_[0]) * static_cast<std::size_t>(count_[1]) * static_cast<std::size_t>(count_[2]),
        -1);
}

bool Space::cells(const shape::Box& box, int (&low)[3], int (&high)[3]) const {
    const double from[3] = {box.min.x - hull_.min.x, box.min.y - hull_.min.y, box.min.z};
    const double to[3] = {box.max.x - hull_.min.x, box.max.y - hull_.min.y, box.max.z};
    for (int axis = 0; axis < 3; ++axis) {
        low[axis] = std::clamp(static_cast<int>(std::floor(from[axis] / cell)), 0, count_[axis] - 1);
        high[axis] = std::clamp(static_cast<int>(std::floor(to[axis] / cell)), 0, count_[axis] - 1);
    }
    return !cells_.empty();
}

void Space::take(const shape::Box& box, int owner, std::string what) {
    const int index = static_cast<int>(boxes_.size());
    boxes_.push_back({box, owner});
    if (owner < 0) {
        const auto slot = static_cast<std::size_t>(-1 - owner);
        if (names_.size() <= slot) names_.resize(slot + 1);
        names_[slot] = std::move(what);
    }
    int low[3], high[3];
    if (!cells(box, low, high)) return;
    for (int z = low[2]; z <= high[2]; ++z)
        for (int y = low[1]; y <= high[1]; ++y)
            for (int x = low[0]; x <= high[0]; ++x) {
                int& first = cells_[static_cast<std::size_t>((z * count_[1] + y) * count_[0] + x)];
                links_.push_back({index, first});
                first = static_cast<int>(links_.size()) - 1;
            }
}

std::optional<int> Space::taken(const shape::Box& box, int but, int also_but) const {
    int low[3], high[3];
    if (!cells(box, low, high)) return std::nullopt;
    for (int z = low[2]; z <= high[2]; ++z)
        for (int y = low[1]; y <= high[1]; ++y)
            for (int x = low[0]; x <= high[0]; ++x)
                for (int at = cells_[static_cast<std::size_t>((z * count_[1] + y) * count_[0] + x)]; at >= 0;
                     at = links_[static_cast<std::size_t>(at)].next) {
                    const Taken& there = boxes_[static_cast<std::size_t>(links_[static_cast<std::size_t>(at)].box)];
                    if (there.owner == but || there.owner == also_but) continue;
                    if (shape::overlap(there.box, box, touch)) return there.owner;
                }
    return std::nullopt;
}

bool Space::in_room(const shape::Box& box) const {
    constexpr double hair = 1e-6;
    if (box.min.z < -hair || box.max.z > ceiling_ + hair) return false;
    if (box.min.x < hull_.min.x - hair || box.max.x > hull_.max.x + hair || box.min.y < hull_.min.y - hair ||
        box.max.y > hull_.max.y + hair)
        return false;
    return rectangle_ || shape::contains(plan_, box, hair);
}

const std::string& Space::what(int owner) const {
    static const std::string nameless = "another piece";
    const auto slot = static_cast<std::size_t>(-1 - owner);
    return owner < 0 && slot < names_.size() ? names_[slot] : nameless;
}

}  // namespace bw::piping
