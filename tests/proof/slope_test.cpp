// SPDX-License-Identifier: MIT
// A plant built under a level ceiling, proved under one that falls: 10 ft at wall 6 (x = 0), less at wall 2 (x = 20
// ft).
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "job.h"

namespace bw::tests {
namespace {

using reason::Status;
using ::testing::HasSubstr;

constexpr double inch = 0.0254, ft = 12 * inch;

Job falling_to(double low) {
    auto job = wash_house();
    job.survey.room.slope = survey::CeilingSlope{1, low * units::metre};
    return job;
}

TEST(Slope, APieceInTheCeilingIsNamedWithItsDepth) {
    auto job = falling_to(10 * ft - 1 * inch);
    const auto rods = check(job, "room.slope");
    EXPECT_EQ(rods.status, Status::fail) << "they were cut for a level ceiling";
    EXPECT_THAT(rods.says, HasSubstr("Rod 1 of hanger"));
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::rod || p.part == text::Part::hanger) p.solids.clear();
    EXPECT_EQ(check(job, "room.slope").status, Status::pass);
    // a post up to an inch above the plane at x = 10 ft
    const double plane = 10 * ft - 0.5 * inch;
    job.built.plant.add({.id = "the post",
                         .part = text::Part::frame_post,
                         .service = text::Service::structure,
                         .solids = {shape::Box{{9 * ft, 6 * ft, 0}, {10 * ft, 6.1 * ft, plane + 1 * inch}}}});
    const auto after = check(job, "room.slope");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("the post stands 1 in in it"));
}

TEST(Slope, ClearanceAboveIsToTheLowestCeilingOverEachHeater) {
    auto job = falling_to(8 * ft);
    double least = 1e9;
    for (int k = 1; k <= 8; ++k) {
        const auto box = shape::bounds(piece(job, "heater-" + std::to_string(k)).solids.front());
        least = std::min(least, 10 * ft - 0.1 * box.max.x - box.max.z);
    }
    EXPECT_NEAR(check(job, "room.above").value->si, least, 1e-9);
}

TEST(Slope, AVentThatHasNoRoomToFallUnderItFails) {
    ASSERT_EQ(check(wash_house(), "vent.fall.vent-1").status, Status::pass);
    auto job = falling_to(9 * ft + 1 * inch);
    const auto fall = check(job, "vent.fall.vent-1");
    EXPECT_EQ(fall.status, Status::fail);
    EXPECT_THAT(fall.says, HasSubstr("into the ceiling"));
}

/// Where the ceiling comes under 78 in nobody works upright.
TEST(Slope, WorkingSpaceEndsWhereTheCeilingIsTooLowToStand) {
    auto job = wash_house();
    // 10 ft over wall 1, where the heaters hang, and 1 ft at wall 3, 14 ft off
    job.survey.room.slope = survey::CeilingSlope{2, 1 * ft * units::metre};
    const auto box = shape::bounds(piece(job, "heater-3").solids.front());
    const double upright = (10 * ft - 78 * inch) / (9.0 / 14);  // so far from wall 1
    const auto space = check(job, "room.working-space.heater-3");
    EXPECT_NEAR(space.value->si, upright - box.max.y, 1e-6);
}

TEST(Slope, RoomVolumeIsExact) {
    auto job = falling_to(7 * ft);
    for (auto& p : job.built.plant.pieces)  // room air
        if (p.part == text::Part::intake_terminal)
            for (auto& port : p.ports) port.at = {3, 1.5, 2};
    const auto volume = check(job, "air.volume");
    // 9 ft deep to x = 8 ft, then 14 ft: the integral of 10 - 0.15 x over each, worked out by hand
    const double by_hand = 9 * (80 - 0.15 * 32) + 14 * (120 - 0.15 * 168);
    EXPECT_NEAR(volume.value->si / (ft * ft * ft), by_hand, 1e-6);
}

}  // namespace
}  // namespace bw::tests
