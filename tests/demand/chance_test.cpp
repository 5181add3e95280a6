// SPDX-License-Identifier: MIT
// What runs at once, by chance: laws of the distribution, and how the survey's building gets its chances.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>

#include "demand/methods.h"

namespace bw::demand {
namespace {

using survey::MethodPreference;
using testing::HasSubstr;
using text::Fixture;

double gpm(VolumeFlow flow) { return flow / gallon_per_minute; }

Spread of(const std::vector<FixtureGroup>& groups) {
    auto found = Spread::of(groups);
    EXPECT_TRUE(found);
    return found.value_or(Spread());
}

survey::Survey flats() {
    survey::Survey s;
    s.use.building.value = text::Building::apartment;
    s.use.fixtures = {{Fixture::bath_shower, 60}, {Fixture::basin_private, 50}, {Fixture::kitchen_sink, 50}};
    s.supply.coldest.value = fahrenheit(45);
    s.temperatures.distribution.value = fahrenheit(125);
    s.temperatures.use.value = fahrenheit(105);
    return s;
}

const Answer& named(const Demand& demand, std::string_view id) {
    for (const auto& answer : demand.answers)
        if (answer.id == id) return answer;
    ADD_FAILURE() << "no answer " << id;
    return demand.answers.front();
}

TEST(Spread, NothingRuns) {
    const Spread none;
    EXPECT_EQ(none.percentile(0.99), VolumeFlow());
    EXPECT_EQ(none.percentile_if_running(0.99), VolumeFlow());
    EXPECT_EQ(none.above(VolumeFlow()), 0);
    EXPECT_EQ(none.idle(), 1);
    EXPECT_EQ(of({{0, 0.5, 100}, {5, 0, 100}, {5, 0.5, 0}}).idle(), 1);
}

TEST(Spread, WhatAlwaysRunsRunsAlways) {
    const auto all = of({{12, 1, 180}});
    EXPECT_NEAR(gpm(all.percentile(0.6)), 21.6, 1e-12);
    EXPECT_EQ(all.above(21.59 * gallon_per_minute), 1);
    EXPECT_EQ(all.above(21.6 * gallon_per_minute), 0);
    EXPECT_EQ(all.idle(), 0);
}

TEST(Spread, ChancesAddUpToOneAndMeanAndDeviationAreTheirs) {
    const auto spread = of({{200, 0.055, 553}, {130, 0.3, 41}, {7, 0.9, 1007}});
    double sum = 0, mean = 0, square = 0;
    for (long s = spread.first(); s <= spread.last(); s += spread.stride()) {
        sum += spread.at(s);
        mean += spread.at(s) * 0.01 * static_cast<double>(s);
        square += spread.at(s) * std::pow(0.01 * static_cast<double>(s), 2);
    }
    EXPECT_LT(spread.dropped(), 1e-15);
    EXPECT_NEAR(sum, 1, 1e-13);
    EXPECT_NEAR(gpm(spread.mean()) / mean, 1, 1e-12);
    EXPECT_NEAR(gpm(spread.deviation()) / std::sqrt(square - mean * mean), 1, 1e-9);
}

TEST(Spread, PercentilesAreTheLeastFlowThatIsEnough) {
    const auto spread = of({{60, 0.1, 203}, {40, 0.05, 151}});
    for (const double share : {0.51, 0.8, 0.95, 0.99, 0.999, 0.999999}) {
        const auto flow = spread.percentile(share);
        EXPECT_LE(spread.above(flow), 1 - share) << share;
        EXPECT_GT(spread.above(flow - lattice_step), 1 - share) << share;
        EXPECT_GE(spread.percentile_if_running(share), flow);
    }
}

TEST(Spread, OrderAndGroupingDoNotMatter) {
    const auto together = of({{90, 0.04, 200}, {30, 0.2, 75}});
    const auto apart = of({{30, 0.2, 75}, {60, 0.04, 200}, {30, 0.04, 200}});
    for (const double flow : {0.0, 4.0, 9.5, 20.0, 33.25})
        EXPECT_NEAR(together.above(flow * gallon_per_minute) / apart.above(flow * gallon_per_minute), 1, 1e-11) << flow;
}

TEST(Spread, RefusesWhatIsNoChance) {
    EXPECT_FALSE(Spread::of({{5, 1.01, 100}}));
    EXPECT_FALSE(Spread::of({{5, -0.01, 100}}));
    EXPECT_FALSE(Spread::of({{-1, 0.5, 100}}));
    EXPECT_FALSE(Spread::of({{5, std::nan(""), 100}}));
    EXPECT_FALSE(Spread::of({{5, 0.5, most_steps + 1}}));
}

TEST(Spread, AHundredThousandFixturesOfTwelveKindsInTime) {
    std::vector<FixtureGroup> kinds;
    for (int i = 0; i < 12; ++i) kinds.push_back({8500, 0.005 + 0.005 * i, 41 + 97 * i});
    const auto start = std::chrono::steady_clock::now();
    const auto spread = of(kinds);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
    EXPECT_LT(spread.dropped(), 1e-15);
    EXPECT_NEAR(gpm(spread.percentile(0.99)), gpm(spread.normal_percentile(0.99)), 0.002 * gpm(spread.mean()));
    EXPECT_LT(took.count(), 5.0) << "half a second where nothing else runs; see the benchmark";
}

// Standard normal table: 90 % 1.2816, 95 % 1.6449, 99 % 2.3263, 99.9 % 3.0902.
TEST(Normal, QuantilesOfTheTable) {
    EXPECT_NEAR(normal_quantile(0.5), 0, 1e-15);
    EXPECT_NEAR(normal_quantile(0.90), 1.2816, 5e-5);
    EXPECT_NEAR(normal_quantile(0.95), 1.6449, 5e-5);
    EXPECT_NEAR(normal_quantile(0.99), 2.3263, 5e-5);
    EXPECT_NEAR(normal_quantile(0.999), 3.0902, 5e-5);
    EXPECT_NEAR(normal_quantile(0.01), -2.3263, 5e-5);
}

TEST(Chances, DwellingsTakeTheStudysAndHotWaterIsMixed) {
    auto loads = fixture_loads(flats());
    ASSERT_TRUE(loads);
    ASSERT_EQ(loads->loads.size(), 3U);
    for (const auto& load : loads->loads) EXPECT_TRUE(load.studied);
    const auto& bath = loads->loads[1];
    EXPECT_EQ(bath.fixture, Fixture::bath_shower);
    EXPECT_EQ(bath.busy, 0.055);
    EXPECT_NEAR(gpm(bath.hot), 5.5 * 60 / 80, 1e-9);
}

TEST(Chances, OtherBuildingsTakeTheShareOfTheProbableHour) {
    auto survey = flats();
    survey.use.building.value = text::Building::hotel;
    survey.use.fixtures = {{Fixture::shower_public, 10}};
    auto loads = fixture_loads(survey);
    ASSERT_TRUE(loads);
    // 75 gal/h at 140 degF x 0.25, of 2 gpm x (105 - 45) / (140 - 45)
    EXPECT_NEAR(loads->loads.front().busy, 0.25 * 75 / (60 * 2.0 * 60 / 95), 1e-9);
    EXPECT_FALSE(loads->loads.front().studied);
    survey.use.busy[Fixture::shower_public] = 0.5;
    EXPECT_EQ(fixture_loads(survey)->loads.front().busy, 0.5);
    EXPECT_TRUE(fixture_loads(survey)->loads.front().studied);
    survey.use.building.value = text::Building::gymnasium;
    survey.use.busy.clear();
    EXPECT_EQ(fixture_loads(survey)->loads.front().busy, 1) << "more than an hour's worth is all the time";
}

TEST(Chances, TheUpcSizesStudiedDwellingsByThem) {
    auto survey = flats();
    EXPECT_EQ(peak_demand(survey)->governing, "fixture-units");
    survey.codes = {{"UPC", "2018", ""}};
    auto upc = peak_demand(survey);
    ASSERT_TRUE(upc);
    EXPECT_EQ(upc->governing, "fixture-probability");
    EXPECT_EQ(upc->peak, *named(*upc, "fixture-probability").peak);
    EXPECT_THAT(named(*upc, "fixture-probability").says, HasSubstr("Appendix M"));
    survey.use.building.value = text::Building::hotel;
    EXPECT_EQ(peak_demand(survey)->governing, "fixture-units") << "no dwelling";
}

TEST(Chances, APreferenceGoesFirstAndAHigherPercentileIsMore) {
    auto survey = flats();
    survey.use.method.value = MethodPreference::fixture_probability;
    auto at99 = peak_demand(survey);
    ASSERT_TRUE(at99);
    EXPECT_EQ(at99->governing, "fixture-probability");
    survey.use.percentile.value = 0.999;
    EXPECT_GT(peak_demand(survey)->peak, at99->peak);
    survey.use.percentile.value = 0.5;
    EXPECT_FALSE(peak_demand(survey));
    survey.use.percentile.value = 1;
    EXPECT_FALSE(peak_demand(survey));
}

TEST(Chances, WhereLittleRunsTheStudysPracticeKeepsThePeakFromBeingNothing) {
    auto survey = flats();
    survey.use.fixtures = {{Fixture::dishwasher, 1}};
    survey.use.method.value = MethodPreference::fixture_probability;
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand) << describe(demand.error());
    EXPECT_EQ(*named(*demand, "fixture-probability").peak, VolumeFlow()) << "it runs one moment in two hundred";
    EXPECT_EQ(demand->governing, "fixture-probability-conditioned");
    EXPECT_NEAR(gpm(demand->peak), 1.3, 1e-9);
}

TEST(Chances, WhatNoTableKnowsIsNamedAndAskedFor) {
    auto survey = flats();
    survey.use.building.value = text::Building::gymnasium;
    survey.use.fixtures = {{Fixture::basin_public, 4}, {Fixture::service_sink, 1}};
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand);
    EXPECT_THAT(demand->without_chance, testing::ElementsAre("service-sink"));
    EXPECT_THAT(named(*demand, "fixture-probability").says, HasSubstr("no chance is known for service-sink"));
    survey.use.method.value = MethodPreference::fixture_probability;
    auto preferred = peak_demand(survey);
    ASSERT_FALSE(preferred);
    EXPECT_THAT(preferred.error().expected, HasSubstr("building.busy"));
    survey.use.busy[Fixture::service_sink] = 0.1;
    EXPECT_TRUE(peak_demand(survey));
}

TEST(Chances, TheNormalApproximationSaysWhereItDoesNotHold) {
    auto survey = flats();
    for (auto& [fixture, count] : survey.use.fixtures) count = 20;
    EXPECT_THAT(named(*peak_demand(survey), "fixture-probability-normal").says, HasSubstr("outside its limit"));
    for (auto& [fixture, count] : survey.use.fixtures) count *= 10;
    EXPECT_THAT(named(*peak_demand(survey), "fixture-probability-normal").says, HasSubstr("within its limit"));
}

TEST(Chances, MoreThanAHundredThousandFixturesAreAnswered) {
    auto survey = flats();
    for (auto& [fixture, count] : survey.use.fixtures) count = 50000;
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand) << describe(demand.error());
    EXPECT_EQ(demand->governing, "fixture-probability");
    const auto& exact = *named(*demand, "fixture-probability").peak;
    const auto& normal = *named(*demand, "fixture-probability-normal").peak;
    EXPECT_NEAR(exact / normal, 1, 1e-3);
}

}  // namespace
}  // namespace bw::demand
