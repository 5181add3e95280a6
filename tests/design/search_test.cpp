// SPDX-License-Identifier: MIT
// The wide search: many places weighed, two dozen built, the undominated told apart.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "../support/examples.h"
#include "design/design.h"

namespace bw::test {
namespace {

using design::Candidate;

Candidate candidate(int fail, double cost, double area, double run, double shortfall) {
    Candidate c;
    c.tally.fail = fail;
    c.total_cost = cost;
    c.floor_area = area;
    c.run = run;
    c.shortfall = shortfall;
    return c;
}

std::vector<bool> undominated(std::vector<Candidate> all) {
    design::mark_undominated(all);
    std::vector<bool> out;
    for (const auto& c : all) out.push_back(c.undominated);
    return out;
}

TEST(Undominated, OneBetterInEverythingLeavesNoOther) {
    EXPECT_THAT(undominated({candidate(0, 50000, 8, 90, 0.05), candidate(1, 52000, 9, 95, 0.06)}),
                testing::ElementsAre(true, false));
}
TEST(Undominated, EachBestInOneWayStays) {
    EXPECT_THAT(undominated({candidate(0, 50000, 9, 90, 0.05), candidate(0, 52000, 8, 95, 0.06),
                             candidate(0, 53000, 10, 95, 0.02), candidate(0, 53000, 10, 95, 0.05)}),
                testing::ElementsAre(true, true, true, false));
}
TEST(Undominated, TriflesAreNoDifference) {
    EXPECT_THAT(undominated({candidate(0, 50010, 8, 90, 0.05), candidate(0, 49990, 8, 90.2, 0.05)}),
                testing::ElementsAre(true, true));
}
TEST(Undominated, WhatWasNotBuiltIsNeverMarked) {
    auto refused = candidate(0, 0, 0, 0, 0);
    refused.refused = "no route";
    EXPECT_THAT(undominated({refused, candidate(0, 50000, 8, 90, 0.05)}), testing::ElementsAre(false, true));
}

class Search : public testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Search, testing::ValuesIn(example_names));

TEST_P(Search, WeighsMoreThanItBuildsAndNeverChoosesWorse) {
    const auto survey = example(GetParam());
    const auto quick = design::run(survey, demo_catalogue());
    const auto wide = design::run(survey, demo_catalogue(), design::wide());
    ASSERT_TRUE(quick && wide && quick->chosen && wide->chosen);
    EXPECT_GT(wide->candidates.size(), quick->candidates.size());
    EXPECT_GE(wide->weighed, static_cast<int>(wide->candidates.size()) / 2);
    EXPECT_LE(design::tally(wide->checks).fail, design::tally(quick->checks).fail);
    EXPECT_LE(wide->chosen->estimate.total, quick->chosen->estimate.total);
    EXPECT_TRUE(std::ranges::any_of(wide->candidates, [](const auto& c) { return c.chosen && c.undominated; }));
}

TEST_P(Search, GivesTheSameOnOneThreadAsOnSeveral) {
    auto effort = design::wide();
    effort.candidates = effort.most_tried = 6;
    effort.threads = 4;
    const auto many = design::run(example(GetParam()), demo_catalogue(), effort);
    effort.threads = 1;
    const auto one = design::run(example(GetParam()), demo_catalogue(), effort);
    ASSERT_TRUE(many && one);
    EXPECT_TRUE(design::to_json(*many, units::System::us) == design::to_json(*one, units::System::us));
}

TEST_P(Search, TheChosenLayoutAloneIsTheSamePlant) {
    const auto quick = design::run(example(GetParam()), demo_catalogue());
    ASSERT_TRUE(quick && quick->chosen);
    const auto alone =
        design::run_layout(example(GetParam()), demo_catalogue(), quick->capacity.heater, quick->chosen->layout.id);
    ASSERT_TRUE(alone) << units::describe(alone.error());
    EXPECT_EQ(alone->chosen->estimate.total, quick->chosen->estimate.total);
    EXPECT_EQ(alone->checks.size(), quick->checks.size());
    const auto proved_by_many = design::run_layout(example(GetParam()), demo_catalogue(), quick->capacity.heater,
                                                   quick->chosen->layout.id, 4);
    ASSERT_TRUE(proved_by_many);
    EXPECT_TRUE(design::to_json(*alone, units::System::us) == design::to_json(*proved_by_many, units::System::us));
    EXPECT_FALSE(design::run_layout(example(GetParam()), demo_catalogue(), quick->capacity.heater, "wall-99"));
    EXPECT_FALSE(design::run_layout(example(GetParam()), demo_catalogue(), "no-such-heater", "wall-1"));
}

TEST(SearchStops, WhenToldTo) {
    design::Effort effort = design::wide();
    effort.go_on = [](int tried) { return tried < 3; };
    EXPECT_FALSE(design::run(example("hostel"), demo_catalogue(), effort));
}

}  // namespace
}  // namespace bw::test
