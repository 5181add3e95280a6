// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <map>
#include <set>

#include "rooms.h"

using namespace bw;
using namespace bw::layout::tests;
using testing::IsEmpty;

TEST(LayoutLaws, EveryCandidateInARandomRoomKeepsEveryConstraint) {
    std::mt19937 rng(20);
    const catalogue::Heater h = heater();
    std::map<plant::Arrangement, int> seen;
    int none = 0, split = 0;
    for (int k = 0; k < 600; ++k) {
        const survey::Survey s = random_room(rng);
        const int count = std::uniform_int_distribution<int>(1, k % 5 == 0 ? 24 : 12)(rng);
        const plant::Layouts found = layout::candidates(s, h, count);
        EXPECT_LE(found.candidates.size(), 24u);
        EXPECT_GE(found.weighed, static_cast<int>(found.candidates.size()));
        if (found.candidates.empty()) {
            ++none;
            EXPECT_FALSE(found.shortfalls.empty());
        }
        std::set<std::string> ids;
        std::map<std::string, double> run;
        for (const auto& candidate : found.candidates) {
            EXPECT_THAT(Judge(s, h, count).faults(candidate), IsEmpty())
                << "room " << k << " " << candidate.id << " " << candidate.says;
            EXPECT_TRUE(ids.insert(candidate.id).second) << candidate.id;
            EXPECT_GE(candidate.run, run[candidate.family]) << "the shortest of a family first";
            EXPECT_FALSE(candidate.says.empty());
            run[candidate.family] = candidate.run;
            ++seen[candidate.arrangement];
            split += candidate.banks.size() > 1;
        }
        for (const auto& shortfall : found.shortfalls) {
            EXPECT_GE(shortfall.need, shortfall.have) << shortfall.what;
            EXPECT_FALSE(shortfall.remedy.empty());
        }
    }
    EXPECT_GT(seen[plant::Arrangement::wall], 100);
    EXPECT_GT(seen[plant::Arrangement::rack_one_sided], 100);
    EXPECT_GT(seen[plant::Arrangement::rack_two_sided], 100);
    EXPECT_GT(none, 20);
    EXPECT_GT(split, 50);
}

TEST(LayoutLaws, SameSurveySameCandidates) {
    std::mt19937 rng(5);
    for (int k = 0; k < 20; ++k) {
        const survey::Survey s = random_room(rng);
        const auto a = layout::candidates(s, heater(), 7), b = layout::candidates(s, heater(), 7);
        ASSERT_EQ(a.candidates.size(), b.candidates.size());
        for (std::size_t i = 0; i < a.candidates.size(); ++i) {
            EXPECT_EQ(a.candidates[i].id, b.candidates[i].id);
            EXPECT_EQ(a.candidates[i].banks.front().place.origin, b.candidates[i].banks.front().place.origin);
        }
    }
}

TEST(LayoutLaws, SixteenHeatersAreLaidOutQuickly) {
    std::mt19937 rng(9);
    double worst = 0, sum = 0;
    for (int k = 0; k < 60; ++k) {
        const survey::Survey s = random_room(rng);
        double best = 1;
        for (int again = 0; again < 3; ++again) {
            const auto from = std::chrono::steady_clock::now();
            const auto found = layout::candidates(s, heater(), 16);
            const std::chrono::duration<double> took = std::chrono::steady_clock::now() - from;
            ASSERT_FALSE(found.candidates.empty() && found.shortfalls.empty());
            best = std::min(best, took.count());
        }
        worst = std::max(worst, best);
        sum += best;
    }
    RecordProperty("worst-microseconds", static_cast<int>(worst * 1e6));
    std::printf("mean %.0f us, worst %.0f us\n", sum / 60 * 1e6, worst * 1e6);
    EXPECT_LT(worst, 0.25) << "a loose bound for slow and instrumented builds";
}
