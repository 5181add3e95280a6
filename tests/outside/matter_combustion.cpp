// SPDX-License-Identifier: MIT
// Combustion of methane and propane against stoichiometry worked out apart from the program.
#include <gtest/gtest.h>

#include "matter/combustion.h"

namespace bw::matter {
namespace {

double dew_point_c(Gas gas, double excess) { return si_value(combustion(gas, excess)->dew_point) - 273.15; }

// Stoichiometry, computed from the published formula: 11.74 % and 13.76 % of the dry flue gas, 0.1 point.
TEST(OutsideCombustion, UltimateCarbonDioxide) {
    EXPECT_NEAR(combustion(Gas::natural, 0)->co2_dry, 0.1174, 0.001);
    EXPECT_NEAR(combustion(Gas::propane, 0)->co2_dry, 0.1376, 0.001);
}

// Stoichiometry, computed from the published formula: propane at 20 % excess air, 11.3 % dry, 0.1 point.
TEST(OutsideCombustion, CarbonDioxideWithExcessAir) {
    EXPECT_NEAR(combustion(Gas::propane, 0.2)->co2_dry, 0.113, 0.001);
}

// Mass of water made per mass of fuel, computed from the published formula: 2.2458 and 1.6341, 0.1 %; volume of vapour
// per volume of propane: 4, exact.
TEST(OutsideCombustion, WaterMade) {
    EXPECT_NEAR(combustion(Gas::natural, 0)->water_per_fuel, 2.2458, 0.0022);
    EXPECT_NEAR(combustion(Gas::propane, 0)->water_per_fuel, 1.6341, 0.0016);
    EXPECT_EQ(combustion(Gas::propane, 0.3)->water_vapour, 4.0);
}

// Stoichiometry and IAPWS-IF97, computed from the published formulas: methane in dry air at one atmosphere, 59.25 degC
// without excess air and 51.44 degC with 50 %, 0.3 degC.
TEST(OutsideCombustion, DewPointOfMethane) {
    EXPECT_NEAR(dew_point_c(Gas::natural, 0), 59.25, 0.3);
    EXPECT_NEAR(dew_point_c(Gas::natural, 0.5), 51.44, 0.3);
    const auto burnt = *combustion(Gas::natural, 0);
    EXPECT_NEAR(burnt.water_vapour / burnt.flue_gas, 0.1901, 0.0002);
}

// Air per volume of fuel in the trade's combustion tables, from memory: methane 9.53, propane 23.82.
TEST(OutsideCombustion, AirNeeded) {
    EXPECT_NEAR(combustion(Gas::natural, 0)->air, 9.53, 0.02);
    EXPECT_NEAR(combustion(Gas::propane, 0)->air, 23.82, 0.02);
}

// Condensate of methane worked by hand from the figures above: 100 kBtu/h at 1,012 Btu/ft3 is 98.81 ft3/h, 118.1 mol/h
// of methane, 4.256 kg/h of water; leaving at 20 degC, 8.524 volumes dry keep 8.524 * 2.3392/(101.325 - 2.3392) =
// 0.2014 volumes of the 2 made, so 89.93 % condenses: 3.827 kg/h, or 1.01 gal/h.
TEST(OutsideCombustion, CondensateOfMethane) {
    const auto flow = condensate(Gas::natural, 100.0 * kbtu_per_hour, 1012.0 * btu_per_cubic_foot, 0, celsius(20));
    ASSERT_TRUE(flow);
    EXPECT_NEAR(flow->share, 0.8993, 0.0005);
    EXPECT_NEAR(si_value(flow->mass) * 3600, 3.827, 0.01);
    EXPECT_NEAR(flow->flow / gallon_per_hour, 1.01, 0.01);
}

// The same for propane: 100 kBtu/h at 2,516 Btu/ft3 is 39.75 ft3/h, 47.5 mol/h, four volumes of water: 3.424 kg/h;
// leaving at 20 degC 21.81 volumes dry keep 0.5154 of the 4, so 87.1 % condenses: 2.983 kg/h.
TEST(OutsideCombustion, CondensateOfPropane) {
    const auto flow = condensate(Gas::propane, 100.0 * kbtu_per_hour, 2516.0 * btu_per_cubic_foot, 0, celsius(20));
    ASSERT_TRUE(flow);
    EXPECT_NEAR(flow->share, 0.871, 0.001);
    EXPECT_NEAR(si_value(flow->mass) * 3600, 2.983, 0.01);
}

}  // namespace
}  // namespace bw::matter
