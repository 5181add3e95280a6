// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "units/amount.h"
#include "units/number.h"

namespace bw::units {
namespace {

TEST(FeetAndInches, GoToTheSixteenth) {
    EXPECT_EQ(print_feet_inches(75.5 * inch), "6 ft 3-1/2 in");
    EXPECT_EQ(print_feet_inches(72.0 * inch), "6 ft");
    EXPECT_EQ(print_feet_inches(1.25 * inch), "1-1/4 in");
    EXPECT_EQ(print_feet_inches(0.3125 * inch), "5/16 in");
    EXPECT_EQ(print_feet_inches(72.3125 * inch), "6 ft 5/16 in");
    EXPECT_EQ(print_feet_inches(0.0 * inch), "0 in");
    EXPECT_EQ(print_feet_inches(-30.0 * inch), "-2 ft 6 in");
}

TEST(FeetAndInches, RoundToTheNearestSixteenthAndCarry) {
    EXPECT_EQ(print_feet_inches(11.99 * inch), "1 ft");
    EXPECT_EQ(print_feet_inches(11.96 * inch), "11-15/16 in");
    EXPECT_EQ(print_feet_inches(-0.01 * inch), "0 in");
    EXPECT_EQ(print_feet_inches(1000.0 * millimetre), "3 ft 3-3/8 in");
}

TEST(Amounts, ReadAsOnPaper) {
    EXPECT_EQ(print(amount(fahrenheit(42)), System::us), "42.0 degF");
    EXPECT_EQ(print(amount(celsius(5)), System::si), "5.0 degC");
    EXPECT_EQ(print(amount(7.0 * inch_water, Kind::gas_pressure), System::us), "7.00 inH2O");
    EXPECT_EQ(print(amount(43.2 * gallon_per_minute), System::us), "43.2 gpm");
    EXPECT_EQ(print(percent(0.15), System::us), "15.0%");
    EXPECT_EQ(print(count(96), System::us), "96");
    EXPECT_EQ(print(money(1234567.5), System::us), "$1,234,567.50");
    EXPECT_EQ(print(money(-0.5), System::us), "-$0.50");
    EXPECT_EQ(print(amount(6.0 * minute), System::us), "6.0 min");
    EXPECT_EQ(print(amount(199.0 * kbtu_per_hour), System::us), "199.0 kBtu/h");
    EXPECT_EQ(print(number(0.0185138), System::us), "0.018514");
    EXPECT_EQ(print(number(0.7), System::us), "0.7");
    EXPECT_EQ(print(number(11.9047), System::us), "11.905");
    EXPECT_EQ(print(number(105966.4), System::us), "105966");
    EXPECT_EQ(print(number(9.99999), System::us), "10");
    EXPECT_EQ(print(number(1e-9), System::us), "1.0000e-09");
    EXPECT_EQ(print(number(-0.0), System::us), "0");
    EXPECT_EQ(print(amount(75.5 * inch), System::si), "1918 mm");
}

TEST(Amounts, SmallValuesKeepThreeDigits) {
    EXPECT_EQ(print(amount(0.0123 * psi), System::us), "0.0123 psi");
    EXPECT_EQ(print(amount(Viscosity::from_value(0.001)), System::us), "0.000672 lb/(ft*s)");
    EXPECT_EQ(print_number(-0.0001, 1), "-0.0001");
}

TEST(Amounts, SpellTheUnitsOfTheContract) {
    EXPECT_EQ(spell(amount(75.5 * inch), System::us).unit, "in");
    EXPECT_DOUBLE_EQ(spell(amount(75.5 * inch), System::us).value, 75.5);
    EXPECT_EQ(spell(number(3), System::us).unit, "1");
    EXPECT_NEAR(spell(amount(fahrenheit(120)), System::us).value, 120, 1e-9);
    EXPECT_NEAR(spell(amount(fahrenheit(212)), System::si).value, 100, 1e-9);
    EXPECT_EQ(spell(amount(1.0 * hour), System::us).unit, "s");
    EXPECT_EQ(spell(percent(0.15), System::si).unit, "%");
}

}  // namespace
}  // namespace bw::units
