// SPDX-License-Identifier: MIT
#include "projection/field.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace bw::projection {
namespace {

constexpr double cell_size = 0.1;  // metres: about the size of a valve
constexpr int most_cells = 400;    // each way

/// Corners of what holds a bar between two points of its axis.
void take_ball(Patch& patch, const Eye& eye, Vec centre, double radius) {
    Patch ball;
    ball.take(eye, centre);
    ball.grow(radius);
    patch.low = {std::min(patch.low.x, ball.low.x), std::min(patch.low.y, ball.low.y)};
    patch.high = {std::max(patch.high.x, ball.high.x), std::max(patch.high.y, ball.high.y)};
    patch.far = std::min(patch.far, ball.far), patch.near = std::max(patch.near, ball.near);
}

void take_box(Patch& patch, const Eye& eye, const shape::Box& box) {
    for (const double x : {box.min.x, box.max.x})
        for (const double y : {box.min.y, box.max.y})
            for (const double z : {box.min.z, box.max.z}) patch.take(eye, {x, y, z});
}

/// Patches that together hold an item, each about a cell long.
template <class Visit>
void parts(const Item& item, const Eye& eye, const Visit& visit) {
    if (const auto* bar = std::get_if<shape::Cylinder>(&item.solid)) {
        const int n = std::max(1, static_cast<int>(distance(bar->a, bar->b) / cell_size));
        for (int i = 0; i < n; ++i) {
            Patch part;
            take_ball(part, eye, bar->a + (double(i) / n) * (bar->b - bar->a), bar->radius);
            take_ball(part, eye, bar->a + (double(i + 1) / n) * (bar->b - bar->a), bar->radius);
            visit(part);
        }
    } else if (const auto* box = std::get_if<shape::Box>(&item.solid)) {
        const Vec size = box->max - box->min;
        const Vec along = size.x >= size.y && size.x >= size.z ? Vec{size.x, 0, 0}
                          : size.y >= size.z                   ? Vec{0, size.y, 0}
                                                               : Vec{0, 0, size.z};
        const int n = std::max(1, static_cast<int>(length(along) / cell_size));
        for (int i = 0; i < n; ++i) {
            Patch part;
            take_box(part, eye, {box->min + (double(i) / n) * along, box->max - (double(n - 1 - i) / n) * along});
            visit(part);
        }
    } else {
        const auto& ball = std::get<Ball>(item.solid);
        Patch part;
        take_ball(part, eye, ball.centre, ball.radius);
        visit(part);
    }
}

}  // namespace

void Patch::take(const Eye& eye, Vec v) {
    const Point p = eye(v);
    const double depth = dot(v, eye.towards);
    low = {std::min(low.x, p.x), std::min(low.y, p.y)};
    high = {std::max(high.x, p.x), std::max(high.y, p.y)};
    far = std::min(far, depth), near = std::max(near, depth);
}

void Patch::grow(double by) {
    low = {low.x - by, low.y - by}, high = {high.x + by, high.y + by};
    far -= by, near += by;
}

Field::Field(const std::vector<Item>& items, const Eye& eye) : eye_(eye), stamp_(items.size(), 0) {
    Patch all;
    for (const auto& item : items) {
        Patch patch;
        parts(item, eye, [&](const Patch& part) {
            patch.low = {std::min(patch.low.x, part.low.x), std::min(patch.low.y, part.low.y)};
            patch.high = {std::max(patch.high.x, part.high.x), std::max(patch.high.y, part.high.y)};
            patch.far = std::min(patch.far, part.far), patch.near = std::max(patch.near, part.near);
        });
        patches_.push_back(patch);
        all.low = {std::min(all.low.x, patch.low.x), std::min(all.low.y, patch.low.y)};
        all.high = {std::max(all.high.x, patch.high.x), std::max(all.high.y, patch.high.y)};
    }
    if (items.empty()) return;
    corner_ = all.low;
    across_ = std::clamp(static_cast<int>((all.high.x - all.low.x) / cell_size) + 1, 1, most_cells);
    up_ = std::clamp(static_cast<int>((all.high.y - all.low.y) / cell_size) + 1, 1, most_cells);
    cell_.resize(static_cast<std::size_t>(across_ * up_));
    for (std::size_t i = 0; i < items.size(); ++i)
        parts(items[i], eye, [&](const Patch& part) {
            cells(part, [&](std::size_t at) {
                if (cell_[at].empty() || cell_[at].back() != static_cast<int>(i))
                    cell_[at].push_back(static_cast<int>(i));
            });
        });
}

/// Cells a patch lies in; what is beyond the field counts to its border.
template <class Visit>
void Field::cells(const Patch& part, const Visit& visit) const {
    const auto index = [](double from, double to, int count) {
        return std::clamp(static_cast<int>(std::floor((to - from) / cell_size)), 0, count - 1);
    };
    const int left = index(corner_.x, part.low.x, across_), right = index(corner_.x, part.high.x, across_);
    const int low = index(corner_.y, part.low.y, up_), high = index(corner_.y, part.high.y, up_);
    for (int y = low; y <= high; ++y)
        for (int x = left; x <= right; ++x) visit(static_cast<std::size_t>(y * across_ + x));
}

void Field::before(const std::vector<Vec>& line, const Patch& whole, std::vector<int>& found) {
    found.clear();
    if (cell_.empty()) return;
    ++now_;
    const auto visit = [&](const Patch& part) {
        cells(part, [&](std::size_t at) {
            for (const int item : cell_[at]) {
                auto& stamp = stamp_[static_cast<std::size_t>(item)];
                if (stamp == now_) continue;
                const auto& other = patches_[static_cast<std::size_t>(item)];
                if (other.near <= whole.far || !other.meets(whole)) continue;
                stamp = now_;
                found.push_back(item);
            }
        });
    };
    for (std::size_t i = 1; i < line.size(); ++i) {
        const Vec way = line[i] - line[i - 1];
        const int n = std::max(1, static_cast<int>(length(way) / cell_size));
        for (int k = 0; k < n; ++k) {
            Patch part;
            part.take(eye_, line[i - 1] + (double(k) / n) * way);
            part.take(eye_, line[i - 1] + (double(k + 1) / n) * way);
            visit(part);
        }
    }
}

std::vector<std::pair<int, int>> Field::neighbours() const {
    std::vector<std::pair<int, int>> pairs;
    for (const auto& cell : cell_)
        for (std::size_t i = 0; i < cell.size(); ++i)
            for (std::size_t k = i + 1; k < cell.size(); ++k)
                if (patch(cell[i]).meets(patch(cell[k]))) pairs.emplace_back(cell[i], cell[k]);
    std::sort(pairs.begin(), pairs.end());
    pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
    return pairs;
}

}  // namespace bw::projection
