// SPDX-License-Identifier: MIT
// The topics of earthquake and overturning as they are typed.
#include <gmock/gmock.h>

#include "kit.h"

namespace bw::reckon {
namespace {

/// ASCE 7-16 13.3.1, computed from the published formula.
TEST(AnchorSeismic, IsTheFormula) {
    const auto json =
        json_of("anchor-seismic", {"weight=1000 lb", "sds=1", "ap=1", "rp=2.5", "ip=1", "height-ratio=1"});
    EXPECT_NEAR(value_of(json, "force"), 480, 0.48);
    EXPECT_NEAR(value_of(json, "lower"), 300, 0.3);
    EXPECT_NEAR(value_of(json, "upper"), 1600, 1.6);
    EXPECT_EQ(json["result"]["force"]["unit"], "lbf");
    EXPECT_THAT(refusal("anchor-seismic", {"weight=1000 lb", "sds=1", "ap=1", "rp=2.5", "ip=1", "height-ratio=1.2"}),
                testing::HasSubstr("z/h"));
}

/// Statics: 400 lbf at 4 ft against 1,000 lbf on a base of 2 ft leave 300 lbf for three anchors.
TEST(Overturning, IsStatics) {
    const auto json =
        json_of("overturning", {"weight=1000 lb", "force=400 lbf", "height=4 ft", "base=2 ft", "anchors=3"});
    EXPECT_NEAR(value_of(json, "uplift"), 100, 1e-6);
    EXPECT_EQ(json["result"]["stable"], false);
    EXPECT_THAT(refusal("overturning", {"weight=1000 lb", "force=400 lbf", "height=4 ft", "base=2 ft"}),
                testing::HasSubstr("anchors"));
}

}  // namespace
}  // namespace bw::reckon
