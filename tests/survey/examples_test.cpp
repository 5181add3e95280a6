// SPDX-License-Identifier: MIT
// The examples and the starter, read as the user runs them.
#include <gtest/gtest.h>

#include "shape/polygon.h"
#include "survey/survey.h"

namespace bw::survey {
namespace {

std::string example(std::string_view name) { return fmt::format("{}/examples/{}", BANKWRIGHT_SOURCE, name); }

bool assumes(const Survey& survey, std::string_view field) {
    return std::any_of(survey.assumed.begin(), survey.assumed.end(),
                       [&](const Assumption& a) { return a.field == field; });
}

TEST(Examples, HostelIsNearlyComplete) {
    const auto survey = read(example("hostel.toml"));
    ASSERT_TRUE(survey) << describe(survey.error());
    EXPECT_TRUE(survey->assumed.empty()) << survey->assumed.front().field;
    EXPECT_EQ(survey->use.fixtures.at(Fixture::shower_public), 13);
    EXPECT_NEAR(survey->supply.pressure.value / psi, 65, 1e-9);
    EXPECT_NEAR(survey->preferences.markup.value, 0.15, 1e-12);
    EXPECT_EQ(survey->room.walls.size(), 4u);
    EXPECT_TRUE(survey->room.walls[1].outside.value);
    EXPECT_EQ(survey->room.exhaust.facing, (shape::Vec{-1, 0, 0}));
    EXPECT_EQ(survey->room.drain.facing, shape::up);
    EXPECT_NE(survey->adopted("NFPA 70"), nullptr);
}

TEST(Examples, WashHouseHasBlocksAndAnLShapedRoom) {
    const auto survey = read(example("wash-house.toml"));
    ASSERT_TRUE(survey) << describe(survey.error());
    EXPECT_EQ(survey->use.blocks.size(), 2u);
    EXPECT_TRUE(survey->use.chemistry_in_air);
    EXPECT_FALSE(survey->recirculation.present.value);
    EXPECT_EQ(survey->room.plan.size(), 6u);
    EXPECT_GT(shape::signed_area(survey->room.plan), 0);
    EXPECT_NEAR(survey->gas.allowed_drop.value / psi, 1, 1e-6);
    EXPECT_TRUE(survey->depends_on_fields("room.wall"));
    EXPECT_TRUE(assumes(*survey, "room.wall.5.build"));
    EXPECT_FALSE(assumes(*survey, "room.wall.1.build"));
}

TEST(Examples, SportsHallIsShortAndHighUp) {
    const auto survey = read(example("sports-hall.toml"));
    ASSERT_TRUE(survey) << describe(survey.error());
    EXPECT_EQ(survey->gas.kind.value, Gas::propane);
    EXPECT_NEAR(survey->altitude.value / foot, 5300, 1e-6);
    EXPECT_TRUE(survey->room.panel.assumed_place);
    EXPECT_TRUE(survey->room.intake.assumed_place);
    EXPECT_TRUE(survey->recirculation.present.value);
    EXPECT_TRUE(survey->room.recirculation.given);
    EXPECT_NEAR(survey->gas.heating_value.value / btu_per_cubic_foot, 2500, 1e-6);
}

TEST(Starter, Runs) {
    const auto survey = parse(starter(), "starter.toml");
    ASSERT_TRUE(survey) << describe(survey.error());
}

}  // namespace
}  // namespace bw::survey
