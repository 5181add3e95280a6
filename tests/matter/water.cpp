// SPDX-License-Identifier: MIT
#include "matter/water.h"

#include <gtest/gtest.h>

#include "matter/air.h"

namespace bw::matter {
namespace {

TEST(Water, IsRefusedOutsideFreezingAndBoiling) {
    EXPECT_FALSE(water(celsius(-0.1)));
    EXPECT_FALSE(water(celsius(100.1)));
    EXPECT_FALSE(water(celsius(20), Pressure::from_value(-1)));
    EXPECT_FALSE(water(celsius(20), Pressure::from_value(200e6)));
    EXPECT_FALSE(water(Temperature::from_value(std::nan(""))));
    EXPECT_NE(describe(water(fahrenheit(250)).error()).find("250.0 degF"), std::string::npos);
}

TEST(Water, IsAnsweredAtBothEnds) {
    EXPECT_TRUE(water(fahrenheit(32)));
    EXPECT_TRUE(water(fahrenheit(212)));
    EXPECT_TRUE(water(celsius(0)));
    EXPECT_TRUE(water(celsius(100)));
}

TEST(Water, HasItsGreatestDensityNear4C) {
    const auto at = [](double c) { return si_value(water(celsius(c))->density); };
    EXPECT_GT(at(4), at(0));
    EXPECT_GT(at(4), at(8));
    for (int c = 5; c < 100; ++c) EXPECT_GT(at(c), at(c + 1)) << c;
}

TEST(Water, CondensesWhereItBoils) {
    for (int c = 1; c < 100; ++c) {
        const auto back = condensing_temperature(*vapour_pressure(celsius(c)));
        ASSERT_TRUE(back) << c;
        EXPECT_NEAR(si_value(*back), c + 273.15, 1e-5);
    }
    EXPECT_FALSE(condensing_temperature(Pressure::from_value(100)));
    EXPECT_FALSE(condensing_temperature(Pressure::from_value(2e5)));
}

TEST(Water, TakesTheTradesHeatToWarm) {
    // the trade's 500 Btu/h per gpm and degF, within the couple of per cent that warm water is lighter
    const auto heat = heat_to_warm(1.0 * gallon_per_minute, fahrenheit(50), fahrenheit(120));
    ASSERT_TRUE(heat);
    EXPECT_NEAR(*heat / btu_per_hour, 500 * 70, 0.02 * 500 * 70);
    EXPECT_FALSE(heat_to_warm(1.0 * gallon_per_minute, fahrenheit(120), fahrenheit(50)));
    EXPECT_FALSE(heat_to_warm(1.0 * gallon_per_minute, fahrenheit(50), fahrenheit(250)));
}

TEST(Air, ThinsWithAltitude) {
    EXPECT_DOUBLE_EQ(si_value(*atmosphere(0.0 * metre)), 101325);
    // U.S. Standard Atmosphere 1976, from memory: 84.556 kPa at 1,500 m, 70.109 kPa at 3,000 m (geopotential)
    EXPECT_NEAR(si_value(*atmosphere(1500.0 * metre)), 84556, 20);
    EXPECT_NEAR(si_value(*atmosphere(3000.0 * metre)), 70109, 20);
    EXPECT_FALSE(atmosphere(6000.0 * metre));
    EXPECT_NEAR(si_value(*air_density(celsius(15), one_atmosphere)), 1.225, 0.001);
    EXPECT_FALSE(air_density(celsius(400), one_atmosphere));
}

}  // namespace
}  // namespace bw::matter
