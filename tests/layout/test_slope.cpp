// SPDX-License-Identifier: MIT
// Heaters under a ceiling that slopes.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "rooms.h"

using namespace bw;
using namespace bw::layout::tests;
using survey::ArrangementPreference;
using testing::HasSubstr;

namespace {

/// Falls towards a wall by index.
survey::Survey falling(survey::Survey s, int wall, double low) {
    s.room.slope = survey::CeilingSlope{wall, low * units::metre};
    return s;
}

/// Above the test heaters' bottom: heater, and clearance with the vents in it. Below it 33 in are wanted at least.
constexpr double above = 40 * in;

/// A heater so tall, 40 in, that it lacks height before whoever works on it does: 52 in above its bottom.
plant::Layouts fit(const survey::Survey& s, int count) {
    auto tall = heater();
    tall.height = 40.0 * units::inch;
    return layout::candidates(s, tall, count, 1000);
}

TEST(Slope, TheTallSideHoldsWhatTheLowSideDoesNot) {
    const auto s = falling(rectangle(30 * ft, 20 * ft, 12 * ft), 2, 73 * in);
    const auto found = fit(s, 4);
    const auto on = [&](const char* family) {
        return std::ranges::any_of(found.candidates, [&](const auto& c) { return c.family == family; });
    };
    EXPECT_TRUE(on("wall-1"));
    EXPECT_FALSE(on("wall-3"));
    const auto low = std::ranges::find(found.shortfalls, "wall-3", &plant::Shortfall::arrangement);
    ASSERT_NE(low, found.shortfalls.end());
    EXPECT_THAT(low->what, HasSubstr("the sloping ceiling is 6 ft 1 in high over the heaters at wall 3"));
    EXPECT_NEAR(low->need - low->have, 12 * in, 1e-6);
    EXPECT_THAT(low->remedy, HasSubstr("a ceiling 1 ft higher there"));
}

TEST(Slope, AWallTooShortAndTooLowIsToldBothAndOffersNoFewer) {
    auto s = falling(rectangle(10 * ft, 20 * ft, 12 * ft), 2, 73 * in);
    s.preferences.arrangement = {ArrangementPreference::wall, false};
    int lengths = 0, ceilings = 0;
    for (const auto& one : fit(s, 8).shortfalls) {
        if (one.arrangement != "wall-3") continue;
        lengths += one.what.find("heaters in line take") != std::string::npos;
        ceilings += one.what.find("sloping ceiling") != std::string::npos;
        EXPECT_EQ(one.remedy.find("or take"), std::string::npos) << one.remedy;
    }
    EXPECT_EQ(lengths, 1);
    EXPECT_EQ(ceilings, 1);
}

TEST(Slope, ARaisedCeilingByTheShortfallIsEnoughAndASixteenthLessIsNot) {
    for (const double more : {12.0, 12 - 1 / 16.0}) {
        const auto s = falling(rectangle(30 * ft, 20 * ft, 12 * ft + more * in), 2, (73 + more) * in);
        const auto found = fit(s, 4);
        const bool fits = std::ranges::any_of(found.candidates, [](const auto& c) { return c.family == "wall-3"; });
        EXPECT_EQ(fits, more == 12.0) << more;
    }
}

TEST(Slope, HeatersHangLowerUnderTheLowerPartAndNotAtAllPastIt) {
    auto s = falling(rectangle(30 * ft, 20 * ft, 12 * ft), 2, 73 * in);
    s.preferences.arrangement = {ArrangementPreference::wall, false};
    int lowered = 0;
    for (const auto& c : fit(s, 4).candidates) {
        for (const auto& bank : c.banks) {
            // the farthest towards the low wall that banks in one line reach, inches; vents end 1-1/2 in before that
            double end = 0;
            for (const auto& other : c.banks)
                if (other.wall == bank.wall)
                    for (const auto& p : {other.place({0, 0, 0}), other.place({other.length, other.depth_front, 0})})
                        end = std::max(end, p.y / in);
            const double over = 144 - 71.0 / 240 * (end - 1.5), highest = std::min(50.0, over - 52);
            ASSERT_GE(over, 85 - 1e-6) << c.id;
            EXPECT_LE(bank.bottom / in, highest + 1e-6) << c.id;
            EXPECT_GT(bank.bottom / in, highest - 2 - 1e-6) << c.id << ": heights stand 2 in apart";
            lowered += bank.bottom < 49.9 * in;
        }
    }
    EXPECT_GT(lowered, 0);
}

TEST(Slope, ARackFindsTheStripThatIsHighEnough) {
    auto s = falling(rectangle(30 * ft, 20 * ft, 10 * ft), 2, 5 * ft);
    s.preferences.arrangement = {ArrangementPreference::rack_one_sided, false};
    const auto found = fit(s, 4);
    ASSERT_FALSE(found.candidates.empty());
    for (const auto& c : found.candidates)
        for (const auto& box : c.envelopes)
            for (const double y : {box.min.y, box.max.y}) EXPECT_LE(box.max.z, 10 * ft - y * 0.25 + 1e-6) << c.id;
}

TEST(Slope, NobodyHasToWorkStooped) {
    // steep: high enough over heaters on wall 1, not over those who stand before them
    auto s = falling(rectangle(30 * ft, 12 * ft, 12 * ft), 2, 1 * ft);
    s.preferences.arrangement = {ArrangementPreference::wall, false};
    const auto found = fit(s, 4);
    for (const auto& c : found.candidates) EXPECT_EQ(c.family.find("wall-3"), std::string::npos);
    for (const auto& c : found.candidates)
        for (const auto& box : c.working_space) EXPECT_GE(12 * ft - box.max.y * 11 / 12, 78 * in - 1e-6) << c.id;
}

TEST(Slope, RandomRoomsHoldEverythingUnderTheirPlane) {
    std::mt19937 rng(9);
    int looked = 0;
    for (int k = 0; k < 80; ++k) {
        auto s = random_room(rng);
        const int wall = std::uniform_int_distribution<int>(0, static_cast<int>(s.room.plan.size()) - 1)(rng);
        const auto a = s.room.plan[static_cast<std::size_t>(wall)],
                   b = s.room.plan[static_cast<std::size_t>(wall + 1) % s.room.plan.size()];
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        double deepest = 0, behind = 0;
        const auto depth = [&](double x, double y) {
            return ((a.y - b.y) * (x - a.x) + (b.x - a.x) * (y - a.y)) / length;
        };
        for (const auto& p : s.room.plan)
            deepest = std::max(deepest, depth(p.x, p.y)), behind = std::min(behind, depth(p.x, p.y));
        if (behind < -1e-9) continue;
        const double high = s.room.ceiling->value() + 24 * in, low = high - 36 * in;
        s.room.ceiling.value = high * units::metre;
        s = falling(s, wall, low);
        for (const auto& c : layout::candidates(s, heater(), 3, 40).candidates)
            for (std::size_t i = 0; i < c.banks.size(); ++i) {
                const auto& box = c.envelopes[i];
                EXPECT_GE(c.banks[i].bottom, 33 * in - 1e-6);
                EXPECT_NEAR(box.max.z, c.banks[i].bottom + above, 1e-6);
                // between the ends, which are free of heaters and vents
                const auto& bank = c.banks[i];
                const auto over = shape::box_of(bank.place({1.5 * in, -bank.depth_back, 0}),
                                                bank.place({bank.length - 1.5 * in, bank.depth_front, 0}));
                for (const double x : {over.min.x, over.max.x})
                    for (const double y : {over.min.y, over.max.y})
                        EXPECT_LE(box.max.z, low + (high - low) * depth(x, y) / deepest + 1e-6) << c.id;
                ++looked;
            }
    }
    EXPECT_GT(looked, 200);
}

}  // namespace
