// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {
namespace {

using testing::HasSubstr;

catalogue::Heater heater(const std::string& key, double kbtu, double price) {
    catalogue::Heater h;
    h.key = key;
    h.title = key;
    h.input_greatest = kbtu * kbtu_per_hour;
    h.input_least = 0.1 * h.input_greatest;
    h.efficiency = {{fahrenheit(35), 0.98}, {fahrenheit(180), 0.86}};
    h.flow_least = 0.5 * gallon_per_minute;
    h.flow_greatest = 10.0 * gallon_per_minute;
    h.gas = {{text::Gas::natural, 3.5 * inch_water, 10.5 * inch_water}};
    h.setpoint_greatest = fahrenheit(185);
    h.altitude_greatest = 10000.0 * foot;
    h.greatest_group = 16;
    h.price = price;
    return h;
}

survey::Survey job() {
    survey::Survey s;
    s.supply.coldest.value = fahrenheit(50);
    s.temperatures.distribution.value = fahrenheit(120);
    s.gas.kind.value = text::Gas::natural;
    s.gas.delivery_pressure.value = 7.0 * inch_water;
    s.preferences.spare.value = survey::SparePolicy::none;
    return s;
}

Demand demand_of(double gpm, double loop_kbtu = 0) {
    Demand d;
    d.cold = fahrenheit(50);
    d.hot = fahrenheit(120);
    d.peak = d.fixtures = gpm * gallon_per_minute;
    d.recirculation_loss = loop_kbtu * kbtu_per_hour;
    d.recirculation_flow = loop_kbtu / 5 * gallon_per_minute;
    return d;
}

catalogue::Catalogue shop(std::vector<catalogue::Heater> heaters) {
    catalogue::Catalogue c;
    c.heaters = std::move(heaters);
    EXPECT_TRUE(c.index());
    return c;
}

TEST(HeaterOutput, HeatIntoTheWaterIsTheFlowTimesItsRise) {
    auto out = heater_output(heater("a", 199, 1), fahrenheit(50), fahrenheit(120), Length(), text::Gas::natural);
    ASSERT_TRUE(out) << describe(out.error());
    EXPECT_FALSE(out->limited_by_flow);
    EXPECT_NEAR(*matter::heat_to_warm(out->flow, fahrenheit(50), fahrenheit(120)) / out->output, 1, 1e-12);
    // TRADE: a 199 at 70 degF rise makes about 5.4 gpm; common practice, no source.
    EXPECT_NEAR(out->flow / gallon_per_minute, 5.5, 0.15);
}

TEST(HeaterOutput, AltitudeIsTakenOffOnce) {
    auto h = heater("a", 199, 1);
    auto sea = heater_output(h, fahrenheit(50), fahrenheit(120), Length(), text::Gas::natural);
    auto high = heater_output(h, fahrenheit(50), fahrenheit(120), 5300.0 * foot, text::Gas::natural);
    ASSERT_TRUE(sea && high);
    EXPECT_NEAR(high->output / sea->output, 0.788, 1e-12);
    h.derate_per_1000ft = 0.02;
    h.derate_above = 3000.0 * foot;
    auto maker = heater_output(h, fahrenheit(50), fahrenheit(120), 5300.0 * foot, text::Gas::natural);
    EXPECT_NEAR(maker->altitude_factor, 1 - 0.02 * 2.3, 1e-12);
    const auto beside = std::find_if(maker->derivation.begin(), maker->derivation.end(), [](const reason::Step& step) {
        return step.result && step.result->symbol == "fc";
    });
    ASSERT_NE(beside, maker->derivation.end()) << "the code's rule stands beside the maker's";
    EXPECT_NEAR(beside->result->amount.si, 0.788, 1e-12);
}

TEST(HeaterOutput, ASmallRiseIsLimitedByTheGreatestFlow) {
    auto out = heater_output(heater("a", 199, 1), fahrenheit(80), fahrenheit(105), Length(), text::Gas::natural);
    ASSERT_TRUE(out);
    EXPECT_TRUE(out->limited_by_flow);
    EXPECT_NEAR(out->flow / gallon_per_minute, 10, 1e-12);
}

TEST(HeaterOutput, RefusesByName) {
    auto h = heater("a", 199, 1);
    auto what = [&](Temperature hot, Length altitude, text::Gas gas) {
        auto out = heater_output(h, fahrenheit(50), hot, altitude, gas);
        return out ? std::string("accepted") : out.error().what;
    };
    EXPECT_THAT(what(fahrenheit(120), 12000.0 * foot, text::Gas::natural), HasSubstr("may stand no higher"));
    EXPECT_THAT(what(fahrenheit(120), Length(), text::Gas::propane), HasSubstr("does not burn propane"));
    EXPECT_THAT(what(fahrenheit(190), Length(), text::Gas::natural), HasSubstr("goes no higher than"));
    EXPECT_THAT(what(fahrenheit(45), Length(), text::Gas::natural), HasSubstr("not above cold"));
}

TEST(Capacity, EnoughAndNotOneTooMany) {
    auto catalogue = shop({heater("a", 199, 1)});
    for (double gpm = 1; gpm < 80; gpm += 1.7) {
        auto out = capacity_of(job(), demand_of(gpm), catalogue, catalogue.heaters.front());
        ASSERT_TRUE(out) << gpm;
        EXPECT_GE(out->flow / gallon_per_minute, gpm * (1 - 1e-8));
        EXPECT_LT(out->flow / gallon_per_minute, gpm + out->each.flow / gallon_per_minute);
        EXPECT_EQ(out->spare, 0);
    }
}

TEST(Capacity, TheLoopsLossIsAddedToThePeak) {
    auto catalogue = shop({heater("a", 199, 1)});
    auto each = capacity_of(job(), demand_of(1), catalogue, catalogue.heaters.front())->each.flow / gallon_per_minute;
    auto bare = capacity_of(job(), demand_of(3.99 * each), catalogue, catalogue.heaters.front());
    auto loop = capacity_of(job(), demand_of(3.99 * each, 15), catalogue, catalogue.heaters.front());
    EXPECT_EQ(bare->needed, 4);
    EXPECT_EQ(loop->needed, 5);
}

TEST(Capacity, SpareByPolicy) {
    auto catalogue = shop({heater("a", 199, 1)});
    auto survey = job();
    auto at = [&] { return *capacity_of(survey, demand_of(21), catalogue, catalogue.heaters.front()); };
    int needed = at().needed;
    survey.preferences.spare.value = survey::SparePolicy::one;
    EXPECT_EQ(at().installed, needed + 1);
    EXPECT_NEAR(at().flow_firm / (static_cast<double>(needed) * at().each.flow), 1, 1e-12);
    survey.preferences.spare.value = survey::SparePolicy::share;
    survey.preferences.spare_share.value = 0.5;
    EXPECT_GE(at().flow / gallon_per_minute, 1.5 * 21);
    EXPECT_LT(at().flow / gallon_per_minute - at().each.flow / gallon_per_minute, 1.5 * 21);
}

TEST(Capacity, LeastCostThatFitsAndTheRestNamed) {
    auto dear = heater("dear", 199, 5000), cheap = heater("cheap", 160, 1000), propane = heater("propane", 199, 10);
    propane.gas.front().gas = text::Gas::propane;
    auto catalogue = shop({dear, cheap, propane});
    auto out = capacity(job(), demand_of(30), catalogue);
    ASSERT_TRUE(out) << describe(out.error());
    EXPECT_EQ(out->heater, "cheap");
    ASSERT_EQ(out->options.size(), 3U);
    EXPECT_EQ(out->options[0].heater, "cheap");
    EXPECT_EQ(out->options[1].heater, "dear");
    EXPECT_THAT(out->options[2].refused, HasSubstr("does not burn natural"));
    EXPECT_THAT(out->says, HasSubstr("Least cost"));
}

TEST(Capacity, TheSurveysOwnPriceAndPreferenceCount) {
    auto catalogue = shop({heater("a", 199, 1000), heater("b", 199, 1100)});
    auto survey = job();
    survey.preferences.prices["b"] = 900;
    EXPECT_EQ(capacity(survey, demand_of(30), catalogue)->heater, "b");
    survey.preferences.heater = "a";
    auto preferred = capacity(survey, demand_of(30), catalogue);
    EXPECT_EQ(preferred->heater, "a");
    EXPECT_THAT(preferred->options.back().refused, HasSubstr("the survey asks for a"));
    survey.preferences.heater = "none-such";
    auto missing = capacity(survey, demand_of(30), catalogue);
    ASSERT_FALSE(missing);
    EXPECT_THAT(missing.error().expected, HasSubstr("a, b"));
}

TEST(Capacity, MoreThanOneGroupIsAPlantOfSeveralUnlessTheMakerLetsFewerStandTogether) {
    auto catalogue = shop({heater("a", 120, 1)});
    auto out = capacity(job(), demand_of(100), catalogue);
    ASSERT_TRUE(out) << describe(out.error());
    EXPECT_GT(out->installed, 16);
    const auto groups = catalogue::linked_groups(catalogue.heaters.front(), out->installed);
    EXPECT_GE(groups.size(), 2U);
    for (const int heaters : groups) EXPECT_LE(heaters, 16);
    catalogue.heaters.front().groups_together = 1;
    auto refused = capacity(job(), demand_of(100), catalogue);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().what, HasSubstr("at most 1 such groups"));
}

TEST(Capacity, WhatTheModelCannotDoHere) {
    auto survey = job();
    auto catalogue = shop({heater("a", 199, 1)});
    auto why = [&] {
        auto out = capacity_of(survey, demand_of(10), catalogue, catalogue.heaters.front());
        return out ? std::string("accepted") : out.error().what;
    };
    EXPECT_EQ(why(), "accepted");
    survey.preferences.vent.value = survey::VentPreference::common;
    EXPECT_THAT(why(), HasSubstr("not listed for common venting"));
    survey = job();
    survey.preferences.room_air.value = true;
    EXPECT_THAT(why(), HasSubstr("may not burn room air"));
    survey = job();
    survey.gas.delivery_pressure.value = 3.0 * inch_water;
    EXPECT_THAT(why(), HasSubstr("at its gas inlet"));
}

}  // namespace
}  // namespace bw::demand
