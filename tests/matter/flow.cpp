// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "matter/pipe_flow.h"

namespace bw::matter {
namespace {

const Water& cold() {
    static const Water state = *water(fahrenheit(60));
    return state;
}

PipeDrop drop(double gpm, double bore = 2, double feet = 100, double k = 0) {
    return *pipe_drop(gpm * gallon_per_minute, bore * inch, 0.0015 * millimetre, feet * foot, k, cold());
}

TEST(Friction, TransitionIsMarkedAndMeetsBothLaws) {
    EXPECT_EQ(darcy_friction(2000, 0.001)->regime, Regime::laminar);
    EXPECT_EQ(darcy_friction(3000, 0.001)->regime, Regime::transition);
    EXPECT_EQ(darcy_friction(4000, 0.001)->regime, Regime::turbulent);
    EXPECT_NEAR(darcy_friction(2000.0001, 0.001)->factor, 0.032, 1e-6);
    EXPECT_NEAR(darcy_friction(3999.9999, 0.001)->factor, darcy_friction(4000, 0.001)->factor, 1e-6);
}

TEST(Friction, SatisfiesItsOwnEquation) {
    for (const double re : {4e3, 1e4, 3e5, 1e8}) {
        for (const double e : {0.0, 1e-6, 1e-3, 0.05}) {
            const double f = darcy_friction(re, e)->factor;
            EXPECT_NEAR(1 / std::sqrt(f) + 2 * std::log10(e / 3.7 + 2.51 / (re * std::sqrt(f))), 0, 1e-12)
                << re << ' ' << e;
        }
    }
}

TEST(Friction, IsRefusedOutsideItsRange) {
    EXPECT_FALSE(darcy_friction(0, 0));
    EXPECT_FALSE(darcy_friction(-5, 0));
    EXPECT_FALSE(darcy_friction(2e8, 0));
    EXPECT_FALSE(darcy_friction(1e5, 0.06));
    EXPECT_FALSE(darcy_friction(1e5, -1e-9));
    EXPECT_FALSE(darcy_friction(std::nan(""), 0));
}

TEST(PipeDrop, IsOddInTheFlowAndNothingAtRest) {
    EXPECT_EQ(si_value(drop(0).drop), 0);
    EXPECT_DOUBLE_EQ(si_value(drop(-20, 2, 100, 3).drop), -si_value(drop(20, 2, 100, 3).drop));
}

TEST(PipeDrop, GrowsWithLengthFlowAndFittingsAndFallsWithBore) {
    EXPECT_NEAR(drop(20, 2, 200).drop / drop(20, 2, 100).drop, 2, 1e-12);
    EXPECT_GT(drop(21).drop, drop(20).drop);
    EXPECT_LT(drop(20, 2.5).drop, drop(20, 2).drop);
    const auto both = drop(20, 2, 100, 5);
    EXPECT_NEAR(si_value(both.fittings), 5 * 0.5 * si_value(cold().density) * std::pow(si_value(both.velocity), 2),
                1e-9);
}

TEST(PipeDrop, RefusesAPipeThatCannotBe) {
    EXPECT_FALSE(pipe_drop(1.0 * gallon_per_minute, 0.0 * inch, 0.0 * inch, 1.0 * foot, 0, cold()));
    EXPECT_FALSE(pipe_drop(1.0 * gallon_per_minute, 1.0 * inch, 0.0 * inch, -1.0 * foot, 0, cold()));
    EXPECT_FALSE(pipe_drop(1.0 * gallon_per_minute, 1.0 * inch, 0.1 * inch, 1.0 * foot, 0, cold()));
    EXPECT_FALSE(pipe_drop(1.0 * gallon_per_minute, 1.0 * inch, 0.0 * inch, 1.0 * foot, -1, cold()));
}

TEST(PipeDrop, ShowsItsWorkingAndMarksTheTransition) {
    const auto q = 0.25 * gallon_per_minute;
    const auto slow = *pipe_drop(q, 0.545 * inch, 0.0 * inch, 10.0 * foot, 0, cold());
    const auto half = *pipe_drop(0.6 * gallon_per_minute, 0.545 * inch, 0.0 * inch, 10.0 * foot, 0, cold());
    EXPECT_EQ(slow.friction.regime, Regime::laminar);
    ASSERT_EQ(half.friction.regime, Regime::transition);
    const auto steps = derive(half, 0.6 * gallon_per_minute, 0.545 * inch, 0.0 * inch, 10.0 * foot, 0, cold());
    EXPECT_NE(steps[2].says.find("transition"), std::string::npos);
    EXPECT_EQ(steps.back().result->amount.si, si_value(half.drop));
}

}  // namespace
}  // namespace bw::matter
