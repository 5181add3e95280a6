// SPDX-License-Identifier: MIT
// Heat lost by pipe and water's expansion against handbook figures.
#include <gtest/gtest.h>

#include "matter/expansion.h"
#include "matter/pipe_heat.h"

namespace bw::matter {
namespace {

constexpr double btu_per_hour_foot = 1055.05585262 / 3600 / 0.3048;

struct BarePipe {
    double outside, inside;  ///< in, schedule 40
    double loss;             ///< Btu/(h ft) at 180 degF inside
};
// ASHRAE Handbook, Fundamentals, heat loss from bare steel pipe to still air at 80 degF; from memory.
constexpr BarePipe bare[] = {{0.840, 0.622, 56.3}, {1.050, 0.824, 68.1}, {1.315, 1.049, 82.5},
                             {1.660, 1.380, 102},  {1.900, 1.610, 115},  {2.375, 2.067, 141}};

TEST(OutsideHeat, BareSteelPipeOfTheHandbook) {
    for (const auto& row : bare) {
        const Pipework pipe{text::Material::steel_40, row.outside * inch, row.inside * inch, Insulation::none, {}, 0.9};
        const auto found = pipe_heat(pipe, fahrenheit(180), fahrenheit(80), 1.0 * metre);
        ASSERT_TRUE(found) << describe(found.error());
        EXPECT_NEAR(found->per_metre / btu_per_hour_foot, row.loss, 0.08 * row.loss) << row.outside;
    }
}

// Incropera and DeWitt, Fundamentals of Heat and Mass Transfer, a steam pipe of 0.1 m with its surface at 165 degC in a
// room at 23 degC, emissivity 0.85: 763 W/m; from memory.
TEST(OutsideHeat, ASteamPipeOfTheTextbook) {
    const Pipework pipe{text::Material::copper_l, 0.1 * metre, 0.098 * metre, Insulation::none, {}, 0.85};
    const auto found = pipe_heat(pipe, celsius(165), celsius(23), 1.0 * metre);
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR(found->per_metre, 763, 0.02 * 763);
}

// ASPE plumbing handbook, expansion tanks, from memory: 1,000 gal from 40 to 140 degF swell by 16.9 gal. It takes
// specific volumes of four digits, 0.01602 and 0.01629 ft3/lb; with more digits it is 17.1.
TEST(OutsideExpansion, AThousandGallons) {
    const auto found =
        expansion_vessel(1000.0 * gallon, fahrenheit(40), fahrenheit(140), 50.0 * psi, 100.0 * psi, 101325.0 * pascal);
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR(found->expansion / gallon, 16.9, 0.015 * 16.9);
}

}  // namespace
}  // namespace bw::matter
