// SPDX-License-Identifier: MIT
// Random surveys are read or refused by name; what is read keeps the promises of survey.h.
#include <gtest/gtest.h>

#include <cmath>
#include <map>

#include "../support/random_survey.h"
#include "shape/polygon.h"
#include "survey/survey.h"

namespace bw::survey {
namespace {

constexpr std::uint64_t seeds = 500;

bool on_grid(double metres) { return std::abs(std::remainder(metres, 0.0254 / 16)) < 1e-9; }

void keeps_promises(const Survey& survey, std::uint64_t seed) {
    const auto& room = survey.room;
    EXPECT_GT(shape::signed_area(room.plan), 0) << seed;
    EXPECT_EQ(room.walls.size(), room.plan.size()) << seed;
    EXPECT_FALSE(room.doors.empty()) << seed;
    for (const auto* c : {&room.gas, &room.cold, &room.hot, &room.drain, &room.exhaust, &room.panel}) {
        EXPECT_TRUE(c->given) << seed;
        EXPECT_TRUE(shape::inside(room.plan, {c->at.x, c->at.y})) << seed;
        EXPECT_NEAR(shape::length(c->facing), 1, 1e-9) << seed;
        EXPECT_TRUE(on_grid(c->at.x) && on_grid(c->at.y) && on_grid(c->at.z)) << seed;
    }
    EXPECT_EQ(room.intake.given || survey.preferences.room_air.value, true) << seed;
    EXPECT_EQ(room.recirculation.given, survey.recirculation.present.value) << seed;
    EXPECT_GT(survey.temperatures.distribution.value, survey.supply.coldest.value) << seed;
    EXPECT_GT(survey.gas.delivery_pressure.value, survey.gas.allowed_drop.value) << seed;
    for (const auto& a : survey.assumed) EXPECT_FALSE(a.field.empty() || a.value.empty() || a.why.empty()) << seed;
}

TEST(RandomSurveys, AreReadOrRefusedByName) {
    int read = 0, rooms_with_notch = 0;
    for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
        const auto survey = parse(test::random_survey(seed), "random.toml");
        if (!survey) {
            EXPECT_GT(survey.error().place.line, 0) << describe(survey.error());
            EXPECT_FALSE(survey.error().expected.empty()) << describe(survey.error());
            continue;
        }
        ++read;
        rooms_with_notch += survey->room.plan.size() == 6 ? 1 : 0;
        keeps_promises(*survey, seed);
    }
    EXPECT_GE(read, 475) << "mostly plausible";
    EXPECT_GT(rooms_with_notch, 80);
}

TEST(RandomSurveys, SameSeedSameSurvey) {
    EXPECT_EQ(test::random_survey(7), test::random_survey(7));
    EXPECT_NE(test::random_survey(7), test::random_survey(8));
}

}  // namespace
}  // namespace bw::survey
