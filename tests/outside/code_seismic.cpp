// SPDX-License-Identifier: MIT
// Earthquake force on components against ASCE 7-16 13.3.1.
#include <gtest/gtest.h>

#include "code/seismic.h"

namespace bw::code {
namespace {

const Force pound = Force::from_value(0.45359237 * 9.80665);

double coefficient(double ap, double rp, double ip, double sds, double ratio, Force SeismicForce::*which) {
    const auto found = seismic_force({1000.0 * pound, sds, ap, rp, ip, ratio});
    EXPECT_TRUE(found);
    if (!found) return 0;
    return (found->value.*which) / (1000.0 * pound);
}

/// A published worked example: ap 2.5, Rp 12, Ip 1, SDS 1.0347 at mid-height; the lower bound governs.
TEST(SeismicForce, IsThePublishedExamples) {
    EXPECT_NEAR(coefficient(2.5, 12, 1, 1.0347, 0.5, &SeismicForce::computed), 0.17245, 0.17245e-3);
    EXPECT_NEAR(coefficient(2.5, 12, 1, 1.0347, 0.5, &SeismicForce::lower), 0.31041, 0.31041e-3);
    EXPECT_NEAR(coefficient(2.5, 12, 1, 1.0347, 0.5, &SeismicForce::force), 0.31041, 0.31041e-3);
}

/// ASCE 7-16 equations 13.3-1 to 13.3-3, computed from the published formula by hand.
TEST(SeismicForce, IsTheFormulasWithItsBounds) {
    EXPECT_NEAR(1000 * coefficient(1, 2.5, 1, 1, 1, &SeismicForce::force), 480.0, 0.48);
    EXPECT_NEAR(1000 * coefficient(2.5, 12, 1, 1, 0, &SeismicForce::force), 300.0, 0.3);
    EXPECT_NEAR(200 * coefficient(2.5, 2.5, 1.5, 1.2, 1, &SeismicForce::force), 432.0, 0.43);
    EXPECT_NEAR(800 * coefficient(1, 2.5, 1, 0.33, 0, &SeismicForce::force), 79.2, 0.08);
    // 13.3.1.2
    EXPECT_NEAR(coefficient(1, 2.5, 1, 0.7, 0, &SeismicForce::vertical), 0.14, 1e-9);
    // the upper bound: 1.6 SDS Ip
    EXPECT_NEAR(coefficient(2.5, 1, 1, 1, 1, &SeismicForce::force), 1.6, 1e-9);
}

/// Table 13.6-1, from memory.
TEST(SeismicForce, FactorsAreTheTables) {
    EXPECT_EQ(water_heater_factors().rp, 2.5);
    EXPECT_EQ(pipe_factors(true, true).rp, 6);
    EXPECT_EQ(pipe_factors(true, true).ap, 2.5);
    EXPECT_EQ(pipe_factors(false, false).ap, 2.5);
}

TEST(SeismicForce, IsRefusedOutsideItsMethod) {
    const Fastened good{1000.0 * pound, 1, 1, 2.5, 1, 0.5};
    EXPECT_TRUE(seismic_force(good));
    for (const auto change : {+[](Fastened& c) { c.sds = 0; }, +[](Fastened& c) { c.ap = 3; },
                              +[](Fastened& c) { c.rp = 0.5; }, +[](Fastened& c) { c.ip = 2; },
                              +[](Fastened& c) { c.height_ratio = 1.1; }, +[](Fastened& c) { c.weight = Force(); }}) {
        Fastened bad = good;
        change(bad);
        EXPECT_FALSE(seismic_force(bad));
    }
}

/// Statics: 1,000 lbf, pushed by 400 lbf at 4 ft on a base of 2 ft: 400 x 4 - 1000 x 1 = 600 lbf ft, 300 lbf at the
/// edge.
TEST(Overturning, IsStatics) {
    const auto tips = overturning({1000.0 * pound, 400.0 * pound, 4.0 * foot, 2.0 * foot, 3});
    ASSERT_TRUE(tips);
    EXPECT_NEAR(tips->value.uplift / pound, 100, 1e-9);
    EXPECT_FALSE(tips->value.stable);
    const auto stands = overturning({1000.0 * pound, 200.0 * pound, 4.0 * foot, 2.0 * foot, 3});
    ASSERT_TRUE(stands);
    EXPECT_EQ(stands->value.uplift.value(), 0);
    EXPECT_TRUE(stands->value.stable);
    EXPECT_FALSE(overturning({1000.0 * pound, 200.0 * pound, 4.0 * foot, Length(), 3}));
    EXPECT_FALSE(overturning({1000.0 * pound, 200.0 * pound, 4.0 * foot, 2.0 * foot, 0}));
}

}  // namespace
}  // namespace bw::code
