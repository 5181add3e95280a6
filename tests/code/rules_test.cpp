// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "code/altitude.h"
#include "code/clearances.h"
#include "code/combustion_air.h"
#include "code/electric.h"
#include "code/gas_rules.h"
#include "code/hangers.h"
#include "code/movement.h"
#include "code/relief.h"
#include "code/vent_terminal.h"
#include "code/water.h"

namespace bw::code {
namespace {

using testing::HasSubstr;

TEST(GasRules, RegulatorIsNeededOnlyAboveTheHeatersPressureAndOverprotectionAboveTwoPsi) {
    auto none = gas_regulator_rules(7.0 * inch_water, 10.5 * inch_water);
    EXPECT_FALSE(none.needed);
    EXPECT_FALSE(none.overprotection);
    auto two = gas_regulator_rules(2.0 * psi, 10.5 * inch_water);
    EXPECT_TRUE(two.needed);
    EXPECT_FALSE(two.overprotection);
    EXPECT_TRUE(gas_regulator_rules(5.0 * psi, 10.5 * inch_water).overprotection);
}

TEST(GasRules, TestRefusesNothingToTest) {
    EXPECT_FALSE(gas_test(Pressure(), 1.0 * cubic_foot));
    EXPECT_FALSE(gas_test(1.0 * psi, Volume()));
}

TEST(Altitude, TheWholeAltitudeCountsOnceAboveTwoThousandFeet) {
    EXPECT_EQ(altitude_factor(2000.0 * foot)->value, 1);
    EXPECT_NEAR(altitude_factor(5300.0 * foot)->value, 0.788, 1e-12);  // 21 % lost, NFPA 54 2018 11.1.2
    EXPECT_EQ(altitude_factor(-280.0 * foot)->value, 1);
    EXPECT_FALSE(altitude_factor(26000.0 * foot));
    EXPECT_FALSE(altitude_factor(-5000.0 * foot));
}

TEST(Altitude, AMakersRuleCountsOnlyAboveItsStart) {
    EXPECT_EQ(altitude_factor(4000.0 * foot, 0.03, 4500.0 * foot)->value, 1);
    EXPECT_NEAR(altitude_factor(6500.0 * foot, 0.03, 4500.0 * foot)->value, 0.94, 1e-12);
    EXPECT_FALSE(altitude_factor(6500.0 * foot, 1.5, 4500.0 * foot));
}

TEST(CombustionAir, InfiltrationIsNotTakenAboveItsGreatest) {
    auto at = [](double ach) { return indoor_air_volume(100.0 * kbtu_per_hour, ach, Draft::fan_assisted); };
    EXPECT_EQ(at(0.6)->value, at(2)->value);
    EXPECT_GT(at(0.3)->value, at(0.6)->value);
    EXPECT_FALSE(at(0));
}

TEST(CombustionAir, SmallOpeningsToARoomKeepTheLeastArea) {
    EXPECT_NEAR(air_opening(50.0 * kbtu_per_hour, Openings::indoors_same_storey).value.each / square_inch, 100, 1e-9);
    EXPECT_NEAR(air_opening(250.0 * kbtu_per_hour, Openings::indoors_same_storey).value.each / square_inch, 250, 1e-9);
    EXPECT_FALSE(louver_area(1.0 * square_inch, 0.0));
    EXPECT_NEAR(louver_area(10.0 * square_inch, {}, true)->value / square_inch, 40, 1e-9);
}

TEST(Relief, SetPressureIsTheWeakestPartOrOneHundredAndFifty) {
    EXPECT_EQ(relief_set_limit(160.0 * psi).value, 150.0 * psi);
    EXPECT_EQ(relief_set_limit(125.0 * psi).value, 125.0 * psi);
    EXPECT_GE(relief_discharge_rules().size(), 6U);
}

TEST(Water, VelocityFallsAsCopperWarms) {
    auto at = [](double f) { return water_velocity_limit(Material::copper_l, fahrenheit(f))->value; };
    EXPECT_NEAR(at(50) / foot_per_second, 8, 1e-9);
    EXPECT_NEAR(at(120) / foot_per_second, 5, 1e-9);
    EXPECT_NEAR(at(140) / foot_per_second, 5, 1e-9);
    EXPECT_NEAR(at(150) / foot_per_second, 3, 1e-9);
    EXPECT_FALSE(water_velocity_limit(Material::csst, fahrenheit(50)));
}

TEST(Water, InsulationHasARange) {
    EXPECT_FALSE(insulation_thickness(fahrenheit(90), Nominal{16}));
    EXPECT_NEAR(insulation_thickness(fahrenheit(140), Nominal{16})->value / inch, 1.5, 1e-9);
    EXPECT_NEAR(insulation_thickness(fahrenheit(141), Nominal{16})->value / inch, 2, 1e-9);
}

TEST(Clearances, OneHeaterPastTwoHundredThousandIsABoiler) {
    EXPECT_FALSE(heater_class(199.9 * kbtu_per_hour, fahrenheit(140), 0.5 * gallon).value.boiler_rules);
    EXPECT_TRUE(heater_class(201.0 * kbtu_per_hour, fahrenheit(140), 0.5 * gallon).value.boiler_rules);
    EXPECT_TRUE(heater_class(100.0 * kbtu_per_hour, fahrenheit(140), 130.0 * gallon).value.boiler_rules);
    EXPECT_TRUE(heater_class(100.0 * kbtu_per_hour, fahrenheit(212), 1.0 * gallon).value.boiler_rules);
}

TEST(Electric, FourFifthsOfACircuit) {
    EXPECT_EQ(heaters_per_circuit(4.0 * ampere, 20.0 * ampere)->value, 4);
    EXPECT_EQ(heaters_per_circuit(4.1 * ampere, 20.0 * ampere)->value, 3);
    auto none = heaters_per_circuit(18.0 * ampere, 20.0 * ampere);
    ASSERT_FALSE(none);
    EXPECT_THAT(none.error().what, HasSubstr("80 %"));
}

TEST(Hangers, UnknownPipeIsRefused) {
    EXPECT_FALSE(hanger_spacing(Material::csst, Nominal{8}));
    EXPECT_FALSE(support_spacing(Material::cpvc, Nominal{8}));
    EXPECT_FALSE(support_spacing(Material::copper_l, Nominal{100}));
}

TEST(Hangers, RodsByPipeSizeAndLoad) {
    // MSS SP-58, from memory: 3/8 in rod to 2 in pipe, 1/2 to 3-1/2, 5/8 to 5, 3/4 at 6, 7/8 to 12
    const std::pair<int, int> rods[] = {{4, 3}, {16, 3}, {20, 4}, {28, 4}, {32, 5}, {40, 5}, {48, 6}, {64, 7}, {96, 7}};
    for (const auto& [pipe, rod] : rods) EXPECT_EQ(hanger_rod(Nominal{pipe})->value.eighths, rod) << pipe;
    EXPECT_FALSE(hanger_rod(Nominal{112}));
    // MSS SP-58 load ratings up to 650 degF, the lower printing, from memory
    const std::pair<int, double> loads[] = {{3, 610}, {4, 1130}, {5, 1810}, {6, 2710}, {7, 3770}};
    for (const auto& [rod, load] : loads) EXPECT_NEAR(rod_load(Nominal{rod})->value / pound_force, load, 1e-9);
    EXPECT_FALSE(rod_load(Nominal{2}));
}

/// Copper Tube Handbook, expansion offsets for 1/2 in of movement, from memory: tube of 3/8, 1/2, 5/8, 7/8, 1-1/8 and
/// 1-5/8 in outside takes 38, 44, 50, 59, 67 and 80 in of developed length. The book rounds and takes a softer copper:
/// ours is never shorter, nor more than 6 % longer.
TEST(Movement, LegsAreTheHandbooksOrALittleLonger) {
    const auto copper = movement(Material::copper_l)->value;
    const std::pair<double, double> rows[] = {{0.375, 38}, {0.5, 44},   {0.625, 50},
                                              {0.875, 59}, {1.125, 67}, {1.625, 80}};
    for (const auto& [outside, leg] : rows) {
        const double ours = cantilever_leg(copper, outside * inch, 0.5 * inch) / inch;
        EXPECT_GE(ours, leg) << outside;
        EXPECT_LE(ours, 1.06 * leg) << outside;
        EXPECT_NEAR(cantilever_takes(copper, outside * inch, ours * inch) / inch, 0.5, 1e-9);
    }
}

/// 100 ft of copper warmed by 100 degF grows 1-1/8 in; steel 3/4 in (handbooks of the trade, from memory).
TEST(Movement, AHundredFeetWarmedByAHundredDegrees) {
    const auto grown = [](Material m) {
        return growth(movement(m)->value, 100.0 * foot, 100.0 * degF_difference) / inch;
    };
    EXPECT_NEAR(grown(Material::copper_l), 1.128, 0.005);
    EXPECT_NEAR(grown(Material::steel_40), 0.76, 0.03);
    EXPECT_NEAR(grown(Material::cpvc), 4.08, 0.01);
    EXPECT_FALSE(movement(Material::csst));
}

TEST(VentTerminal, LargerDirectVentsKeepFartherOff) {
    auto opening = [](double kbtu) { return direct_vent_distances(kbtu * kbtu_per_hour).front().least; };
    EXPECT_LT(opening(9).value, opening(40).value);
    EXPECT_LT(opening(40).value, opening(60).value);
    EXPECT_THAT(opening(199).says, HasSubstr("instructions"));
}

}  // namespace
}  // namespace bw::code
