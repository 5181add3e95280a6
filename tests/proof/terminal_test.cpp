// SPDX-License-Identifier: MIT
// Vent terminals stand where the vent's fall sets them out.
#include <gtest/gtest.h>

#include <cmath>

#include "job.h"

namespace bw::tests {
namespace {

constexpr double inch = 0.0254;

TEST(Terminals, AreMeasuredFromWhereTheFallSetsThemOut) {
    auto job = wash_house();
    const auto vent = piece(job, "vent-1.terminal").ports[0].at, intake = piece(job, "intake-1.terminal").ports[0].at;
    const auto low = piece(job, "vent-1.cap").ports[0].at;
    // a quarter inch in a foot of the way along the walls, less what the low end is set lower; elbows cut the corners
    const double lower = check(job, "vent.fall.vent-1").derivation.front().given[2].amount.si;
    const double lifts = (std::fabs(vent.x - low.x) + std::fabs(vent.y - low.y)) / 48 - lower;
    ASSERT_GT(lifts, 1 * inch);
    const auto apart = check(job, "vent.apart");
    ASSERT_TRUE(apart.value);
    EXPECT_NEAR(apart.value->si, shape::distance(vent + lifts * shape::up, intake), 0.02 * inch);
    ASSERT_EQ(apart.derivation.size(), 1u);
    const auto& working = apart.derivation.front();
    EXPECT_NEAR(working.given[0].amount.si, vent.z, 1e-9);
    EXPECT_NEAR(working.given[1].amount.si, lifts, 0.15 * inch);
    EXPECT_NEAR(working.result->amount.si, working.given[0].amount.si + working.given[1].amount.si, 1e-9);
}

TEST(Terminals, AVentWithoutRoomToFallIsMeasuredAsDrawn) {
    auto job = wash_house();
    const auto cap = piece(job, "vent-1.cap").ports[0].at;
    job.survey.room.ceiling.value = (cap.z + 4 * inch) * units::metre;
    const auto fall = check(job, "vent.fall.vent-1");
    ASSERT_EQ(fall.status, reason::Status::fail);
    EXPECT_EQ(check(job, "vent.apart").derivation.front().given[1].amount.si, 0);
}

}  // namespace
}  // namespace bw::tests
