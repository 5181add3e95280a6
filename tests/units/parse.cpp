// SPDX-License-Identifier: MIT
#include "units/parse.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace bw::units {
namespace {

struct Case {
    const char* text;
    Kind kind;
    double si;
};
void PrintTo(const Case& of, std::ostream* out) { *out << of.text; }

class Understood : public testing::TestWithParam<Case> {};

TEST_P(Understood, AsTheTradeWritesIt) {
    const auto& [text, kind, si] = GetParam();
    const auto value = parse(text, kind);
    ASSERT_TRUE(value) << text << ": " << describe(value.error());
    EXPECT_NEAR(value->si, si, 1e-9 * std::abs(si) + 1e-15) << text;
    EXPECT_EQ(value->kind, kind);
}

constexpr double gallon_m3 = 3.785411784e-3, btu_j = 1055.05585262, psi_pa = 6894.757293168361;

INSTANTIATE_TEST_SUITE_P(
    Lengths, Understood,
    testing::Values(Case{"1-1/4 in", Kind::length, 1.25 * 0.0254}, Case{"1 1/4 in", Kind::length, 1.25 * 0.0254},
                    Case{"3/4 in", Kind::length, 0.75 * 0.0254}, Case{"3/4\"", Kind::length, 0.75 * 0.0254},
                    Case{"6 ft 3-1/2 in", Kind::length, 75.5 * 0.0254}, Case{"6'3-1/2\"", Kind::length, 75.5 * 0.0254},
                    Case{"6'-3 1/2\"", Kind::length, 75.5 * 0.0254}, Case{"6' 3\"", Kind::long_length, 75 * 0.0254},
                    Case{"6\u2032 3\u2033", Kind::length, 75 * 0.0254}, Case{"6 ft", Kind::length, 6 * 0.3048},
                    Case{"6 ft 0 in", Kind::length, 6 * 0.3048}, Case{"5,300 ft", Kind::altitude, 5300 * 0.3048},
                    Case{"-2 ft 6 in", Kind::length, -30 * 0.0254}, Case{"-0 ft 6 in", Kind::length, -6 * 0.0254},
                    Case{"1905 mm", Kind::length, 1.905}, Case{"2.5 m", Kind::long_length, 2.5},
                    Case{"0.035 in", Kind::small_length, 0.035 * 0.0254}, Case{"  12 IN ", Kind::length, 0.3048},
                    Case{"1e3 mm", Kind::length, 1}, Case{".5 in", Kind::length, 0.0127}));

INSTANTIATE_TEST_SUITE_P(Flows, Understood,
                         testing::Values(Case{"43.2 gpm", Kind::water_flow, 43.2 * gallon_m3 / 60},
                                         Case{"225 gal/h", Kind::hourly_flow, 225 * gallon_m3 / 3600},
                                         Case{"0.5 ft3/h", Kind::gas_flow, 0.5 * 0.028316846592 / 3600},
                                         Case{"1,110 cfm", Kind::air_flow, 1110 * 0.028316846592 / 60},
                                         Case{"2.5 L/s", Kind::water_flow, 2.5e-3},
                                         Case{"60 L/min", Kind::water_flow, 1e-3},
                                         Case{"3.6 m\u00b3/h", Kind::gas_flow, 1e-3},
                                         Case{"1 cu ft", Kind::volume, 0.028316846592},
                                         Case{"12 lb/h", Kind::mass_flow, 12 * 0.45359237 / 3600}));

INSTANTIATE_TEST_SUITE_P(Pressures, Understood,
                         testing::Values(Case{"0.5 psi", Kind::pressure, 0.5 * psi_pa},
                                         Case{"7 inH2O", Kind::gas_pressure, 7 * 249.08891},
                                         Case{"7 in. w.c.", Kind::gas_pressure, 7 * 249.08891},
                                         Case{"2 PSI", Kind::gas_pressure, 2 * psi_pa},
                                         Case{"150 kPa", Kind::pressure, 150e3}, Case{"1.5 bar", Kind::pressure, 1.5e5},
                                         Case{"0.5 psig", Kind::gas_pressure, 0.5 * psi_pa}));

INSTANTIATE_TEST_SUITE_P(
    Heat, Understood,
    testing::Values(Case{"199 kBtu/h", Kind::heat_rate, 199e3 * btu_j / 3600},
                    Case{"199 MBH", Kind::heat_rate, 199e3 * btu_j / 3600}, Case{"58 kW", Kind::heat_rate, 58e3},
                    Case{"100000 Btu/h", Kind::heat_rate, 1e5 * btu_j / 3600},
                    Case{"42 degF", Kind::temperature, (42 + 459.67) / 1.8},
                    Case{"42\u00b0F", Kind::temperature, (42 + 459.67) / 1.8},
                    Case{"5 degC", Kind::temperature, 278.15}, Case{"-10 degC", Kind::temperature, 263.15},
                    Case{"300 K", Kind::temperature, 300}, Case{"10 degF", Kind::temperature_difference, 10 / 1.8},
                    Case{"5 K", Kind::temperature_difference, 5},
                    Case{"1030 Btu/ft3", Kind::heating_value, 1030 * btu_j / 0.028316846592},
                    Case{"37.3 MJ/m3", Kind::heating_value, 37.3e6}, Case{"1 therm", Kind::energy, 1e5 * btu_j},
                    Case{"1 Btu/(lb*degF)", Kind::specific_heat, 4186.8}));

INSTANTIATE_TEST_SUITE_P(
    Rest, Understood,
    testing::Values(
        Case{"15 %", Kind::percent, 0.15}, Case{"15%", Kind::percent, 0.15}, Case{"96", Kind::count, 96},
        Case{"96", Kind::number, 96}, Case{"0.60", Kind::number, 0.6}, Case{"600 mg/L", Kind::hardness, 600},
        Case{"20 gr/gal", Kind::hardness, 20 * 17.11806}, Case{"150 lb", Kind::mass, 150 * 0.45359237},
        Case{"2.5 lb/ft", Kind::mass_per_length, 2.5 * 0.45359237 / 0.3048},
        Case{"500 lbf", Kind::force, 500 * 4.4482216152605}, Case{"8 ft/s", Kind::velocity, 8 * 0.3048},
        Case{"62.4 lb/ft3", Kind::density, 62.4 * 0.45359237 / 0.028316846592}, Case{"1 cP", Kind::viscosity, 1e-3},
        Case{"1 mPa*s", Kind::viscosity, 1e-3},
        Case{"0.000672 lb/(ft*s)", Kind::viscosity, 0.000672 * 0.45359237 / 0.3048}, Case{"2 h", Kind::time, 7200},
        Case{"90 s", Kind::time, 90}, Case{"10 min", Kind::time, 600}, Case{"4 A", Kind::current, 4},
        Case{"120 V", Kind::voltage, 120}, Case{"500 W", Kind::electric_power, 500},
        Case{"$1,234.50", Kind::money, 1234.5}, Case{"-$0.50", Kind::money, -0.5}, Case{"85 USD", Kind::money, 85},
        Case{"85", Kind::money, 85}, Case{"3.5", Kind::acidity, 3.5}, Case{"90 deg", Kind::angle, 1.5707963267948966},
        Case{"900 in2", Kind::area, 900 * 0.0254 * 0.0254}, Case{"200 ft2", Kind::floor_area, 200 * 0.09290304},
        Case{"119 gal", Kind::volume, 119 * gallon_m3}, Case{"10,500 ft3", Kind::room_volume, 10500 * 0.028316846592}));

struct Refusal {
    const char* text;
    Kind kind;
    const char* mentions;
};
void PrintTo(const Refusal& of, std::ostream* out) { *out << of.text; }
class Refused : public testing::TestWithParam<Refusal> {};

TEST_P(Refused, SayingWhatWasExpected) {
    const auto& [text, kind, mentions] = GetParam();
    const auto value = parse(text, kind);
    ASSERT_FALSE(value) << text << " gave " << value->si;
    const std::string message = describe(value.error());
    EXPECT_NE(message.find(mentions), std::string::npos) << message;
    EXPECT_EQ(message.find('\n'), std::string::npos) << message;
}

INSTANTIATE_TEST_SUITE_P(
    Bad, Refused,
    testing::Values(Refusal{"", Kind::length, "not a length"}, Refusal{"12", Kind::length, "has no unit"},
                    Refusal{"12 psi", Kind::length, "in, ft, mm"}, Refusal{"nan in", Kind::length, "nan in"},
                    Refusal{"inf psi", Kind::pressure, "inf psi"}, Refusal{"1e999 in", Kind::length, "1e999"},
                    Refusal{"7 inH2O extra", Kind::gas_pressure, "extra"}, Refusal{"1/0 in", Kind::length, "1/0"},
                    Refusal{"6 ft 13 in", Kind::length, "13"}, Refusal{"6 ft -3 ft", Kind::length, "-3"},
                    Refusal{"6.5 ft 3 in", Kind::length, "6.5"},
                    Refusal{"-500 degF", Kind::temperature, "absolute zero"},
                    Refusal{"2.5", Kind::count, "whole number"}, Refusal{"15", Kind::percent, "%"},
                    Refusal{"1,00 ft", Kind::length, "1,00"}, Refusal{"7 mpa", Kind::pressure, "psi"},
                    Refusal{"7 degF", Kind::heat_rate, "kBtu/h"}, Refusal{"--7 psi", Kind::pressure, "--7"},
                    Refusal{"1e308 MMBtu/h", Kind::heat_rate, "heat rate"}, Refusal{"$5 USD", Kind::money, "$5"},
                    Refusal{"-$-5", Kind::money, "$-5"}, Refusal{"5 in\nnext", Kind::length, "next"}));

TEST(Lengths, AreTypedWhenAskedFor) {
    EXPECT_NEAR(*parse_length("6 ft 3-1/2 in") / inch, 75.5, 1e-12);
    EXPECT_FALSE(parse_length("6 psi"));
}

TEST(Parsing, ReadsBackWhatIsPrintedForEveryKind) {
    for (int k = 0; k <= static_cast<int>(Kind::altitude); ++k) {
        const auto kind = static_cast<Kind>(k);
        for (const auto system : {System::us, System::si}) {
            const double si = kind == Kind::temperature ? 310.15 : kind == Kind::count ? 7 : 3.0;
            const std::string text = print({si, kind}, system);
            const auto back = parse(text, kind);
            ASSERT_TRUE(back) << text << ": " << describe(back.error());
            EXPECT_NEAR(back->si, si, 0.01 * si) << text;
        }
    }
}

TEST(Parsing, ReadsBackTheSpelledNumberExactly) {
    for (int k = 0; k <= static_cast<int>(Kind::altitude); ++k) {
        const auto kind = static_cast<Kind>(k);
        for (const auto system : {System::us, System::si}) {
            const double si = kind == Kind::temperature ? 310.15 : 3.0;
            const auto [value, unit] = spell({si, kind}, system);
            const auto back = parse(unit == "1" ? std::to_string(value) : fmt::format("{:.12f} {}", value, unit), kind);
            ASSERT_TRUE(back) << value << unit;
            EXPECT_NEAR(back->si, si, 1e-4 * si) << unit;
        }
    }
}

}  // namespace
}  // namespace bw::units
