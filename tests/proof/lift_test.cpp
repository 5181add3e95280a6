// SPDX-License-Identifier: MIT
// Heaters off their brackets: as built, and with something in their way.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job.h"

namespace bw::tests {
namespace {

using reason::Status;
using ::testing::Contains;
using ::testing::HasSubstr;

constexpr double inch = 0.0254;

shape::Box body(Job& job, int heater) {
    return shape::bounds(piece(job, "heater-" + std::to_string(heater)).solids.front());
}

/// A bar of the shared plant that no heater takes along.
void add_bar(Job& job, shape::Vec a, shape::Vec b, double radius, int heater = 0) {
    job.built.plant.add({.id = "bar",
                         .part = text::Part::pipe,
                         .service = text::Service::cold,
                         .solids = {shape::Cylinder{a, b, radius}},
                         .heater = heater});
}

TEST(LiftOff, EveryHeaterOfThePlantComesOff) {
    for (const auto* job : {&wash_house(), &hostel()}) {
        const auto all = check(*job, "room.lift");
        EXPECT_EQ(all.status, Status::pass) << all.says;
        EXPECT_EQ(static_cast<int>(all.pieces.size()), job->capacity.installed);
    }
}

TEST(LiftOff, WhatStandsCloserAboveThanTheLiftIsNamedWithTheShortness) {
    auto job = wash_house();
    const auto box = body(job, 3);
    job.survey.room.obstacles.push_back(
        {"the beam", {{box.min.x, box.min.y, box.max.z + 0.4 * inch}, box.max + shape::Vec{0, 0, 9 * inch}}});
    const auto after = check(job, "room.lift.heater-3");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("Raised, it meets the beam, by 5/8 in"));
    EXPECT_EQ(static_cast<int>(check(job, "room.lift").pieces.size()), job.capacity.installed - 1);
}

TEST(LiftOff, APipeBeforeAHeaterStopsItOnItsWayOut) {
    auto job = wash_house();
    const auto& bank = job.layout.banks.front();
    const auto box = body(job, 3);
    const auto out = bank.place.turn({0, 1, 0}), along = bank.place.turn({1, 0, 0});
    const double depth = std::fabs(shape::dot(box.max - box.min, out));
    const auto before = 0.5 * (box.min + box.max) + (depth / 2 + 3 * inch) * out;
    add_bar(job, before - 5 * inch * along, before + 5 * inch * along, 1 * inch);
    const auto after = check(job, "room.lift.heater-3");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("Drawn out, it meets the bar"));
    EXPECT_THAT(after.pieces, Contains("bar"));
}

TEST(LiftOff, WhatIsFartherOutThanItsDepthIsNotInTheWay) {
    auto job = wash_house();
    const auto out = job.layout.banks.front().place.turn({0, 1, 0});
    const auto box = body(job, 3);
    const double depth = std::fabs(shape::dot(box.max - box.min, out));
    const auto before = 0.5 * (box.min + box.max) + (1.5 * depth + 2 * inch) * out;
    add_bar(job, before - 5 * inch * shape::up, before + 5 * inch * shape::up, 1 * inch);
    EXPECT_EQ(static_cast<int>(check(job, "room.lift").pieces.size()), job.capacity.installed);
}

TEST(LiftOff, ABarOfTheHeatersOwnThatIsNoBranchOfItStaysInTheWay) {
    auto job = wash_house();
    const auto out = job.layout.banks.front().place.turn({0, 1, 0});
    const auto box = body(job, 3);
    const double depth = std::fabs(shape::dot(box.max - box.min, out));
    const auto before = 0.5 * (box.min + box.max) + (depth / 2 + 3 * inch) * out;
    add_bar(job, before - 5 * inch * shape::up, before + 5 * inch * shape::up, 1 * inch, 3);
    EXPECT_EQ(check(job, "room.lift.heater-3").status, Status::fail);
}

TEST(LiftOff, ALowCeilingStopsAll) {
    auto job = wash_house();
    job.survey.room.ceiling.value = (body(job, 1).max.z + 0.5 * inch) * units::metre;
    const auto after = check(job, "room.lift.heater-1");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("the ceiling, by 1/2 in"));
}

TEST(LiftOff, ABracketOfUnknownLiftRefers) {
    auto job = wash_house();
    for (auto& item : job.catalogue.items)
        if (item.part == text::Part::bracket) item.data.erase("lift");
    ASSERT_TRUE(job.catalogue.index());
    const auto after = check(job, "room.lift.unknown");
    EXPECT_EQ(after.status, Status::refer);
    EXPECT_EQ(static_cast<int>(after.pieces.size()), job.capacity.installed);
}

}  // namespace
}  // namespace bw::tests
