// SPDX-License-Identifier: MIT
// Water against IAPWS R7-97(2012) and R12-08.
#include <gtest/gtest.h>

#include "matter/if97.h"
#include "matter/water.h"

namespace bw::matter {
namespace {

enum Property { density, viscosity, heat_capacity, vapour_pressure_of, enthalpy };

struct Row {
    Property property;
    double celsius, megapascal;
    double expected;  ///< kg/m3, mPa s, kJ/(kg K), kPa, kJ/kg
};

double computed(const Row& row) {
    const auto state = water(celsius(row.celsius), Pressure::from_value(row.megapascal * 1e6));
    if (!state) return 0;
    switch (row.property) {
        case density: return si_value(state->density);
        case viscosity: return si_value(state->viscosity) * 1e3;
        case heat_capacity: return si_value(state->heat_capacity) / 1e3;
        case vapour_pressure_of: return si_value(state->vapour_pressure) / 1e3;
        case enthalpy: return if97::liquid(row.celsius + 273.15, row.megapascal * 1e6).enthalpy / 1e3;
    }
    return 0;
}

// IAPWS R7-97(2012) region 1 and saturation, R12-08 viscosity: computed from the published formulas by an independent
// implementation (iapws 1.5).
constexpr Row rows[] = {
    {density, 0.1, 0.101325, 999.851},
    {enthalpy, 0.1, 0.101325, 0.4829372},
    {viscosity, 5, 0.101325, 1.518172},
    {heat_capacity, 5, 0.101325, 4.204947},
    {viscosity, 10, 0.101325, 1.305901},
    {enthalpy, 40, 0.101325, 167.6243},
    {viscosity, 50, 0.101325, 0.546522},
    {heat_capacity, 60, 0.101325, 4.182764},
    {density, 70, 0.101325, 977.7793},
    {viscosity, 70, 0.101325, 0.4035568},
    {heat_capacity, 70, 0.101325, 4.188095},
    {density, 80, 0.101325, 971.8029},
    {viscosity, 80, 0.101325, 0.3540581},
    {density, 95, 0.101325, 961.8951},
    {heat_capacity, 0.1, 0.5, 4.217094},
    {viscosity, 5, 0.5, 1.517602},
    {density, 10, 0.5, 999.8919},
    {density, 20, 0.5, 998.3884},
    {viscosity, 20, 0.5, 1.001475},
    {heat_capacity, 20, 0.5, 4.183554},
    {enthalpy, 20, 0.5, 84.38819},
    {viscosity, 40, 0.5, 0.6527809},
    {enthalpy, 40, 0.5, 167.9776},
    {density, 60, 0.5, 983.3843},
    {viscosity, 60, 0.5, 0.4661388},
    {heat_capacity, 70, 0.5, 4.187222},
    {viscosity, 80, 0.5, 0.354165},
    {density, 95, 0.5, 962.0793},
    {enthalpy, 95, 0.5, 398.3353},
    {vapour_pressure_of, 5, 0.101325, 0.8725749},
    {vapour_pressure_of, 20, 0.101325, 2.339215},
    {vapour_pressure_of, 60, 0.101325, 19.9458},
    {vapour_pressure_of, 80, 0.101325, 47.41472},
    {density, 1, 0.101325, 999.903},
    {viscosity, 1, 0.101325, 1.731017},
    {heat_capacity, 1, 0.101325, 4.216012},
    {vapour_pressure_of, 1, 0.101325, 0.657088},
    {density, 4, 0.5, 1000.173},
    {viscosity, 4, 0.5, 1.566666},
    {heat_capacity, 4, 0.5, 4.205609},
    {vapour_pressure_of, 4, 0.5, 0.8135494},
    {density, 15, 0.101325, 999.1011},
    {viscosity, 15, 0.101325, 1.137569},
    {heat_capacity, 15, 0.101325, 4.189094},
    {vapour_pressure_of, 15, 0.101325, 1.705745},
    {density, 25, 0.101325, 997.048},
    {viscosity, 25, 0.101325, 0.8900224},
    {heat_capacity, 25, 0.101325, 4.181896},
    {vapour_pressure_of, 25, 0.101325, 3.169747},
    {density, 30, 0.5, 995.8293},
    {viscosity, 30, 0.5, 0.7972138},
    {heat_capacity, 30, 0.5, 4.17894},
    {vapour_pressure_of, 30, 0.5, 4.246688},
    {density, 35, 0.101325, 994.0385},
    {viscosity, 35, 0.101325, 0.7191264},
    {heat_capacity, 35, 0.101325, 4.178947},
    {vapour_pressure_of, 35, 0.101325, 5.62862},
    {density, 45, 0.101325, 990.2233},
    {viscosity, 45, 0.101325, 0.5957733},
    {heat_capacity, 45, 0.101325, 4.178768},
    {vapour_pressure_of, 45, 0.101325, 9.594389},
    {density, 55, 0.101325, 985.707},
    {viscosity, 55, 0.101325, 0.5036318},
    {heat_capacity, 55, 0.101325, 4.18089},
    {vapour_pressure_of, 55, 0.101325, 15.76141},
    {density, 65, 0.101325, 980.5659},
    {viscosity, 65, 0.101325, 0.4329118},
    {heat_capacity, 65, 0.101325, 4.185167},
    {vapour_pressure_of, 65, 0.101325, 25.0411},
    {density, 75, 0.101325, 974.8567},
    {viscosity, 75, 0.101325, 0.377424},
    {heat_capacity, 75, 0.101325, 4.191545},
    {vapour_pressure_of, 75, 0.101325, 38.59536},
    {density, 85, 0.101325, 968.6223},
    {viscosity, 85, 0.101325, 0.333082},
    {heat_capacity, 85, 0.101325, 4.200007},
    {vapour_pressure_of, 85, 0.101325, 57.86745},
    {density, 90, 0.5, 965.5006},
    {viscosity, 90, 0.5, 0.3142886},
    {heat_capacity, 90, 0.5, 4.204132},
    {vapour_pressure_of, 90, 0.5, 70.18236},
    {density, 99, 0.101325, 959.0717},
    {viscosity, 99, 0.101325, 0.2845686},
    {heat_capacity, 99, 0.101325, 4.215386},
    {vapour_pressure_of, 99, 0.101325, 97.85185},
};

TEST(OutsideWater, AgreesWithIapwsFrom0To100C) {
    static_assert(std::size(rows) >= 40);
    for (const auto& row : rows) {
        const double tolerance = row.property == viscosity ? 0.005 : 0.001;
        EXPECT_NEAR(computed(row), row.expected, tolerance * row.expected)
            << "property " << row.property << " at " << row.celsius << " degC, " << row.megapascal << " MPa";
    }
}

// IAPWS R7-97(2012), Table 5: verification of region 1, from memory.
TEST(OutsideWater, Region1VerificationPoints) {
    EXPECT_NEAR(if97::liquid(300, 3e6).specific_volume, 0.100215168e-2, 1e-11);
    EXPECT_NEAR(if97::liquid(300, 80e6).specific_volume, 0.971180894e-3, 1e-11);
    EXPECT_NEAR(if97::liquid(500, 3e6).specific_volume, 0.120241800e-2, 1e-11);
    EXPECT_NEAR(if97::liquid(300, 3e6).heat_capacity, 0.417301218e4, 1e-4);
    EXPECT_NEAR(if97::liquid(300, 3e6).enthalpy, 0.115331273e6, 1e-3);
}

// IAPWS R7-97(2012), Tables 35 and 36: verification of the saturation line, from memory.
TEST(OutsideWater, SaturationVerificationPoints) {
    EXPECT_NEAR(if97::saturation_pressure(300), 0.353658941e-2 * 1e6, 1e-4);
    EXPECT_NEAR(if97::saturation_temperature(0.1e6), 0.372755919e3, 1e-6);
}

// IAPWS R12-08, Table 4: verification without the critical enhancement, from memory.
TEST(OutsideWater, ViscosityVerificationPoints) {
    EXPECT_NEAR(if97::viscosity(298.15, 998) * 1e6, 889.735100, 1e-5);
    EXPECT_NEAR(if97::viscosity(298.15, 1200) * 1e6, 1437.649467, 1e-5);
    EXPECT_NEAR(if97::viscosity(373.15, 1000) * 1e6, 307.883622, 1e-5);
}

// IAPWS-IF97 at 0.5 MPa, computed from the published formula: 0.016016 ft3/lb at 40 degF, 0.01639 at 160 degF.
TEST(OutsideWater, SpecificVolumeInTradeUnits) {
    const auto volume = [](double degF) {
        const auto density = water(fahrenheit(degF), Pressure::from_value(0.5e6))->density;
        return 1 / (si_value(density) * 0.028316846592 / 0.45359237);
    };
    EXPECT_NEAR(volume(40), 0.016016, 0.0002 * 0.016016);
    EXPECT_NEAR(volume(160), 0.01639, 0.0002 * 0.01639);
}

}  // namespace
}  // namespace bw::matter
