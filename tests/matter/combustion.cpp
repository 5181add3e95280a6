// SPDX-License-Identifier: MIT
#include "matter/combustion.h"

#include <gtest/gtest.h>

#include "matter/air.h"

namespace bw::matter {
namespace {

TEST(Combustion, KeepsItsAtoms) {
    for (const auto gas : {Gas::natural, Gas::propane}) {
        for (const double excess : {0.0, 0.25, 1.0, 5.0}) {
            const auto burnt = *combustion(gas, excess);
            const double dry = burnt.flue_gas - burnt.water_vapour;
            const double oxygen = dry * (burnt.co2_dry + burnt.oxygen_dry) + burnt.water_vapour / 2;
            EXPECT_NEAR(oxygen, 0.21 * burnt.air, 1e-12);
            EXPECT_NEAR(dry * burnt.co2_dry, fuel(gas).carbon, 1e-12);
            const double nitrogen = dry * (1 - burnt.co2_dry - burnt.oxygen_dry);
            EXPECT_NEAR(nitrogen, 0.79 * burnt.air, 1e-12);
        }
    }
}

TEST(Combustion, DilutesAndDriesWithExcessAirAndAltitude) {
    EXPECT_LT(combustion(Gas::natural, 0.5)->co2_dry, combustion(Gas::natural, 0.2)->co2_dry);
    EXPECT_LT(combustion(Gas::natural, 0.5)->dew_point, combustion(Gas::natural, 0.2)->dew_point);
    const auto high = *atmosphere(5300.0 * foot);
    EXPECT_LT(combustion(Gas::propane, 0.25, high)->dew_point, combustion(Gas::propane, 0.25)->dew_point);
}

TEST(Combustion, IsRefusedOutsideItsRange) {
    EXPECT_FALSE(combustion(Gas::natural, -0.01));
    EXPECT_FALSE(combustion(Gas::natural, 5.1));
    EXPECT_FALSE(combustion(Gas::natural, std::nan("")));
    EXPECT_FALSE(combustion(Gas::natural, 0, Pressure::from_value(10e3)));
}

TEST(Condensate, FlowsOnlyBelowTheDewPoint) {
    const auto dew = combustion(Gas::natural, 0.25)->dew_point;
    EXPECT_EQ(*condensed_share(Gas::natural, 0.25, kelvin(si_value(dew) + 0.1)), 0);
    EXPECT_GT(*condensed_share(Gas::natural, 0.25, kelvin(si_value(dew) - 0.1)), 0);
    EXPECT_LT(*condensed_share(Gas::natural, 0.25, kelvin(si_value(dew) - 0.1)), 0.02);
    EXPECT_EQ(*condensed_share(Gas::natural, 0.25, celsius(100)), 0);
    EXPECT_FALSE(condensed_share(Gas::natural, 0.25, celsius(120)));
}

TEST(Condensate, IsAboutAGallonAnHourPer100kBtu) {
    // common practice, no source: about one gallon an hour per 100 kBtu/h at cold return
    const auto flow = condensate(Gas::natural, 100.0 * kbtu_per_hour, fuel(Gas::natural).higher, 0.25, fahrenheit(60));
    ASSERT_TRUE(flow);
    EXPECT_NEAR(flow->flow / gallon_per_hour, 1, 0.1);
    EXPECT_FALSE(condensate(Gas::natural, -1.0 * kbtu_per_hour, fuel(Gas::natural).higher, 0.25, fahrenheit(60)));
    EXPECT_FALSE(condensate(Gas::natural, 1.0 * kbtu_per_hour, 0.0 * btu_per_cubic_foot, 0.25, fahrenheit(60)));
}

}  // namespace
}  // namespace bw::matter
