// SPDX-License-Identifier: MIT
#include "route/clearance_map.h"
#include "units/constants.h"

#include <algorithm>
#include <cmath>

namespace bw::route {
namespace {
constexpr double cell = 0.3048;
using units::tolerance;
constexpr double touch = tolerance;
using units::grid;
constexpr double widest_pipe = 12 * 0.0254;
}  // namespace

ClearanceMap::ClearanceMap(const shape::Polygon& plan, const shape::Ceiling& ceiling) : plan_(plan), ceiling_(ceiling) {
    if (plan.empty()) return;
    hull_ = shape::bounds(plan);
    for (const auto& p : plan) hull_.max.z = std::max(hull_.max.z, ceiling.at(p));
    rectangle_ = std::abs(shape::signed_area(plan) - (hull_.max.x - hull_.min.x) * (hull_.max.y - hull_.min.y)) < 1e-9;
    const auto across = [](double length) { return std::clamp(static_cast<int>(std::ceil(length / cell)), 1, 200); };
    count_[0] = across(hull_.max.x - hull_.min.x);
    count_[1] = across(hull_.max.y - hull_.min.y);
    count_[2] = across(hull_.max.z);
    cells_.resize(
        static_cast<std::size_t>(count_[0]) * static_cast<std::size_t>(count_[1]) * static_cast<std::size_t>(count_[2]),
        -1);
    for (int y = 0; y < count_[1]; ++y)
        for (int x = 0; x < count_[0]; ++x) {
            const shape::Vec low{hull_.min.x + x * cell, hull_.min.y + y * cell, 0},
                high = low + shape::Vec{cell, cell, 0};
            whole_.push_back(shape::contains(plan, {low, high}, 0));
        }
}

bool ClearanceMap::cells(const shape::Box& box, int (&low)[3], int (&high)[3]) const {
    const double from[3] = {box.min.x - hull_.min.x, box.min.y - hull_.min.y, box.min.z};
    const double to[3] = {box.max.x - hull_.min.x, box.max.y - hull_.min.y, box.max.z};
    for (int axis = 0; axis < 3; ++axis) {
        low[axis] = std::clamp(static_cast<int>(std::floor(from[axis] / cell)), 0, count_[axis] - 1);
        high[axis] = std::clamp(static_cast<int>(std::floor(to[axis] / cell)), 0, count_[axis] - 1);
    }
    return !cells_.empty();
}

void ClearanceMap::take(const shape::Box& box, int owner, std::string what) {
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

std::optional<int> ClearanceMap::taken(const shape::Box& box, int but, int also_but) const {
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

bool ClearanceMap::under_ceiling(const shape::Box& box) const {
    if (box.max.z <= ceiling_.lowest(box) + tolerance) return true;
    if (ceiling_.level() || box.max.x - box.min.x > widest_pipe || box.max.y - box.min.y > widest_pipe) return false;
    const double middle = ceiling_.at((box.min.x + box.max.x) / 2, (box.min.y + box.max.y) / 2);
    return box.max.z <= middle + tolerance && box.max.z > middle - 4 * grid;
}

bool ClearanceMap::in_room(const shape::Box& box) const {
    if (box.min.z < -tolerance || !under_ceiling(box)) return false;
    if (box.min.x < hull_.min.x - tolerance || box.max.x > hull_.max.x + tolerance ||
        box.min.y < hull_.min.y - tolerance || box.max.y > hull_.max.y + tolerance)
        return false;
    if (rectangle_) return true;
    int low[3], high[3];
    (void)cells(box, low, high);
    for (int y = low[1]; y <= high[1]; ++y)
        for (int x = low[0]; x <= high[0]; ++x)
            if (!whole(x, y)) return shape::contains(plan_, box, tolerance);
    return true;
}

const std::string& ClearanceMap::what(int owner) const {
    static const std::string nameless = "another piece";
    const auto slot = static_cast<std::size_t>(-1 - owner);
    return owner < 0 && slot < names_.size() ? names_[slot] : nameless;
}

void ClearanceMap::keep_walkable(double height, double strip, std::vector<shape::Box> aside) {
    walk_height_ = height;
    walk_strip_ = strip;
    aside_ = std::move(aside);
}

bool ClearanceMap::walked(const shape::Vec& at) const {
    if (at.z >= walk_height_) return false;
    for (const auto& box : aside_)
        if (at.x >= box.min.x && at.x <= box.max.x && at.y >= box.min.y && at.y <= box.max.y) return false;
    if (rectangle_)
        return at.x > hull_.min.x + walk_strip_ && at.x < hull_.max.x - walk_strip_ &&
               at.y > hull_.min.y + walk_strip_ && at.y < hull_.max.y - walk_strip_;
    for (const double x : {-walk_strip_, walk_strip_})
        for (const double y : {-walk_strip_, walk_strip_}) {
            const shape::Vec corner = at + shape::Vec{x, y, 0};
            if (corner.x < hull_.min.x || corner.x > hull_.max.x || corner.y < hull_.min.y || corner.y > hull_.max.y)
                return false;
            int low[3], high[3];
            (void)cells({corner, corner}, low, high);
            if (!whole(low[0], low[1]) && !shape::inside(plan_, {corner.x, corner.y})) return false;
        }
    return true;
}

double ClearanceMap::walked_share(const shape::Vec& from, const shape::Vec& to) const {
    if (std::min(from.z, to.z) >= walk_height_) return 0;
    constexpr double step = 0.15;
    const int steps = std::clamp(static_cast<int>(std::ceil(shape::distance(from, to) / step)), 1, 64);
    int found = 0;
    for (int i = 0; i < steps; ++i) found += walked(from + ((i + 0.5) / steps) * (to - from));
    return static_cast<double>(found) / steps;
}

double walked_length(const ClearanceMap& space, shape::Vec from, const std::vector<shape::Vec>& way) {
    double length = 0;
    for (const auto& corner : way) {
        length += shape::distance(from, corner) * space.walked_share(from, corner);
        from = corner;
    }
    return length;
}

}  // namespace bw::route
