// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "code/fixture_units.h"
#include "code/hourly_demand.h"

namespace bw::code {
namespace {

using testing::HasSubstr;

TEST(FixtureUnits, CurvesRiseAndAreRefusedOutside) {
    for (auto curve : {UnitCurve::ipc_flush_tank, UnitCurve::ipc_flushometer, UnitCurve::nspc_flush_tank,
                       UnitCurve::nspc_flushometer}) {
        auto bounds = range(curve);
        EXPECT_FALSE(flow_for_units(bounds.least * 0.99, curve));
        auto past = flow_for_units(bounds.greatest * 1.01, curve);
        ASSERT_FALSE(past);
        EXPECT_THAT(past.error().what, HasSubstr("outside"));
        VolumeFlow before{};
        for (double units = bounds.least; units <= bounds.greatest; units *= 1.01) {
            auto flow = flow_for_units(units, curve);
            ASSERT_TRUE(flow);
            EXPECT_GT(flow->value, before) << title(curve) << " at " << units;
            before = flow->value;
        }
    }
}

TEST(FixtureUnits, BetweenPrintedPointsALineIsDrawnAndSaidSo) {
    auto flow = flow_for_units(27.5, UnitCurve::ipc_flush_tank);  // between 25 (21.5 gpm) and 30 (23.3 gpm)
    ASSERT_TRUE(flow);
    EXPECT_NEAR(flow->value / gallon_per_minute, 22.4, 1e-9);
    EXPECT_THAT(flow->derivation.front().says, HasSubstr("straight line"));
}

TEST(FixtureUnits, EveryFixtureHasARowOrTakesNoHotWater) {
    int without = 0;
    for (auto name : text::names<text::Fixture>()) {
        auto fixture = *text::named<text::Fixture>(name);
        auto hot = hot_units(fixture);
        if (!hot)
            ++without;
        else
            EXPECT_GT(hot->units, 0) << name;
    }
    EXPECT_EQ(without, 2) << "closets and urinals";
}

TEST(HourlyTable, BlanksRangesAndDisputedCells) {
    auto blank = hourly_rate(Building::office, Fixture::bathtub);
    ASSERT_FALSE(blank);
    EXPECT_THAT(blank.error().expected, HasSubstr("hotel"));
    auto range = *hourly_rate(Building::hospital, Fixture::dishwasher);
    EXPECT_LT(range.least, range.greatest);
    EXPECT_EQ(range.used(), range.greatest);
    auto hotel = *hourly_rate(Building::hotel, Fixture::dishwasher);
    ASSERT_TRUE(hotel.other_printing);
    EXPECT_NEAR(*hotel.other_printing / gallon_per_hour, 210, 1e-6);
    auto home = *hourly_rate(Building::residence, Fixture::kitchen_sink);
    ASSERT_TRUE(home.other_printing);
    EXPECT_NEAR(*home.other_printing / gallon_per_hour, 20, 1e-6);
    auto said = hourly_demand(Building::residence, {{Fixture::kitchen_sink, 1}});
    EXPECT_THAT(said->derivation.front().says, HasSubstr("another printed copy has 20 gal/h"));
}

TEST(HourlyTable, RefusesNothingAndLessThanNothing) {
    EXPECT_FALSE(hourly_demand(Building::hotel, {}));
    EXPECT_FALSE(hourly_demand(Building::hotel, {{Fixture::shower, -1}}));
    EXPECT_FALSE(hourly_demand(Building::gymnasium, {{Fixture::service_sink, 1}}));
}

TEST(HourlyTable, EverySurveyFixtureIsARowOrHasNone) {
    const auto& rows = hourly_fixtures();
    for (auto name : text::names<text::Fixture>()) {
        auto row = hourly_row(*text::named<text::Fixture>(name));
        if (row) {
            EXPECT_THAT(rows, testing::Contains(*row)) << name;
        }
    }
    EXPECT_EQ(rows.size(), 10U);
}

}  // namespace
}  // namespace bw::code
