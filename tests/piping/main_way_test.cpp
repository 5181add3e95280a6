// SPDX-License-Identifier: MIT
// Ways of the mains from a stub in the wall.
#include <gtest/gtest.h>

#include "piping/main/main_way.h"

namespace bw::piping {
namespace {

constexpr double inch = 0.0254;

ClearanceMap room() {
    return ClearanceMap({{0, 0}, {240 * inch, 0}, {240 * inch, 160 * inch}, {0, 160 * inch}}, {120 * inch});
}

RouteRequest from_the_wall() {
    RouteRequest ask;
    ask.from = {0, 80 * inch, 40 * inch};
    ask.from_facing = {1, 0, 0};
    ask.to = {120 * inch, 40 * inch, 40 * inch};
    ask.to_facing = {0, 1, 0};
    ask.radius = 1.5 * inch;
    ask.clearance = 1 * inch;
    ask.turn = 2.5 * inch;
    ask.least = ask.first = ask.last = 2.5 * inch;
    return ask;
}

/// Something that stands 6 in before the wall, as the way in at a door beside the stub: no room to go straight out.
ClearanceMap shut(double before) {
    ClearanceMap space = room();
    space.take({{before, 60 * inch, 0}, {60 * inch, 100 * inch, 80 * inch}}, ClearanceMap::kept_clear, "the way in");
    return space;
}

TEST(MainWay, AnElbowOnTheStubTurnsUpTheWallWhereNothingGoesStraightOn) {
    const auto space = shut(6 * inch);
    const auto ask = from_the_wall();
    EXPECT_FALSE(find_way(space, ask, {}, Thoroughness::searched)) << "straight on there is no room for a nipple";
    const auto way = find_way(space, ask, {}, Thoroughness::searched, ask.turn);
    ASSERT_TRUE(way) << way.error().what;
    EXPECT_NEAR(way->front().x, ask.turn, 1e-9) << "the first corner is the elbow's own take-out from the wall";
    const auto up = way->at(1) - way->front();
    EXPECT_NEAR(up.x, 0, 1e-9);
    EXPECT_LT(shape::distance(way->back(), ask.to), 1e-9);
}

TEST(MainWay, StraightOnIsPreferredWhereItIsFree) {
    const auto ask = from_the_wall();
    const auto plain = find_way(room(), ask, {}, Thoroughness::searched);
    const auto stub = find_way(room(), ask, {}, Thoroughness::searched, ask.turn);
    ASSERT_TRUE(plain && stub);
    ASSERT_EQ(plain->size(), stub->size());
    for (std::size_t i = 0; i < plain->size(); ++i) EXPECT_LT(shape::distance(plain->at(i), stub->at(i)), 1e-9);
}

TEST(MainWay, AsideGivesALongLegWhereTheWayOutHasNone) {
    const auto space = shut(20 * inch);
    const auto ask = from_the_wall();
    constexpr double wanted = 45 * inch;
    const auto way = find_way_aside(space, ask, {}, 8 * inch, wanted);
    ASSERT_TRUE(way) << way.error().what;
    EXPECT_NEAR(way->front().x, 8 * inch, 1e-9);
    EXPECT_GE(shape::distance(way->front(), way->at(1)), wanted);
}

}  // namespace
}  // namespace bw::piping
