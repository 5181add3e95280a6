// SPDX-License-Identifier: MIT
// Topics of demand by chance, use by those served, and mains water.
#include <gmock/gmock.h>

#include "kit.h"

namespace bw::reckon {
namespace {

using testing::HasSubstr;

// Computed from the published formula with values of UPC Appendix M from memory: 50 apartments, 56.9 gpm.
TEST(FixtureProbability, FiftyApartments) {
    const std::initializer_list<std::string_view> flats{"bath-shower=50", "lavatory=50", "kitchen-faucet=50",
                                                        "dishwasher=50", "clothes-washer=50"};
    const auto exact = json_of("fixture-probability", flats);
    EXPECT_NEAR(value_of(exact, "flow"), 56.9, 0.011);
    EXPECT_NEAR(value_of(exact, "busy"), 7.75, 1e-9);
    EXPECT_NEAR(value_of(exact, "idle"), 0.000361, 5e-7);
    EXPECT_LT(value_of(exact, "dropped"), 1e-15);
    EXPECT_EQ(exact["result"]["flow"]["unit"], "gpm");
    EXPECT_FALSE(exact["source"].empty());
    const auto conditioned =
        json_of("fixture-probability", {"bath-shower=50", "lavatory=50", "kitchen-faucet=50", "dishwasher=50",
                                        "clothes-washer=50", "method=conditioned"});
    EXPECT_NEAR(value_of(conditioned, "flow"), 56.9, 0.011);
}

// Computed from the published formula, z = 2.33: 3.955 gpm, and out of the approximation's limit.
TEST(FixtureProbability, TheNormalApproximationMarksItsLimit) {
    const auto few = json_of("fixture-probability", {"shower=10", "method=normal"});
    EXPECT_NEAR(value_of(few, "flow"), 3.955, 0.008);
    EXPECT_EQ(few["result"]["within-limit"], false);
    EXPECT_EQ(json_of("fixture-probability", {"shower=200", "method=normal"})["result"]["within-limit"], true);
}

TEST(FixtureProbability, MoreThanAHundredThousandAreAnswered) {
    const auto many = json_of("fixture-probability", {"shower=60000", "lavatory=60000", "kitchen-faucet=60000"});
    EXPECT_NEAR(value_of(many, "busy"), 60000 * (0.045 + 0.02 + 0.02), 1e-6);
    EXPECT_GT(value_of(many, "flow"), 60000 * (0.045 * 2 + 0.02 * 1.5 + 0.02 * 2.2));
    EXPECT_LT(value_of(many, "dropped"), 1e-15);
}

TEST(FixtureProbability, RefusesByName) {
    EXPECT_THAT(refusal("fixture-probability", {}), HasSubstr("at least one"));
    EXPECT_THAT(refusal("fixture-probability", {"shower=0"}), HasSubstr("no fixture"));
    EXPECT_THAT(refusal("fixture-probability", {"shower=-1"}), HasSubstr("out of range"));
    EXPECT_THAT(refusal("fixture-probability", {"shower=1.5"}), HasSubstr("whole number"));
    EXPECT_THAT(refusal("fixture-probability", {"showr=1"}), HasSubstr("'shower' perhaps"));
    for (const auto* percentile : {"percentile=50", "percentile=100", "percentile=101", "percentile=12"})
        EXPECT_THAT(refusal("fixture-probability", {"shower=1", percentile}), HasSubstr("between 50 and 100"));
    EXPECT_THAT(refusal("fixture-probability", {"shower=1", "method=guess"}), HasSubstr("conditioned"));
}

// ASHRAE Handbook, HVAC Applications, Hot-Water Demands and Use: nursing home 4.5, 30.0 and 18.4 gal a bed (from
// memory).
TEST(OccupancyDemand, HoursAndDays) {
    const auto home = json_of("occupancy-demand", {"building=nursing-home", "count=80"});
    EXPECT_NEAR(value_of(home, "max-hour"), 360, 1e-6);
    EXPECT_NEAR(value_of(home, "max-day"), 2400, 1e-6);
    EXPECT_NEAR(value_of(home, "average-day"), 1472, 1e-6);
    EXPECT_EQ(home["result"]["max-day"]["unit"], "gal");
}

TEST(OccupancyDemand, RefusesByName) {
    EXPECT_THAT(refusal("occupancy-demand", {"building=nursing-hom", "count=80"}), HasSubstr("'nursing-home' perhaps"));
    EXPECT_THAT(refusal("occupancy-demand", {"building=office", "count=0"}), HasSubstr("from 1"));
    EXPECT_THAT(refusal("occupancy-demand", {"building=office"}), HasSubstr("'count' is missing"));
}

// Computed from the published formula: 50 and 50 degF, day 1, 47.507 degF.
TEST(InletWater, FollowsTheYear) {
    const auto day1 = json_of("inlet-water", {"annual-mean-air=50 degF", "air-swing=50 degF", "day=1"});
    EXPECT_NEAR(value_of(day1, "temperature"), 47.507, 0.02);
    EXPECT_EQ(day1["result"]["temperature"]["unit"], "degF");
    EXPECT_NEAR(value_of(day1, "coldest"), 44.5, 0.02);
    const auto north = json_of("inlet-water", {"annual-mean-air=50 degF", "air-swing=50 degF", "day=226"});
    const auto south =
        json_of("inlet-water", {"annual-mean-air=50 degF", "air-swing=50 degF", "day=226", "hemisphere=southern"});
    EXPECT_GT(value_of(north, "temperature"), value_of(south, "temperature") + 20);
}

TEST(InletWater, RefusesWhatNobodyMeasured) {
    EXPECT_THAT(refusal("inlet-water", {"annual-mean-air=50 degF", "air-swing=50 degF", "day=0"}),
                HasSubstr("1 to 365"));
    EXPECT_NE(refusal("inlet-water", {"annual-mean-air=50 degF", "air-swing=50 degF", "day=366"}), "");
    EXPECT_NE(refusal("inlet-water", {"annual-mean-air=5 degF", "air-swing=50 degF", "day=5"}), "");
    EXPECT_NE(refusal("inlet-water", {"annual-mean-air=50 degF", "air-swing=150 degF", "day=5"}), "");
    EXPECT_THAT(refusal("inlet-water", {"annual-mean-air=50", "air-swing=50 degF", "day=5"}), HasSubstr("degF"));
}

}  // namespace
}  // namespace bw::reckon
