// SPDX-License-Identifier: MIT
// A day's draw: timetable, volumes, risk, stores and advice.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {
namespace {

using testing::HasSubstr;
using text::Fixture;

double gpm(VolumeFlow flow) { return flow / gallon_per_minute; }

catalogue::Heater heater(const std::string& key, double kbtu, double price) {
    catalogue::Heater h;
    h.key = h.title = key;
    h.input_greatest = kbtu * kbtu_per_hour;
    h.input_least = 0.1 * h.input_greatest;
    h.efficiency = {{fahrenheit(35), 0.98}, {fahrenheit(180), 0.86}};
    h.flow_least = 0.5 * gallon_per_minute;
    h.flow_greatest = 10.0 * gallon_per_minute;
    h.pressure_drop = {{VolumeFlow(), Pressure()}, {10.0 * gallon_per_minute, 30.0 * psi}};
    h.gas = {{text::Gas::natural, 3.5 * inch_water, 10.5 * inch_water}};
    h.setpoint_greatest = fahrenheit(185);
    h.altitude_greatest = 10000.0 * foot;
    h.greatest_group = 24;
    h.hardness_greatest = 150;
    h.price = price;
    return h;
}

survey::Survey hostel() {
    survey::Survey s;
    s.use.building.value = text::Building::hotel;
    s.use.fixtures = {{Fixture::shower_public, 13}, {Fixture::basin_public, 16}};
    s.supply.coldest.value = fahrenheit(45);
    s.supply.hardness.value = 110;
    s.temperatures.distribution.value = fahrenheit(130);
    s.temperatures.use.value = fahrenheit(105);
    s.gas.kind.value = text::Gas::natural;
    s.gas.delivery_pressure.value = 7.0 * inch_water;
    s.preferences.spare.value = survey::SparePolicy::none;
    return s;
}

survey::Block washers(int count, std::vector<survey::Hours> runs = {}) {
    survey::Block block;
    block.name = "washers";
    block.count = count;
    block.flow = 3.0 * gallon_per_minute;
    block.temperature = fahrenheit(130);
    block.runs = std::move(runs);
    return block;
}

Capacity of(const survey::Survey& survey, std::vector<catalogue::Heater> heaters = {heater("a", 199, 1000)}) {
    catalogue::Catalogue shop;
    shop.heaters = std::move(heaters);
    EXPECT_TRUE(shop.index());
    auto demand = peak_demand(survey);
    EXPECT_TRUE(demand) << describe(demand.error());
    auto out = capacity(survey, *demand, shop);
    EXPECT_TRUE(out) << describe(out.error());
    return out.value_or(Capacity{});
}

const reason::Check& advised(const Capacity& capacity, std::string_view id) {
    for (const auto& check : capacity.advice)
        if (check.id == id) return check;
    ADD_FAILURE() << "no advice " << id;
    return capacity.advice.front();
}

TEST(Timetable, BlocksThatDoNotMeetAreNotAddedUp) {
    auto survey = hostel();
    survey.use.blocks = {washers(2, {{540, 660}}), washers(3, {{840, 960}})};
    auto apart = peak_demand(survey);
    ASSERT_TRUE(apart);
    EXPECT_NEAR(gpm(apart->blocks), 9, 1e-9);
    survey.use.blocks[0].runs = {{900, 930}};
    EXPECT_NEAR(gpm(peak_demand(survey)->blocks), 15, 1e-9);
    survey.use.blocks[0].runs.clear();
    survey.use.blocks[1].runs.clear();
    EXPECT_NEAR(gpm(peak_demand(survey)->blocks), 15, 1e-9) << "without times both run in the busiest hour";
}

TEST(Timetable, RunsOverMidnight) {
    auto survey = hostel();
    survey.use.blocks = {washers(2, {{23 * 60, 25 * 60}}), washers(3, {{0, 30}})};
    EXPECT_NEAR(gpm(peak_demand(survey)->blocks), 15, 1e-9);
}

TEST(Timetable, StretchesCoverTheDayOnce) {
    auto survey = hostel();
    survey.use.blocks = {washers(2, {{545, 661}}), washers(3, {{600, 601}})};
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand);
    int at = 0;
    for (const auto& stretch : demand->day.stretches) {
        EXPECT_EQ(stretch.from, at);
        EXPECT_GT(stretch.to, stretch.from);
        at = stretch.to;
    }
    EXPECT_EQ(at, 24 * 60);
}

TEST(Day, TheLargestHourIsTheProbableHourAndBlocksAreAdded) {
    auto demand = peak_demand(hostel());
    ASSERT_TRUE(demand);
    // (13 x 75 + 16 x 8) x 0.25 at 140 degF; 95/85 as much at 130 degF
    EXPECT_NEAR(demand->day.largest_hour / gallon, 0.25 * (13 * 75 + 16 * 8) * 95 / 85, 0.01);
    auto survey = hostel();
    survey.use.blocks = {washers(2, {{13 * 60, 14 * 60}})};
    auto with = peak_demand(survey);
    EXPECT_NEAR((with->day.volume[13] - demand->day.volume[13]) / gallon, 2 * 3 * 60, 1e-6);
    EXPECT_NEAR((with->day.total - demand->day.total) / gallon, 2 * 3 * 60, 1e-6);
}

TEST(Day, ThoseServedSetHourAndDayWhereTheyAreMore) {
    auto survey = hostel();
    survey.use.occupancies = {{"dormitory-women", 300}};
    auto demand = peak_demand(survey);
    ASSERT_TRUE(demand) << describe(demand.error());
    EXPECT_NEAR(demand->day.largest_hour / gallon, 300 * 5.0 * 95 / 85, 0.01);
    EXPECT_NEAR(demand->day.total / gallon, 300 * 26.5 * 95 / 85, 1);
    survey.use.occupancies.front().kind = "dormitory-womenn";
    EXPECT_FALSE(peak_demand(survey));
}

TEST(Risk, EachHeaterMoreMakesShortageRarer) {
    const auto capacity = of(hostel());
    ASSERT_EQ(capacity.risk.size(), static_cast<std::size_t>(capacity.installed + 3));
    for (std::size_t i = 0; i < capacity.risk.size(); ++i) {
        const auto& point = capacity.risk[i];
        EXPECT_EQ(point.heaters, static_cast<int>(i) + 1);
        EXPECT_GE(point.short_chance, 0);
        EXPECT_LE(point.short_chance, 1);
        EXPECT_LE(point.minutes_a_year, 365.0 * 24 * 60);
        if (i == 0) continue;
        EXPECT_GT(point.flow, capacity.risk[i - 1].flow);
        EXPECT_LE(point.short_chance, capacity.risk[i - 1].short_chance);
        EXPECT_LE(point.minutes_a_year, capacity.risk[i - 1].minutes_a_year);
        EXPECT_GE(point.coldest, capacity.risk[i - 1].coldest);
    }
    const auto enough = enough_by_chance(capacity.risk, 0.01);
    ASSERT_TRUE(enough);
    EXPECT_GT(*enough, 1);
    EXPECT_LT(*enough, capacity.installed) << "fixture units ask for more than the chances do";
    EXPECT_EQ(capacity.risk[static_cast<std::size_t>(*enough) - 1].coldest, fahrenheit(130));
}

TEST(Risk, IsTheChanceThatTheFixturesDrawMore) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::shower_public, 10}};
    survey.use.busy[Fixture::shower_public] = 0.5;
    const auto demand = peak_demand(survey);
    const auto capacity = of(survey);
    // 2 gpm x 60 / 85 = 1.41 gpm of hot water each
    const double each = gpm(capacity.risk.front().flow);
    const int carried = static_cast<int>(each / 1.41);
    double short_chance = 0, term = std::pow(0.5, 10);
    for (int k = 0; k <= 10; ++k) {
        if (k > carried) short_chance += term;
        term *= static_cast<double>(10 - k) / (k + 1);
    }
    EXPECT_NEAR(capacity.risk.front().short_chance, short_chance, 1e-12);
}

TEST(Risk, TheColdestOutletKeepsTheHeat) {
    auto survey = hostel();
    const auto demand = peak_demand(survey);
    const auto capacity = of(survey);
    const auto& point = capacity.risk[1];
    ASSERT_LT(point.coldest, demand->hot);
    const auto asked = demand->levels->back().spread.percentile(0.99);
    EXPECT_NEAR(*matter::heat_to_warm(asked, demand->cold, point.coldest) / (2.0 * capacity.each.output), 1, 1e-6);
}

TEST(Risk, BlocksThatRunAreSureToBeThere) {
    auto survey = hostel();
    survey.use.fixtures.clear();
    survey.use.blocks = {washers(4, {{600, 660}})};
    const auto capacity = of(survey);
    EXPECT_EQ(capacity.risk.front().short_chance, 1);
    EXPECT_NEAR(capacity.risk.front().minutes_a_year, 365 * 60, 1e-6);
    EXPECT_EQ(capacity.risk[static_cast<std::size_t>(capacity.needed) - 1].short_chance, 0);
}

TEST(Store, FewerHeatersWantALargerTank) {
    const auto capacity = of(hostel());
    ASSERT_GT(capacity.stores.size(), 3U);
    for (std::size_t i = 1; i < capacity.stores.size(); ++i) {
        EXPECT_LT(capacity.stores[i].tank, capacity.stores[i - 1].tank);
        EXPECT_GT(capacity.stores[i].recovery, capacity.stores[i - 1].recovery);
        EXPECT_NEAR(capacity.stores[i - 1].usable / capacity.stores[i - 1].tank, 0.7, 1e-9);
    }
    EXPECT_EQ(capacity.stores.back().heaters, capacity.needed);
    EXPECT_EQ(capacity.stores.back().tank, Volume()) << "enough heaters need no store";
}

TEST(Spare, AShareIsMetWithOneDown) {
    auto survey = hostel();
    const auto bare = of(survey);
    survey.preferences.spare.value = survey::SparePolicy::share_one_down;
    survey.preferences.spare_share.value = 1;
    EXPECT_EQ(of(survey).installed, bare.needed + 1) << "the whole peak: one spare";
    survey.preferences.spare_share.value = 0.5;
    EXPECT_EQ(of(survey).installed, bare.needed) << "half of it is met anyway";
    survey.use.care = true;
    EXPECT_THAT(of(survey).says, HasSubstr("People in care"));
}

TEST(Duty, ScaleAndPressureTakeTheirShare) {
    const auto model = heater("a", 199, 1);
    const auto bare = heater_output(model, fahrenheit(45), fahrenheit(130), Length(), text::Gas::natural);
    const auto scaled = heater_output(model, fahrenheit(45), fahrenheit(130), Length(), text::Gas::natural, {0.1, {}});
    ASSERT_TRUE(bare && scaled);
    EXPECT_NEAR(scaled->output / bare->output, 0.9, 1e-12);
    const auto weak =
        heater_output(model, fahrenheit(45), fahrenheit(130), Length(), text::Gas::natural, {0, 6.0 * psi});
    ASSERT_TRUE(weak);
    EXPECT_TRUE(weak->limited_by_flow);
    EXPECT_NEAR(*catalogue::pressure_drop(model, weak->flow) / (6.0 * psi), 1, 1e-6);
    EXPECT_LT(weak->flow, bare->flow);
}

TEST(Mixed, APairIsShownWhereItIsCheaper) {
    const auto big = heater("big", 199, 2000), small = heater("small", 99, 1100);
    auto survey = hostel();
    survey.use.fixtures[Fixture::basin_public] = 20;
    const auto capacity = of(survey, {big, small});
    // six big ones at 4.5 gpm for 24.0 gpm, or eleven small ones; five and one do it for less
    EXPECT_EQ(capacity.heater, "big");
    ASSERT_TRUE(capacity.mixed);
    EXPECT_EQ(capacity.mixed->of_first + capacity.mixed->of_second, 6);
    EXPECT_NEAR(capacity.mixed->price, 5 * 2000 + 1100, 1e-9);
    EXPECT_GE(gpm(capacity.mixed->flow), gpm(peak_demand(survey)->peak) * (1 - 1e-9));
    // a small heater that costs a fifth for half the heat is worth mixing in nowhere: it is taken alone
    const auto cheap = of(survey, {big, heater("cheap", 99, 400)});
    EXPECT_EQ(cheap.heater, "cheap");
    EXPECT_FALSE(cheap.mixed);
}

TEST(Advice, SaysWhatHappensBelowTheLeastFlow) {
    auto survey = hostel();
    survey.use.fixtures = {{Fixture::basin_public, 4}};
    auto capacity = of(survey);
    EXPECT_EQ(advised(capacity, "demand.one-tap").status, reason::Status::refer);
    EXPECT_THAT(advised(capacity, "demand.one-tap").says, HasSubstr("unheated"));
    survey.recirculation.present.value = true;
    survey.recirculation.loss.value = 2.0 * kbtu_per_hour;
    survey.recirculation.flow.value = 0.3 * gallon_per_minute;
    capacity = of(survey);
    EXPECT_THAT(advised(capacity, "demand.loop-alone").says, HasSubstr("fires no heater"));
    EXPECT_THAT(advised(capacity, "demand.loop-heat").says, HasSubstr("starts over and over"));
    survey.recirculation.flow.value = 4.0 * gallon_per_minute;
    survey.recirculation.loss.value = 25.0 * kbtu_per_hour;
    capacity = of(survey);
    EXPECT_EQ(advised(capacity, "demand.loop-alone").status, reason::Status::pass);
    EXPECT_EQ(advised(capacity, "demand.loop-heat").status, reason::Status::pass);
}

TEST(Advice, LeanGasIsForAFitterToSet) {
    auto survey = hostel();
    survey.gas.heating_value.value = 1030.0 * btu_per_cubic_foot;
    survey.gas.specific_gravity.value = 0.60;
    EXPECT_EQ(advised(of(survey), "demand.gas-quality").status, reason::Status::pass);
    survey.gas.heating_value.value = 870.0 * btu_per_cubic_foot;
    const auto lean = of(survey);
    EXPECT_EQ(advised(lean, "demand.gas-quality").status, reason::Status::refer);
    EXPECT_THAT(advised(lean, "demand.gas-quality").says, HasSubstr("about 87 %"));
}

TEST(Advice, AStoreWishedForIsAnswered) {
    auto survey = hostel();
    survey.preferences.tank = 400.0 * gallon;
    const auto capacity = of(survey);
    const auto& check = advised(capacity, "demand.store");
    EXPECT_EQ(check.status, reason::Status::refer);
    const auto enough = std::find_if(capacity.stores.begin(), capacity.stores.end(),
                                     [](const StoreOption& s) { return s.tank <= 400.0 * gallon; });
    ASSERT_NE(enough, capacity.stores.end());
    EXPECT_THAT(check.says, HasSubstr(fmt::format("With it {} heater", enough->heaters)));
}

TEST(Advice, ScaldsScaleAndGermsAreReferred) {
    auto survey = hostel();
    auto capacity = of(survey);
    for (const auto* id : {"demand.scald", "demand.scale", "demand.germs"})
        EXPECT_EQ(advised(capacity, id).status, reason::Status::refer) << id;
    EXPECT_THAT(advised(capacity, "demand.scald").says, HasSubstr("about 30 s"));
    EXPECT_THAT(advised(capacity, "demand.scald").says, HasSubstr("ASSE 1017"));
    EXPECT_THAT(advised(capacity, "demand.scale").says, HasSubstr("every 12 months"));
    survey.supply.hardness.value = 200;
    EXPECT_THAT(advised(of(survey), "demand.scale").says, HasSubstr("harder than the heater's maker allows"));
    survey.use.care = true;
    EXPECT_THAT(advised(of(survey), "demand.germs").says, HasSubstr("water safety team"));
}

}  // namespace
}  // namespace bw::demand
