// SPDX-License-Identifier: MIT
#pragma once
// Rooms and a heater for the tests, and an independent judge of layouts.

#include <algorithm>
#include <cmath>
#include <random>
#include <string>
#include <vector>

#include "layout/layout.h"
#include "plant/stations.h"

namespace bw::layout::tests {

using shape::Box;
using shape::Vec;
namespace stations = plant::stations;

inline constexpr double in = 0.0254, ft = 12 * in;

inline catalogue::Heater heater() {
    using namespace units;
    catalogue::Heater h;
    h.key = "test-199";
    h.width = 18.5 * inch;
    h.height = 28.0 * inch;
    h.depth = 13.0 * inch;
    h.gap_side = 2.5 * inch;
    h.gap_top = 12.0 * inch;
    h.gap_front = 24.0 * inch;
    h.hang_height = 50.0 * inch;
    h.common_vents = {{{32}, 8, 60.0 * foot}};
    return h;
}

inline survey::Survey room(shape::Polygon plan, double ceiling = 10 * ft) {
    survey::Survey s;
    s.room.plan = std::move(plan);
    s.room.ceiling = {ceiling * units::metre, false};
    s.room.walls.resize(s.room.plan.size());
    s.preferences.most_in_line = {8, false};
    s.preferences.most_in_assembly = {16, false};
    return s;
}

inline survey::Survey rectangle(double x, double y, double ceiling = 10 * ft) {
    return room({{0, 0}, {x, 0}, {x, y}, {0, y}}, ceiling);
}

inline void add_door(survey::Survey& s, int wall, double offset, double width, bool swings_in) {
    survey::Door door;
    door.wall = wall;
    door.offset = offset * units::metre;
    door.width = width * units::metre;
    door.height = 80.0 * units::inch;
    door.swings_in = {swings_in, false};
    s.room.doors.push_back(door);
}

inline survey::Connection connection(Vec at, Vec facing) {
    survey::Connection c;
    c.given = true;
    c.at = at;
    c.facing = facing;
    return c;
}

/// Everything wrong with a layout, found by boxes and sampling of its own, without the room's geometry of `layout`.
class Judge {
public:
    Judge(const survey::Survey& s, const catalogue::Heater& h, int count) : s_(s), h_(h), count_(count) {}

    std::vector<std::string> faults(const plant::Layout& layout) {
        out_.clear();
        bodies_.clear();
        work_.clear();
        for (const auto& bank : layout.banks) take(bank);
        numbers(layout);
        inside();
        apart();
        obstacles();
        doors();
        heights(layout);
        assemblies(layout);
        if (layout.banks.size() > 0 && layout.working_space.empty()) out_.push_back("no working space");
        return out_;
    }

private:
    static Box plan_box(const plant::Bank& b, double u0, double v0, double w0, double u1, double v1, double w1) {
        const auto room = [&](double u, double v, double w) {
            static const int c[] = {1, 0, -1, 0}, sn[] = {0, 1, 0, -1};
            const int q = b.place.quarter_turns;
            return Vec{b.place.origin.x + c[q] * u - sn[q] * v, b.place.origin.y + sn[q] * u + c[q] * v,
                       b.place.origin.z + w};
        };
        const Vec p = room(u0, v0, w0), r = room(u1, v1, w1);
        return {{std::min(p.x, r.x), std::min(p.y, r.y), std::min(p.z, r.z)},
                {std::max(p.x, r.x), std::max(p.y, r.y), std::max(p.z, r.z)}};
    }

    static double shared(double a0, double a1, double b0, double b1) { return std::min(a1, b1) - std::max(a0, b0); }
    static bool clash(const Box& a, const Box& b) {
        constexpr double slack = 1e-5;
        return shared(a.min.x, a.max.x, b.min.x, b.max.x) > slack &&
               shared(a.min.y, a.max.y, b.min.y, b.max.y) > slack && shared(a.min.z, a.max.z, b.min.z, b.max.z) > slack;
    }
    void fault(const char* what, const Box& box) {
        out_.push_back(std::string(what) + " at " + std::to_string(box.min.x / ft) + ", " +
                       std::to_string(box.min.y / ft) + " to " + std::to_string(box.max.x / ft) + ", " +
                       std::to_string(box.max.y / ft) + " ft");
    }

    void take(const plant::Bank& b) {
        // vents lie inside the manufacturer's top gap; headers end where their lowest line does
        const double top = b.bottom + h_.height.value() + std::max(12 * in, h_.gap_top.value());
        double first[2] = {1e9, 1e9}, last[2] = {-1e9, -1e9};
        for (const auto& stand : b.stands) {
            first[stand.side] = std::min(first[stand.side], stand.u);
            last[stand.side] = std::max(last[stand.side], stand.u + h_.width.value());
        }
        const double from = std::min(first[0], first[1]) - h_.gap_side.value();
        const double to = std::max(last[0], last[1]) + h_.gap_side.value();
        if (b.wall >= 0) {
            const auto& s = b.section;
            const double low = std::max({s.hot.below, s.cold.below, s.gas.below, s.condensate});
            bodies_.push_back(plan_box(b, 0, -b.depth_back, b.bottom - low, b.length, b.depth_front, b.bottom));
            bodies_.push_back(plan_box(b, from, -b.depth_back, b.bottom, to, b.depth_front, top));
        } else {
            bodies_.push_back(plan_box(b, 0, -b.depth_back, 0, b.length, b.depth_front, top));
        }
        // IFGC 306.1: 30 in by 30 in of level space, or the manufacturer's depth
        const double front = std::max(30 * in, h_.gap_front.value());
        work_.push_back(plan_box(b, first[0], b.depth_front, 0, last[0], b.depth_front + front, 78 * in));
        if (b.back_plane > 0 && last[1] > first[1])
            work_.push_back(plan_box(b, first[1], -b.depth_front, 0, last[1], -b.depth_front - front, 78 * in));
        std::vector<Box> heaters;
        for (const auto& stand : b.stands) {
            const double back = stand.side == 0 ? b.back_plane : -b.back_plane;
            const double face = back + (stand.side == 0 ? 1 : -1) * h_.depth.value();
            heaters.push_back(
                plan_box(b, stand.u, back, b.bottom, stand.u + h_.width.value(), face, b.bottom + h_.height.value()));
            const double feed = b.mirrored ? b.length - stand.u - h_.width.value() : stand.u;
            const double cap = b.length - h_.width.value() - feed;
            // three elbows turning up at 4 in at the feed end; cap and hand at the other
            if (feed < 12 * in - 1e-6 || cap < std::max(4 * in, h_.gap_side.value()) - 1e-6)
                fault("ends not kept free", heaters.back());
            const double steps = stand.u / (in / 16);
            if (std::abs(steps - std::round(steps)) > 1e-3) fault("off the grid", heaters.back());
        }
        for (std::size_t i = 0; i < heaters.size(); ++i)
            for (std::size_t j = 0; j < i; ++j) {
                Box wide = heaters[i];
                const double gap = h_.gap_side.value();
                wide.min = wide.min - Vec{gap, gap, 0};
                wide.max = wide.max + Vec{gap, gap, 0};
                if (clash(wide, heaters[j])) fault("heaters too near", heaters[i]);
            }
    }

    void numbers(const plant::Layout& layout) {
        std::vector<int> seen;
        for (const auto& b : layout.banks)
            for (const auto& stand : b.stands) seen.push_back(stand.number);
        std::sort(seen.begin(), seen.end());
        for (int i = 0; i < count_; ++i)
            if (static_cast<int>(seen.size()) != count_ || seen[static_cast<std::size_t>(i)] != i + 1) {
                out_.push_back("heater numbers are not 1 to count");
                return;
            }
    }

    bool in_plan(double x, double y) const {
        bool odd = false;
        const auto& p = s_.room.plan;
        for (std::size_t i = 0, j = p.size() - 1; i < p.size(); j = i++)
            if ((p[i].y > y) != (p[j].y > y) && x < (p[j].x - p[i].x) * (y - p[i].y) / (p[j].y - p[i].y) + p[i].x)
                odd = !odd;
        return odd;
    }
    void inside() {
        for (const auto* boxes : {&bodies_, &work_})
            for (const Box& b : *boxes)
                for (int i = 0; i <= 40; ++i)
                    for (int j = 0; j <= 40; ++j) {
                        const double e = 1e-4, x = b.min.x + e + (b.max.x - b.min.x - 2 * e) * i / 40;
                        const double y = b.min.y + e + (b.max.y - b.min.y - 2 * e) * j / 40;
                        if (in_plan(x, y)) continue;
                        fault("outside the room", b);
                        i = j = 41;
                    }
    }
    void apart() {
        for (std::size_t i = 0; i < bodies_.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j)
                if (clash(bodies_[i], bodies_[j])) fault("banks overlap", bodies_[i]);
            for (const Box& w : work_)
                if (clash(bodies_[i], w)) fault("a bank stands in working space", bodies_[i]);
        }
    }
    void obstacles() {
        for (const auto& o : s_.room.obstacles)
            for (const auto* boxes : {&bodies_, &work_})
                for (const Box& b : *boxes)
                    if (clash(b, o.box)) fault("obstacle in the way", b);
    }
    void doors() {
        for (const auto& d : s_.room.doors) {
            const auto a = s_.room.plan[static_cast<std::size_t>(d.wall)];
            const auto b = s_.room.plan[static_cast<std::size_t>(d.wall + 1) % s_.room.plan.size()];
            const double len = std::hypot(b.x - a.x, b.y - a.y), ux = (b.x - a.x) / len, uy = (b.y - a.y) / len;
            const double reach = *d.swings_in ? std::max(36 * in, d.width.value()) : 36 * in;
            for (int i = 1; i < 20; ++i)
                for (int j = 1; j < 20; ++j) {
                    const double t = d.offset.value() + d.width.value() * i / 20, n = reach * j / 20;
                    const Vec p{a.x + ux * t - uy * n, a.y + uy * t + ux * n, 1.0};
                    for (const Box& body : bodies_)
                        if (p.x > body.min.x + 1e-6 && p.x < body.max.x - 1e-6 && p.y > body.min.y + 1e-6 &&
                            p.y < body.max.y - 1e-6) {
                            fault("door blocked", body);
                            return;
                        }
                }
        }
    }
    void heights(const plant::Layout& layout) {
        for (const auto& b : layout.banks) {
            const auto& s = b.section;
            const double lowest = std::max({s.hot.below, s.cold.below, s.gas.below + 5 * in, s.condensate});
            if (b.bottom < lowest + 2 * in) out_.push_back("no height for the headers");
            if (b.bottom + h_.height.value() + std::max(12 * in, h_.gap_top.value()) > s_.room.ceiling->value() + 1e-6)
                out_.push_back("too high for the ceiling");
        }
    }
    void assemblies(const plant::Layout& layout) {
        std::vector<int> in_assembly(64, 0);
        for (const auto& b : layout.banks) {
            const int n = static_cast<int>(b.stands.size());
            if (n > *s_.preferences.most_in_line) out_.push_back("too many in one line or rack");
            in_assembly[static_cast<std::size_t>(b.assembly)] += n;
            if (b.back_plane > 0) {
                const auto near =
                    std::count_if(b.stands.begin(), b.stands.end(), [](const auto& x) { return x.side == 0; });
                if (near != (n + 1) / 2) out_.push_back("two-sided rack is not half and half");
            }
        }
        for (int n : in_assembly)
            if (n > *s_.preferences.most_in_assembly) out_.push_back("too many in one assembly");
    }

    const survey::Survey& s_;
    const catalogue::Heater& h_;
    int count_;
    std::vector<Box> bodies_, work_;
    std::vector<std::string> out_;
};

inline survey::Survey random_room(std::mt19937& rng) {
    const auto some = [&rng](int low, int high) { return std::uniform_int_distribution<int>(low, high)(rng); };
    const double x = some(80, 480) * in, y = some(80, 400) * in;
    survey::Survey s;
    switch (some(0, 3)) {
        case 0: {  // an L
            const double nx = x * some(3, 7) / 10, ny = y * some(3, 7) / 10;
            const double gx = std::round(nx / in) * in, gy = std::round(ny / in) * in;
            s = room({{0, 0}, {x, 0}, {x, gy}, {gx, gy}, {gx, y}, {0, y}}, some(84, 150) * in);
            break;
        }
        case 1:  // a slanted corner
            s = room({{0, 0}, {x, 0}, {x, y - 30 * in}, {x - 40 * in, y}, {0, y}}, some(84, 150) * in);
            break;
        default: s = rectangle(x, y, some(84, 150) * in);
    }
    const int walls = static_cast<int>(s.room.plan.size());
    for (int k = some(1, 2); k > 0; --k) {
        const int wall = some(0, walls - 1);
        const auto a = s.room.plan[static_cast<std::size_t>(wall)];
        const auto b = s.room.plan[static_cast<std::size_t>(wall + 1) % s.room.plan.size()];
        const int len = static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / in);
        if (len > 44) add_door(s, wall, some(2, len - 40) * in, 36 * in, some(0, 1) == 1);
    }
    for (int k = some(0, 3); k > 0; --k) {
        const double ox = some(0, 400) * in, oy = some(0, 300) * in, oz = some(0, 1) * some(0, 90) * in;
        const Vec corner{ox, oy, oz};
        s.room.obstacles.push_back(
            {"box", {corner, corner + Vec{some(4, 60) * in, some(4, 60) * in, some(2, 80) * in}}});
    }
    s.room.gas = connection({x, y / 2, 20 * in}, {-1, 0, 0});
    s.room.cold = connection({x, y / 3, 30 * in}, {-1, 0, 0});
    s.room.panel = connection({x / 2, 0, 60 * in}, {0, 1, 0});
    return s;
}

}  // namespace bw::layout::tests
