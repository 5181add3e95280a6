// SPDX-License-Identifier: MIT
// Pipe friction against Colebrook, worked examples and a printed copper table.
#include <gtest/gtest.h>

#include "matter/pipe_flow.h"

namespace bw::matter {
namespace {

struct Row {
    double reynolds, roughness, factor, tolerance;
};

// Colebrook 1939. The first row is a published library test value, read in public text; the others are computed from
// the published formula by independent iteration.
constexpr Row colebrook_rows[] = {
    {100000, 0.0001, 0.0185138660775, 0.0001},
    {4000, 0, 0.039907, 0.0005},
    {4000, 0.0001, 0.040008, 0.0005},
    {4000, 0.0005, 0.040412, 0.0005},
    {4000, 0.01, 0.049082, 0.0005},
    {4000, 0.05, 0.076987, 0.0005},
    {10000, 1e-05, 0.030898, 0.0005},
    {10000, 0.0005, 0.031644, 0.0005},
    {30000, 0.0001, 0.023753, 0.0005},
    {30000, 0.005, 0.033245, 0.0005},
    {100000, 0.0005, 0.020327, 0.0005},
    {100000, 0.001, 0.022175, 0.0005},
    {100000, 0.005, 0.031306, 0.0005},
    {300000, 1e-05, 0.014568, 0.0005},
    {300000, 0.05, 0.071628, 0.0005},
    {1e+06, 0, 0.011645, 0.0005},
    {1e+06, 1e-05, 0.011870, 0.0005},
    {1e+06, 0.01, 0.037965, 0.0005},
    {1e+06, 0.05, 0.071574, 0.0005},
    {1e+07, 0, 0.008103, 0.0005},
    {1e+07, 0.005, 0.030377, 0.0005},
    {1e+07, 0.05, 0.071553, 0.0005},
};

TEST(OutsideFriction, AgreesWithColebrook) {
    for (const auto& row : colebrook_rows) {
        const auto friction = darcy_friction(row.reynolds, row.roughness);
        ASSERT_TRUE(friction) << row.reynolds;
        EXPECT_EQ(friction->regime, Regime::turbulent);
        EXPECT_NEAR(friction->factor, row.factor, row.tolerance * row.factor)
            << "Re " << row.reynolds << ", e/D " << row.roughness;
    }
}

// 64/Re at Re = 128, read in public text.
TEST(OutsideFriction, LaminarIs64OverRe) { EXPECT_DOUBLE_EQ(darcy_friction(128, 0)->factor, 0.5); }

// "Flow of Fluids", TP-410, worked problem 7.1, read in public text: water at 30 degC, 50 mm smooth pipe, 200 L/min
// gives 100,600. The pipe is Schedule 40, 52.5 mm inside (from memory of the document).
TEST(OutsideFriction, ReynoldsOfTheWorkedExample) {
    const auto state = *water(celsius(30));
    const auto drop = *pipe_drop(200.0 / 60 * litre_per_second, 52.5 * millimetre, 0.0 * metre, 1.0 * metre, 0, state);
    EXPECT_NEAR(drop.reynolds, 100600, 1006);
}

struct Tube {
    double bore, gpm, psi_per_100ft;
};
// A published copper friction table (general irrigation text), read in public text: types K and L, cold water. It lies
// about 12 % above Darcy-Weisbach for a smooth tube, so within 20 % and never below by more than rounding.
constexpr Tube copper_table[] = {
    {0.527, 4, 15.67}, {0.745, 2, 0.77},  {0.745, 4, 2.78}, {0.745, 6, 5.9},  {0.995, 8, 2.46},
    {1.245, 6, 0.46},  {1.245, 20, 4.28}, {0.545, 1, 0.95}, {0.545, 2, 3.44}, {0.545, 5, 18.77},
    {0.785, 1, 0.16},  {0.785, 2, 0.57},  {0.785, 5, 3.09},
};

TEST(OutsideFriction, CopperTableLiesWhereDarcyWeisbachPutsIt) {
    const auto cold = *water(fahrenheit(60));
    for (const auto& tube : copper_table) {
        const auto drop =
            pipe_drop(tube.gpm * gallon_per_minute, tube.bore * inch, 0.0015 * millimetre, 100.0 * foot, 0, cold);
        ASSERT_TRUE(drop);
        EXPECT_NEAR(drop->drop / psi, tube.psi_per_100ft, 0.20 * tube.psi_per_100ft + 0.005)
            << tube.bore << " in at " << tube.gpm << " gpm";
    }
}

// "Flow of Fluids", TP-410, worked problem 7.15, read in public text: 100 gpm at 70 degF through 500 ft of 3 in
// Schedule 40 with four elbows, a gate valve, a 2-1/2 in globe lift check and the exit, lifted 400 ft, needs 421 ft of
// head. The loss coefficients (30 f, 8 f and 600 f with f = 0.018, and the check's reducers) are the document's, from
// memory.
TEST(OutsideFriction, HeadOfTheWorkedExample) {
    const auto state = *water(fahrenheit(70));
    const double f = 0.018, beta = 2.469 / 3.068, b2 = beta * beta;
    const double check = (600 * f + beta * (0.5 * (1 - b2) + (1 - b2) * (1 - b2))) / (b2 * b2);
    const double k = 4 * 30 * f + 8 * f + check + 1;
    const auto pipe = *pipe_drop(100.0 * gallon_per_minute, 3.068 * inch, 0.0018 * inch, 500.0 * foot, k, state);
    const double feet = si_value(pipe.drop) / (si_value(state.density) * 9.80665) / 0.3048;
    EXPECT_NEAR(feet, 21, 1);
}

}  // namespace
}  // namespace bw::matter
