// SPDX-License-Identifier: MIT
// Space to work in, by the codes' own words and arithmetic of its own; and that more room is never worse.
#include <gtest/gtest.h>

#include <set>

#include "rooms.h"

using namespace bw;
using namespace bw::layout::tests;

namespace {

bool apart(const Box& a, const Box& b) {
    constexpr double slack = 1e-5;
    return a.max.x < b.min.x + slack || b.max.x < a.min.x + slack || a.max.y < b.min.y + slack ||
           b.max.y < a.min.y + slack || a.max.z < b.min.z + slack || b.max.z < a.min.z + slack;
}

/// Crossing number, at many points.
bool within(const shape::Polygon& plan, const Box& box) {
    for (int i = 0; i <= 12; ++i)
        for (int j = 0; j <= 12; ++j) {
            const double e = 1e-4, x = box.min.x + e + (box.max.x - box.min.x - 2 * e) * i / 12;
            const double y = box.min.y + e + (box.max.y - box.min.y - 2 * e) * j / 12;
            bool odd = false;
            for (std::size_t k = 0, l = plan.size() - 1; k < plan.size(); l = k++)
                if ((plan[k].y > y) != (plan[l].y > y) &&
                    x < (plan[l].x - plan[k].x) * (y - plan[k].y) / (plan[l].y - plan[k].y) + plan[k].x)
                    odd = !odd;
            if (!odd) return false;
        }
    return true;
}

Box placed(const plant::Bank& bank, Vec low, Vec high) { return shape::box_of(bank.place(low), bank.place(high)); }

/// Heaters, and headers under them from end to end.
std::vector<Box> standing(const plant::Layout& layout, const catalogue::Heater& h) {
    std::vector<Box> out;
    for (const auto& bank : layout.banks) {
        const double deep = bank.depth_front, back = -bank.depth_back;
        out.push_back(placed(bank, {0, back, bank.wall < 0 ? 0 : bank.bottom - bank.section.gas.below},
                             {bank.length, deep, bank.bottom}));
        for (const auto& stand : bank.stands) {
            const double near = stand.side == 0 ? bank.back_plane : -bank.back_plane - h.depth.value();
            out.push_back(placed(bank, {stand.u, near, bank.bottom},
                                 {stand.u + h.width.value(), near + h.depth.value(), bank.bottom + h.height.value()}));
        }
    }
    return out;
}

bool is_free(const survey::Survey& s, const std::vector<Box>& all, const Box& box) {
    if (!within(s.room.plan, box)) return false;
    for (const auto& other : all)
        if (!apart(other, box)) return false;
    for (const auto& o : s.room.obstacles)
        if (!apart(o.box, box)) return false;
    return true;
}

/// IFGC 306.1: a level space 30 in by 30 in at the control side, here wherever it covers the heater's face.
bool can_be_worked_on(const survey::Survey& s, const catalogue::Heater& h, const std::vector<Box>& all,
                      const plant::Bank& bank, const plant::Stand& stand) {
    const double w = h.width.value(), toward = stand.side == 0 ? 1 : -1;
    const double face = bank.back_plane + h.depth.value();
    for (int k = 0; k <= 60; ++k) {
        const double low = stand.u + w - 30 * in + (30 * in - w) * k / 60;
        if (is_free(s, all, placed(bank, {low, toward * face, 0}, {low + 30 * in, toward * (face + 30 * in), 78 * in})))
            return true;
    }
    return false;
}

/// NEC 110.26(A): 36 in deep, 30 in wide wherever it covers a panel of 20 in, 6-1/2 ft high.
bool panel_has_space(const survey::Survey& s, const std::vector<Box>& all) {
    const auto& p = s.room.panel;
    const Vec along{-p.facing.y, p.facing.x, 0}, foot{p.at.x, p.at.y, 0};
    for (int k = -40; k <= 40; ++k) {
        const double middle = 5 * in * k / 40;
        const Vec a = foot + (middle - 15 * in) * along,
                  b = foot + (middle + 15 * in) * along + 36 * in * p.facing + Vec{0, 0, 78 * in};
        if (is_free(s, all, shape::box_of(a, b))) return true;
    }
    return false;
}

/// By walls: with more room uneven shares become more even ones.
std::set<std::string> families(const survey::Survey& s, int count) {
    std::set<std::string> out;
    for (const auto& c : layout::candidates(s, heater(), count, 100000).candidates)
        out.insert(c.family.substr(0, c.family.find("-share")));
    return out;
}

void expect_no_fewer(const survey::Survey& less, const survey::Survey& more, int count, const std::string& what) {
    const auto had = families(less, count), has = families(more, count);
    for (const auto& family : had) EXPECT_TRUE(has.contains(family)) << what << ": " << family << " is lost";
}

}  // namespace

TEST(WorkingSpace, EveryHeaterAndThePanelHaveTheirs) {
    std::mt19937 rng(306);
    const auto h = heater();
    int heaters = 0, panels = 0;
    for (int k = 0; k < 150; ++k) {
        const auto s = random_room(rng);
        const int count = std::uniform_int_distribution<int>(1, 9)(rng);
        const bool possible = panel_has_space(s, {});
        for (const auto& c : layout::candidates(s, h, count, 8).candidates) {
            const auto all = standing(c, h);
            for (const auto& bank : c.banks)
                for (const auto& stand : bank.stands) {
                    EXPECT_TRUE(can_be_worked_on(s, h, all, bank, stand)) << "room " << k << " " << c.id;
                    ++heaters;
                }
            EXPECT_TRUE(!possible || panel_has_space(s, all)) << "room " << k << " " << c.id;
            panels += possible;
        }
    }
    EXPECT_GT(heaters, 1000);
    EXPECT_GT(panels, 200);
}

TEST(MoreRoom, AHigherCeilingLosesNoPlace) {
    std::mt19937 rng(50);
    for (int k = 0; k < 50; ++k) {
        auto s = random_room(rng);
        const int count = std::uniform_int_distribution<int>(2, 8)(rng);
        s.room.ceiling.value = std::uniform_int_distribution<int>(66, 110)(rng) * in * units::metre;
        auto more = s;
        for (const double by : {1.0, 3.0, 9.0, 24.0}) {
            more.room.ceiling.value = s.room.ceiling.value + by * units::inch;
            expect_no_fewer(s, more, count, "room " + std::to_string(k) + " with " + std::to_string(by) + " in more");
        }
    }
}

TEST(MoreRoom, ALongerRoomLosesNoPlace) {
    std::mt19937 rng(51);
    const auto some = [&rng](int low, int high) { return std::uniform_int_distribution<int>(low, high)(rng); };
    for (int k = 0; k < 50; ++k) {
        const double x = some(80, 300) * in, y = some(80, 300) * in, by = some(1, 40) * in;
        auto s = rectangle(x, y), more = rectangle(x + by, y);
        const double door = some(2, 40) * in;
        for (auto* each : {&s, &more}) add_door(*each, 0, door, 36 * in, true);
        expect_no_fewer(s, more, some(2, 8), "room " + std::to_string(k));
    }
}
