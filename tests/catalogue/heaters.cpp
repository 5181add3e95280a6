// SPDX-License-Identifier: MIT
// The demo heaters, and what a heater answers about its two curves.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "catalogue/catalogue.h"

namespace bw::catalogue {
namespace {

const Catalogue& demo() {
    static const Catalogue catalogue = load().value();
    return catalogue;
}
const Heater& heater(std::string_view key) { return *demo().heater(key); }

TEST(DemoHeaters, AreThreeSizesUnderThePressureVesselLimit) {
    EXPECT_NEAR(heater("demo-120").input_greatest / kbtu_per_hour, 120, 1e-9);
    EXPECT_NEAR(heater("demo-160").input_greatest / kbtu_per_hour, 160, 1e-9);
    EXPECT_NEAR(heater("demo-199").input_greatest / kbtu_per_hour, 199, 1e-9);
    for (const auto& h : demo().heaters) EXPECT_LT(h.input_greatest, 200.0 * kbtu_per_hour);
    EXPECT_EQ(demo().heater("demo-200"), nullptr);
}

TEST(DemoHeaters, RisersStandThreeInchesApart) {
    for (const auto& h : demo().heaters) {
        const std::array below{h.port("gas"), h.port("cold"), h.port("hot"), h.port("condensate")};
        for (std::size_t i = 0; i < below.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                EXPECT_GE(std::abs(below[i]->at.x - below[j]->at.x), 3 * 0.0254) << h.key;
        EXPECT_EQ(h.port("mount")->service, Service::structure);
        EXPECT_EQ(h.port("link-in")->service, Service::link);
        EXPECT_EQ(h.port("gas")->facing, shape::down);
        EXPECT_EQ(h.port("exhaust")->facing, shape::up);
        EXPECT_EQ(h.port("chimney"), nullptr);
    }
}

TEST(DemoHeaters, CommonVentingAndAltitudeRulesDiffer) {
    EXPECT_TRUE(heater("demo-120").common_vents.empty());
    EXPECT_FALSE(heater("demo-160").common_vents.empty());
    EXPECT_EQ(heater("demo-199").common_vents.back().most, 16);
    EXPECT_FALSE(heater("demo-120").derate_per_1000ft);
    EXPECT_FALSE(heater("demo-160").derate_per_1000ft);
    EXPECT_NEAR(heater("demo-199").derate_per_1000ft.value(), 0.035, 1e-12);
    EXPECT_NEAR(heater("demo-199").derate_above / foot, 2000, 1e-9);
}

TEST(HeaterCurves, EfficiencyIsStraightBetweenPoints) {
    const Heater& h = heater("demo-199");
    EXPECT_NEAR(efficiency(h, fahrenheit(60)).value(), 0.975, 1e-12);
    EXPECT_NEAR(efficiency(h, fahrenheit(70)).value(), 0.9725, 1e-9);
    EXPECT_NEAR(efficiency(h, fahrenheit(180)).value(), 0.87, 1e-12);
}

TEST(HeaterCurves, EfficiencyHoldsItsEndsForFiveKelvinOnly) {
    const Heater& h = heater("demo-199");
    EXPECT_NEAR(efficiency(h, fahrenheit(35) - 4.9 * kelvin_difference).value(), 0.98, 1e-12);
    EXPECT_NEAR(efficiency(h, fahrenheit(180) + 4.9 * kelvin_difference).value(), 0.87, 1e-12);
    EXPECT_FALSE(efficiency(h, fahrenheit(35) - 5.1 * kelvin_difference));
    const auto hot = efficiency(h, fahrenheit(180) + 5.1 * kelvin_difference);
    ASSERT_FALSE(hot);
    EXPECT_THAT(describe(hot.error()), testing::HasSubstr("35.0 degF to 180.0 degF"));
}

TEST(HeaterCurves, PressureDropRisesFromNothingAndEndsAtTheGreatestFlow) {
    const Heater& h = heater("demo-199");
    EXPECT_EQ(pressure_drop(h, VolumeFlow{}).value(), Pressure{});
    EXPECT_NEAR(pressure_drop(h, 8.0 * gallon_per_minute).value() / psi, 12.9, 1e-9);
    EXPECT_NEAR(pressure_drop(h, 4.5 * gallon_per_minute).value() / psi, (3.3 + 5.1) / 2, 1e-9);
    EXPECT_TRUE(pressure_drop(h, h.flow_greatest));
    EXPECT_FALSE(pressure_drop(h, 1.001 * h.flow_greatest));
    EXPECT_FALSE(pressure_drop(h, -1.0 * gallon_per_minute));
}

}  // namespace
}  // namespace bw::catalogue
