// SPDX-License-Identifier: MIT
// Places by name.
#include <gtest/gtest.h>

#include "layout/place.h"

namespace bw::test {
namespace {

TEST(PlaceNames, AFamilyCoversItsOwnAndNoLongerOne) {
    EXPECT_TRUE(layout::covers("wall-1", "wall-1"));
    EXPECT_TRUE(layout::covers("wall-1", "wall-1-at-12"));
    EXPECT_TRUE(layout::covers("wall-1", "wall-1-at-12-fed-1"));
    EXPECT_TRUE(layout::covers("wall-1-at-12", "wall-1-at-12-fed-1"));
    EXPECT_FALSE(layout::covers("wall-1", "wall-1-3-at-12-24"));
    EXPECT_FALSE(layout::covers("wall-1", "wall-12"));
    EXPECT_FALSE(layout::covers("wall-1-at-12", "wall-1-at-12.5"));
    EXPECT_FALSE(layout::covers("wall-1-at-12", "wall-1"));
}

}  // namespace
}  // namespace bw::test
