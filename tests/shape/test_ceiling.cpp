// SPDX-License-Identifier: MIT
// The plane of a ceiling, against heights and volumes worked out by hand.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "shape/ceiling.h"

namespace bw::shape {
namespace {

const Polygon six_by_four{{0, 0}, {6, 0}, {6, 4}, {0, 4}};

TEST(Ceiling, ALevelOneIsAsHighEverywhereToTheLastBit) {
    const Ceiling level{2.8956};
    EXPECT_TRUE(level.level());
    EXPECT_EQ(level.at(17.3, -4.1), 2.8956);
    EXPECT_EQ(level.lowest({{-3, 1, 0}, {9, 2, 1}}), 2.8956);
    EXPECT_EQ(level.highest({{-3, 1, 0}, {9, 2, 1}}), 2.8956);
}

TEST(Ceiling, FallsFromTheFarCornerToTheLowSide) {
    const Ceiling c = sloping(six_by_four, 2, 2, 3);  // the side along y = 4
    EXPECT_NEAR(c.at(0, 0), 3, 1e-12);
    EXPECT_NEAR(c.at(6, 4), 2, 1e-12);
    EXPECT_NEAR(c.at(3, 1), 2.75, 1e-12);
    EXPECT_NEAR(c.lowest({{1, 1, 0}, {2, 3, 1}}), 2.25, 1e-12);
    EXPECT_NEAR(c.highest({{1, 1, 0}, {2, 3, 1}}), 2.75, 1e-12);
}

TEST(Ceiling, AWallAslantIsAsLowAllAlongIt) {
    const Polygon wedge{{0, 0}, {5, 0}, {5, 2}, {2, 4}, {0, 4}};  // side 2 runs aslant
    const Ceiling c = sloping(wedge, 2, 2.1, 3);
    EXPECT_NEAR(c.at(5, 2), 2.1, 1e-12);
    EXPECT_NEAR(c.at(2, 4), 2.1, 1e-12);
    EXPECT_NEAR(c.at(3.5, 3), 2.1, 1e-12);
    EXPECT_NEAR(c.at(0, 0), 3, 1e-12);
}

TEST(Ceiling, LowestOverABoxIsTheLeastOfManyPlaces) {
    std::mt19937 rng(5);
    std::uniform_real_distribution<double> some(-4, 4);
    for (int k = 0; k < 200; ++k) {
        const Ceiling c{some(rng), some(rng) / 4, some(rng) / 4};
        const Box box = box_of({some(rng), some(rng), 0}, {some(rng), some(rng), 1});
        double least = 1e9, most = -1e9;
        for (int i = 0; i <= 8; ++i)
            for (int j = 0; j <= 8; ++j) {
                const double h =
                    c.at(box.min.x + i / 8.0 * (box.max.x - box.min.x), box.min.y + j / 8.0 * (box.max.y - box.min.y));
                least = std::min(least, h), most = std::max(most, h);
            }
        EXPECT_NEAR(c.lowest(box), least, 1e-12);
        EXPECT_NEAR(c.highest(box), most, 1e-12);
    }
}

TEST(Ceiling, TurnsAndMovesWithTheRoom) {
    const Ceiling c{3, 0.1, -0.2};
    for (int turns = 0; turns < 4; ++turns) {
        const Placement place{turns, {2, -1, 0}};
        const Ceiling there = c.placed(place);
        for (const Vec p : {Vec{0, 0, 0}, Vec{1.5, 2, 0}, Vec{-3, 0.7, 0}})
            EXPECT_NEAR(there.at(place(p)), c.at(p), 1e-12);
    }
}

TEST(Ceiling, ABarReachesAsFarAboveAsItsRimDoes) {
    const Ceiling c{3, 0.5, 0};
    // level, along y: its side is what touches, square to the slope
    const double rim = 0.1 * std::sqrt(1 + 0.25);
    EXPECT_NEAR(reaches_above(c, Cylinder{{1, 0, 3.4}, {1, 2, 3.4}, 0.1}), 3.4 - 3.5 + rim, 1e-12);
    // upright: the edge of its flat end on the low side
    EXPECT_NEAR(reaches_above(c, Cylinder{{1, 0, 0}, {1, 0, 3.4}, 0.1}), 3.4 - 3.5 + 0.05, 1e-12);
    // along the slope: parallel to it
    EXPECT_NEAR(reaches_above(c, Cylinder{{0, 0, 2.8}, {2, 0, 3.8}, 0.1}), -0.2 + rim, 1e-12);
    EXPECT_NEAR(reaches_above(c, Box{{1, 0, 0}, {2, 1, 3.6}}), 0.1, 1e-12);
}

TEST(Ceiling, VolumeUnderAPlaneByHand) {
    EXPECT_NEAR(volume_under({2.5}, six_by_four), 60, 1e-12);
    EXPECT_NEAR(volume_under(sloping(six_by_four, 2, 2, 3), six_by_four), 24 * 2.5, 1e-12);  // a wedge: its mean height
    // an L: 6 x 4 less the 3 x 2 by the low side's far end; the plane falls along y, so each part has its own mean
    const Polygon ell{{0, 0}, {6, 0}, {6, 4}, {3, 4}, {3, 2}, {0, 2}};
    const double by_hand = 6 * 2 * 2.75 + 3 * 2 * 2.25;
    EXPECT_NEAR(volume_under(sloping(ell, 2, 2, 3), ell), by_hand, 1e-12);
}

}  // namespace
}  // namespace bw::shape
