// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {
namespace {

using testing::HasSubstr;
using text::Fixture;

survey::Survey hostel() {
    survey::Survey s;
    s.use.building.value = text::Building::hotel;
    s.use.fixtures = {{Fixture::shower_public, 13}, {Fixture::basin_public, 16}, {Fixture::water_closet, 20}};
    s.supply.coldest.value = fahrenheit(45);
    s.temperatures.distribution.value = fahrenheit(130);
    s.temperatures.use.value = fahrenheit(105);
    s.recirculation.present.value = true;
    s.recirculation.loss.value = 15.0 * kbtu_per_hour;
    s.recirculation.drop.value = 10.0 * degF_difference;
    return s;
}

survey::Block showers(int count, double gpm, double degrees) {
    survey::Block block;
    block.name = "gang showers";
    block.count = count;
    block.flow = gpm * gallon_per_minute;
    block.temperature = fahrenheit(degrees);
    block.shower_heads = count;
    return block;
}

const Answer& named(const Demand& demand, const std::string& id) {
    for (const auto& answer : demand.answers)
        if (answer.id == id) return answer;
    ADD_FAILURE() << "no answer " << id;
    return demand.answers.front();
}

/// So many that the curve stays below what all of them draw wide open.
survey::Survey many() {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::shower_public, 60}, {Fixture::basin_public, 40}, {Fixture::water_closet, 20}};
    return survey;
}

TEST(PeakDemand, FixturesByTheHotColumnOnTheFlushTankCurve) {
    auto demand = peak_demand(many());
    ASSERT_TRUE(demand) << describe(demand.error());
    // 60 x 3 + 40 x 1.5 = 240 units; closets take no hot water. IPC 2018: 225 is 70 gpm, 250 is 75: 73 gpm.
    EXPECT_NEAR(demand->fixtures / gallon_per_minute, 73, 1e-6);
    EXPECT_EQ(demand->governing, "fixture-units");
    EXPECT_EQ(demand->blocks, VolumeFlow());
    EXPECT_TRUE(named(*demand, "fixture-units").governs);
    EXPECT_FALSE(named(*demand, "fixture-units-nspc").governs);
    EXPECT_FALSE(named(*demand, "hourly").governs);
    EXPECT_FALSE(demand->derivation.empty());
}

TEST(PeakDemand, TheCurveOfTheAdoptedCodeGoverns) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::bathtub, 10}};  // 30 units by the public column, 55 gpm drawn wide open
    auto ipc = peak_demand(survey);
    survey.codes = {{"NSPC", "2018", ""}};
    auto nspc = peak_demand(survey);
    ASSERT_TRUE(ipc && nspc);
    EXPECT_EQ(ipc->governing, "fixture-units");
    EXPECT_GT(ipc->peak, nspc->peak);
    EXPECT_EQ(nspc->governing, "fixture-units-nspc");
}

TEST(PeakDemand, IsNeverAboveEveryFixtureWideOpen) {
    const auto survey = hostel();
    const auto demand = peak_demand(survey);
    ASSERT_TRUE(demand) << describe(demand.error());
    // 13 showers of 2 gpm and 16 basins of 0.4 gpm, mixed to 105 degF from 45 and 130: 60/85 of it hot. The curve says
    // 32.9 gpm for the same 63 units.
    const double open = (13 * 2.0 + 16 * 0.4) * 60 / 85;
    EXPECT_NEAR(*named(*demand, "fixture-units").peak / gallon_per_minute, 32.9, 1e-6);
    EXPECT_NEAR(demand->fixtures / gallon_per_minute, open, 1e-6);
    EXPECT_EQ(demand->governing, "all-open");
    EXPECT_THAT(named(*demand, "all-open").says, HasSubstr("more than every fixture wide open"));
    EXPECT_FALSE(named(*demand, "fixture-units").governs);
    // the three readings stand side by side in the working
    std::string symbols;
    for (const auto& step : demand->derivation)
        for (const auto& term : step.given) symbols += term.symbol + " ";
    for (const char* symbol : {"Vc ", "Vp ", "Va "}) EXPECT_THAT(symbols, HasSubstr(symbol));
    // the designer's choice of another method is kept
    auto preferred = survey;
    preferred.use.method.value = survey::MethodPreference::fixture_probability;
    EXPECT_EQ(peak_demand(preferred)->governing, "fixture-probability");
    EXPECT_LT(peak_demand(preferred)->peak, demand->peak);
}

TEST(PeakDemand, BlocksAreMixedAndRunTogetherOnTopOfTheFixtures) {
    auto survey = hostel();
    survey.use.blocks = {showers(14, 1.8, 104), showers(3, 3, 130)};
    survey.use.blocks[1].shower_heads = 0;
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand) << describe(demand.error());
    double mixed = 14 * 1.8 * (104.0 - 45) / (130 - 45);
    EXPECT_NEAR(demand->blocks / gallon_per_minute, mixed + 9, 1e-6);
    EXPECT_NEAR(demand->peak / gallon_per_minute, demand->fixtures / gallon_per_minute + mixed + 9, 1e-6);
}

TEST(PeakDemand, AMixBalancesHeatAndWater) {
    auto share = hot_share(fahrenheit(45), fahrenheit(104), fahrenheit(130));
    ASSERT_TRUE(share);
    EXPECT_NEAR(*share * 130 + (1 - *share) * 45, 104, 1e-9);
    EXPECT_EQ(*hot_share(fahrenheit(45), fahrenheit(130), fahrenheit(130)), 1);
    EXPECT_FALSE(hot_share(fahrenheit(45), fahrenheit(131), fahrenheit(130)));
    EXPECT_FALSE(hot_share(fahrenheit(45), fahrenheit(45), fahrenheit(130)));
    EXPECT_FALSE(hot_share(fahrenheit(130), fahrenheit(131), fahrenheit(130)));
}

TEST(PeakDemand, ABlockHotterThanThePlantIsRefusedByName) {
    auto survey = hostel();
    survey.use.blocks = {showers(2, 2, 150)};
    auto demand = peak_demand(survey);
    ASSERT_FALSE(demand);
    EXPECT_THAT(demand.error().what, HasSubstr("gang showers"));
}

TEST(PeakDemand, AnEmptyBuildingIsRefused) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::water_closet, 9}};
    auto demand = peak_demand(survey);
    ASSERT_FALSE(demand);
    EXPECT_THAT(demand.error().what, HasSubstr("no fixture or block"));
}

TEST(PeakDemand, ASingleBasinTakesTheStartOfTheCurve) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::basin_private, 1}};
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand);
    EXPECT_NEAR(*named(*demand, "fixture-units").peak / gallon_per_minute, 3, 1e-9);
    EXPECT_NEAR(demand->peak / gallon_per_minute, 1.5 * 60 / 85, 1e-9) << "but one basin draws no more than its flow";
}

TEST(PeakDemand, PastTheEndOfTheCurveTheChancesGovern) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::shower_public, 2000}};  // 6,000 units; the curve ends at 5,000
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand) << describe(demand.error());
    EXPECT_EQ(demand->governing, "fixture-probability");
    EXPECT_THAT(named(*demand, "fixture-probability").says, HasSubstr("more fixture units than the printed curve"));
    survey.use.method.value = survey::MethodPreference::fixture_units;
    auto preferred = peak_demand(survey);
    ASSERT_FALSE(preferred);
    EXPECT_THAT(preferred.error().what, HasSubstr("no answer for so many fixtures"));
}

TEST(PeakDemand, RecirculationCarriesItsLossAtItsDrop) {
    auto demand = peak_demand(hostel());
    ASSERT_TRUE(demand);
    auto heat = matter::heat_to_warm(demand->recirculation_flow, fahrenheit(120), fahrenheit(130));
    EXPECT_NEAR(*heat / (15.0 * kbtu_per_hour), 1, 1e-9);
    EXPECT_NEAR(demand->recirculation_flow / gallon_per_minute, 3.0, 0.06)
        << "500 Btu/h a gpm and degF, or a little less";
    auto survey = hostel();
    survey.recirculation.flow.value = 5.0 * gallon_per_minute;
    EXPECT_EQ(peak_demand(survey)->recirculation_flow, 5.0 * gallon_per_minute);
    survey.recirculation.present.value = false;
    EXPECT_EQ(peak_demand(survey)->recirculation_flow, VolumeFlow());
    EXPECT_EQ(peak_demand(survey)->recirculation_loss, Power());
}

TEST(PeakDemand, TheHourlyMethodCountsShowerBlocksAndSaysWhatItLeavesOut) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::clothes_washer_public, 2}};
    survey.use.blocks = {showers(14, 1.8, 104)};
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand);
    const auto& hourly = named(*demand, "hourly");
    ASSERT_TRUE(hourly.possible_hour);
    double warmer = (140.0 - 45) / (130 - 45);  // the table's gallons are at 140 degF
    EXPECT_NEAR(*hourly.possible_hour / gallon_per_hour, 14 * 75 * warmer, 1e-6);
    EXPECT_NEAR(*hourly.probable_hour / *hourly.possible_hour, 0.25, 1e-12);
    EXPECT_THAT(hourly.says, HasSubstr("clothes-washer-public"));
}

}  // namespace
}  // namespace bw::demand
