// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include <random>

#include "shape/polygon.h"

using namespace bw::shape;

namespace {
const Polygon square{{0, 0}, {4, 0}, {4, 4}, {0, 4}};
const Polygon ell{{0, 0}, {6, 0}, {6, 2}, {2, 2}, {2, 5}, {0, 5}};
const Polygon notched{{0, 0}, {6, 0}, {6, 4}, {3.5, 4}, {3.5, 1}, {3, 1}, {3, 4}, {0, 4}};
Box plan(double x0, double y0, double x1, double y1) { return {{x0, y0, 0}, {x1, y1, 1}}; }
}  // namespace

TEST(Polygons, AreaIsPositiveCounterClockwise) {
    EXPECT_DOUBLE_EQ(signed_area(square), 16);
    EXPECT_DOUBLE_EQ(signed_area({square.rbegin(), square.rend()}), -16);
    EXPECT_DOUBLE_EQ(signed_area(ell), 18);
}

TEST(Polygons, CrossingRepeatedAndSpikedCornersAreFound) {
    EXPECT_FALSE(crosses_itself(square));
    EXPECT_FALSE(crosses_itself(ell));
    EXPECT_FALSE(crosses_itself(notched));
    EXPECT_FALSE(crosses_itself({{0, 0}, {2, 0}, {4, 0}, {4, 4}, {0, 4}})) << "a corner in a straight wall is allowed";
    EXPECT_TRUE(crosses_itself({{0, 0}, {4, 4}, {4, 0}, {0, 4}}));
    EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}, {4, 0}, {4, 4}, {0, 4}})) << "repeated";
    EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}, {7, 0}, {4, 0}, {4, 4}, {0, 4}})) << "spike along the wall";
    EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}, {2, 0}, {2, 4}, {0, 4}})) << "folds back";
    EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}, {4, 4}, {2, 0}, {0, 4}})) << "corner touches a far wall";
    EXPECT_TRUE(crosses_itself({{0, 0}, {4, 0}}));
}

TEST(Polygons, EdgesCountAsInside) {
    EXPECT_TRUE(inside(ell, {1, 4}));
    EXPECT_TRUE(inside(ell, {2, 3}));
    EXPECT_TRUE(inside(ell, {6, 2}));
    EXPECT_FALSE(inside(ell, {2.001, 3}));
    EXPECT_FALSE(inside(ell, {-1, 0}));
    EXPECT_TRUE(inside(ell, {2.001, 3}, 0.01));
}

TEST(Polygons, ARectangleAcrossTheInnerCornerIsOutside) {
    EXPECT_TRUE(contains(ell, plan(0, 0, 2, 5)));
    EXPECT_TRUE(contains(ell, plan(0, 0, 6, 2)));
    EXPECT_FALSE(contains(ell, plan(1, 1, 3, 3)));
    EXPECT_FALSE(contains(ell, plan(0, 0, 6, 5)));
    EXPECT_FALSE(contains(ell, plan(-1, -1, 7, 6))) << "larger than the room";
    EXPECT_FALSE(contains(notched, plan(1, 0.5, 5, 3.9))) << "all four corners are inside, the notch is not";
    EXPECT_TRUE(contains(notched, plan(1, 0, 5, 1)));
}

TEST(Polygons, ContainsAgreesWithSamplingOnRandomRectangles) {
    std::mt19937 rng(3);
    std::uniform_int_distribution<int> x(-2, 26), y(-2, 22), size(1, 12);
    const Polygon slanted{{0, 0}, {6, 0}, {4, 5}, {2, 3}, {0, 4}};
    for (const Polygon& room : {square, ell, notched, slanted})
        for (int k = 0; k < 300; ++k) {
            const double x0 = x(rng) / 4.0, y0 = y(rng) / 4.0;
            const Box box = plan(x0, y0, x0 + size(rng) / 4.0, y0 + size(rng) / 4.0);
            bool all = true;
            for (int i = 0; i <= 48; ++i)
                for (int j = 0; j <= 48; ++j)
                    all = all && inside(room, {box.min.x + (box.max.x - box.min.x) * i / 48,
                                               box.min.y + (box.max.y - box.min.y) * j / 48});
            if (contains(room, box)) {
                EXPECT_TRUE(all);
            } else if (all) {
                EXPECT_FALSE(contains(room, grown(box, 0.2))) << "samples may miss a sliver only";
            }
        }
}
