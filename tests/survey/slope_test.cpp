// SPDX-License-Identifier: MIT
// A ceiling that slopes, as the survey gives it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "../support/short_survey.h"
#include "survey/survey.h"

namespace bw::survey {
namespace {

constexpr double inch = 0.0254, ft = 12 * inch;

/// A room of 16 by 10 ft, 9 ft high, and what more is said of it.
Result<Survey> room(const std::string& more) {
    return parse("[job]\ntitle = \"Trial\"\n[building]\nkind = \"club\"\n[building.fixtures]\nshower-public = 6\n" +
                     std::string(test::gas_and_room) + more,
                 "trial.toml");
}
std::string towards(int wall, std::string_view low) {
    return "[room.ceiling-slope]\nwall = " + std::to_string(wall) + "\nlow = \"" + std::string(low) + "\"\n";
}

TEST(Slope, FallsFromTheCeilingToItsWall) {
    const auto s = room(towards(3, "7 ft"));
    ASSERT_TRUE(s) << describe(s.error());
    const auto ceiling = s->room.overhead();
    EXPECT_NEAR(ceiling.at(8 * ft, 0), 9 * ft, 1e-12);
    EXPECT_NEAR(ceiling.at(3 * ft, 5 * ft), 8 * ft, 1e-12);
    EXPECT_NEAR(ceiling.at(16 * ft, 10 * ft), 7 * ft, 1e-12);
}

TEST(Slope, KeepsTheWallOfAPlanGivenClockwise) {
    auto text = std::string(test::gas_and_room);
    const std::string_view was = R"(["16 ft", "0 ft"], ["16 ft", "10 ft"], ["0 ft", "10 ft"])";
    text.replace(text.find(was), was.size(), R"(["0 ft", "10 ft"], ["16 ft", "10 ft"], ["16 ft", "0 ft"])");
    const auto s =
        parse("[job]\ntitle = \"Trial\"\n[building]\nkind = \"club\"\n[building.fixtures]\nshower-public = 6\n" + text +
                  towards(2, "7 ft"),
              "trial.toml");
    ASSERT_TRUE(s) << describe(s.error());
    EXPECT_NEAR(s->room.overhead().at(8 * ft, 10 * ft), 7 * ft, 1e-12) << "wall 2 runs along y = 10 ft";
    EXPECT_NEAR(s->room.overhead().at(8 * ft, 0), 9 * ft, 1e-12);
}

TEST(Slope, AsLowAsItIsHighIsLevel) {
    const auto s = room(towards(3, "9 ft"));
    ASSERT_TRUE(s) << describe(s.error());
    EXPECT_FALSE(s->room.slope);
    EXPECT_TRUE(s->room.overhead().level());
}

TEST(Slope, AConnectionInItLooksDownFromIt) {
    // at y = 2 ft 6 in the ceiling is 8 ft 6 in high
    const auto s = room(towards(3, "7 ft") + "[connections.hot]\nat = [\"8 ft\", \"2 ft 6 in\", \"8 ft 6-1/2 in\"]\n");
    ASSERT_TRUE(s) << describe(s.error());
    EXPECT_NEAR(s->room.hot.at.z, 8.5 * ft, 1e-9);
    EXPECT_EQ(s->room.hot.facing, shape::down);
}

TEST(Slope, WhatIsAssumedStandsUnderIt) {
    for (const int wall : {1, 2, 3, 4}) {
        const auto s = room(towards(wall, "5 ft"));
        ASSERT_TRUE(s) << describe(s.error());
        const auto ceiling = s->room.overhead();
        const auto& r = s->room;
        for (const auto* c : {&r.gas, &r.cold, &r.hot, &r.exhaust, &r.intake, &r.panel})
            EXPECT_LE(c->at.z, ceiling.at(c->at) - 5.9 * inch) << wall;
        EXPECT_LE(r.doors[0].height.value(), ceiling.at(0, 4 * ft) + 1e-9);
        EXPECT_LE(r.doors[0].height.value(), ceiling.at(0, 7 * ft) + 1e-9);
    }
}

TEST(Slope, ADoorOfNoGivenHeightIsAsHighAsTheCeilingLetsIt) {
    const auto s = room(towards(4, "6 ft"));
    ASSERT_TRUE(s) << describe(s.error());
    EXPECT_NEAR(s->room.doors[0].height.value(), 6 * ft, 1e-9);
    EXPECT_TRUE(s->depends_on_fields("room.door.1.height"));
}

}  // namespace
}  // namespace bw::survey
