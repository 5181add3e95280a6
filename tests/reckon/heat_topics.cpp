// SPDX-License-Identifier: MIT
// The topics of vessels and pipe heat as they are typed.
#include <gmock/gmock.h>

#include "kit.h"

namespace bw::reckon {
namespace {

TEST(ExpansionVessel, AThousandGallons) {
    const auto json = json_of("expansion-vessel", {"volume=1000 gal", "cold=40 degF", "hot=140 degF",
                                                   "fill-pressure=50 psi", "max-pressure=100 psi"});
    // 17.1 gal over 1 - (50 + 14.7)/(100 + 14.7)
    EXPECT_NEAR(value_of(json, "expansion"), 17.1, 0.1);
    EXPECT_NEAR(value_of(json, "vessel-volume"), 17.1 / (1 - 64.7 / 114.7), 0.3);
    EXPECT_EQ(json["result"]["vessel-volume"]["unit"], "gal");
    EXPECT_THAT(refusal("expansion-vessel", {"volume=1000 gal", "cold=40 degF", "hot=140 degF", "fill-pressure=50 psi",
                                             "max-pressure=40 psi"}),
                testing::HasSubstr("greatest pressure"));
}

TEST(HeatLoss, InsulationKeepsFourFifths) {
    const auto bare = json_of("heat-loss", {"material=copper-l", "size=2", "insulation=none", "fluid=140 degF",
                                            "air=70 degF", "length=100 ft"});
    const auto kept = json_of("heat-loss", {"material=copper-l", "size=2", "insulation=mineral-fibre",
                                            "thickness=1.5 in", "fluid=140 degF", "air=70 degF", "length=100 ft"});
    EXPECT_LT(value_of(kept, "loss"), 0.25 * value_of(bare, "loss"));
    EXPECT_LT(value_of(kept, "surface"), 85);
    EXPECT_EQ(kept["result"]["loss"]["unit"], "kBtu/h");
    EXPECT_THAT(refusal("heat-loss", {"material=copper-l", "size=2", "insulation=elastomeric", "fluid=140 degF",
                                      "air=70 degF", "length=100 ft"}),
                testing::HasSubstr("thickness"));
}

}  // namespace
}  // namespace bw::reckon
