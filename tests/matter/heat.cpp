// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <cmath>

#include "matter/expansion.h"
#include "matter/pipe_heat.h"
#include "matter/water.h"

namespace bw::matter {
namespace {

Pipework copper(Insulation insulation, Length thickness) {
    return {text::Material::copper_l, 2.125 * inch, 1.985 * inch, insulation, thickness, 0.9};
}

TEST(PipeHeat, WhatComesThroughTheInsulationGoesOn) {
    const auto pipe = copper(Insulation::mineral_fibre, 1.5 * inch);
    const auto found = pipe_heat(pipe, fahrenheit(140), fahrenheit(70), 30.0 * metre);
    ASSERT_TRUE(found) << describe(found.error());
    const double r1 = pipe.outside.value() / 2, r2 = r1 + pipe.thickness.value();
    const double through =
        (fahrenheit(140).value() - found->surface.value()) / (std::log(r2 / r1) / (2 * M_PI * found->conductivity));
    EXPECT_NEAR(found->per_metre, through, 1e-3 * through);
    EXPECT_NEAR(found->loss.value(), 30 * found->per_metre, 1e-9);
    const auto mean = kelvin((fahrenheit(140).value() + found->surface.value()) / 2);
    EXPECT_NEAR(found->conductivity, *conductivity(Insulation::mineral_fibre, mean), 1e-9);
}

TEST(PipeHeat, FallsWithThicknessAndRisesWithTheFluid) {
    double before = pipe_heat(copper(Insulation::none, {}), fahrenheit(140), fahrenheit(70), 1.0 * metre)->per_metre;
    for (const double thick : {0.5, 1.0, 1.5, 2.0, 3.0}) {
        const auto pipe = copper(Insulation::elastomeric, thick * inch);
        const auto found = pipe_heat(pipe, fahrenheit(140), fahrenheit(70), 1.0 * metre);
        ASSERT_TRUE(found);
        EXPECT_LT(found->per_metre, before);
        before = found->per_metre;
        EXPECT_GT(pipe_heat(pipe, fahrenheit(160), fahrenheit(70), 1.0 * metre)->per_metre, before);
    }
}

TEST(PipeHeat, RefusesWhatIsOutOfRange) {
    const auto pipe = copper(Insulation::none, {});
    EXPECT_FALSE(pipe_heat(pipe, fahrenheit(70), fahrenheit(70), 1.0 * metre));
    EXPECT_FALSE(pipe_heat(pipe, celsius(210), fahrenheit(70), 1.0 * metre));
    EXPECT_FALSE(pipe_heat(pipe, celsius(60), celsius(-30), 1.0 * metre));
    EXPECT_FALSE(pipe_heat(copper(Insulation::none, 1.0 * inch), celsius(60), celsius(20), 1.0 * metre));
    EXPECT_FALSE(pipe_heat(copper(Insulation::elastomeric, {}), celsius(60), celsius(20), 1.0 * metre));
}

/// The vessel, half a step at a time: the gas squeezed from its charge to the greatest pressure makes room for the
/// swell.
TEST(ExpansionVessel, TakesInTheSwellByBoyle) {
    const Pressure air = 101325.0 * pascal;
    const auto found = expansion_vessel(500.0 * litre, celsius(10), celsius(60), 3.0 * bar, 6.0 * bar, air);
    ASSERT_TRUE(found) << describe(found.error());
    const Volume gas_left = found->vessel - found->expansion;
    EXPECT_NEAR((3.0 * bar + air) * found->vessel / joule, (6.0 * bar + air) * gas_left / joule, 1e-6);
    const double kilograms = 500e-3 * water(celsius(10))->density.value();
    EXPECT_NEAR(found->expansion.value(), kilograms / water(celsius(60))->density.value() - 500e-3, 1e-9);
}

TEST(ExpansionVessel, CountsFromTheHeaviestWater) {
    const Pressure air = 101325.0 * pascal;
    const auto from_zero = expansion_vessel(1000.0 * litre, celsius(0.5), celsius(60), 3.0 * bar, 6.0 * bar, air);
    const auto from_four = expansion_vessel(1000.0 * litre, celsius(3.98), celsius(60), 3.0 * bar, 6.0 * bar, air);
    ASSERT_TRUE(from_zero && from_four);
    EXPECT_NEAR(from_zero->expansion.value(), from_four->expansion.value(), 1e-7);
}

TEST(ExpansionVessel, RefusesWhatCannotBe) {
    const Pressure air = 101325.0 * pascal;
    EXPECT_FALSE(expansion_vessel(1.0 * litre, celsius(60), celsius(10), 3.0 * bar, 6.0 * bar, air));
    EXPECT_FALSE(expansion_vessel(1.0 * litre, celsius(10), celsius(60), 6.0 * bar, 6.0 * bar, air));
    EXPECT_FALSE(expansion_vessel(1.0 * litre, celsius(10), celsius(120), 3.0 * bar, 6.0 * bar, air));
}

}  // namespace
}  // namespace bw::matter
