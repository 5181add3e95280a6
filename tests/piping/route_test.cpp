// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "route/clearance_map.h"

namespace bw::route {
namespace {

using namespace route;  // NOLINT

constexpr double inch = 0.0254;

ClearanceMap room() {
    return ClearanceMap({{0, 0}, {240 * inch, 0}, {240 * inch, 160 * inch}, {0, 160 * inch}}, {120 * inch});
}

RouteRequest across() {
    RouteRequest ask;
    ask.from = {0, 40 * inch, 40 * inch};
    ask.from_facing = {1, 0, 0};
    ask.to = {240 * inch, 40 * inch, 40 * inch};
    ask.to_facing = {-1, 0, 0};
    ask.radius = 2 * inch;
    ask.clearance = 1 * inch;
    ask.turn = 3 * inch;
    ask.least = ask.first = ask.last = 2 * inch;
    return ask;
}

TEST(Route, GoesStraightWhereNothingIsInTheWay) {
    const auto way = find_route(room(), across());
    ASSERT_TRUE(way);
    ASSERT_EQ(way->size(), 1U);
    EXPECT_EQ(way->front().x, 240 * inch);
}

/// Overhead, or by a wall, or in a bank's own strip; across the floor only where nothing else is left.
TEST(Route, KeepsOffTheFloorWherePeopleWalk) {
    constexpr double head_room = 80 * inch, strip = 10 * inch;
    RouteRequest ask = across();
    ask.levels = {100 * inch};
    const auto walked = [&](ClearanceMap space, std::vector<shape::Box> aside) {
        space.keep_walkable(head_room, strip, std::move(aside));
        const auto way = find_route(space, ask);
        EXPECT_TRUE(way);
        return way ? walked_length(space, ask.from, *way) : 0;
    };
    EXPECT_NEAR(walked(room(), {}), 220 * inch, 8 * inch) << "as if it were nothing";
    ask.walk_price = 4;
    EXPECT_LT(walked(room(), {}), 40 * inch) << "rises, crosses and comes down";
    const ClearanceMap low({{0, 0}, {240 * inch, 0}, {240 * inch, 160 * inch}, {0, 160 * inch}}, {76 * inch});
    ask.levels = {};
    EXPECT_LT(walked(low, {}), 5 * inch) << "along the wall";
    EXPECT_NEAR(walked(low, {{{0, 30 * inch, 0}, {240 * inch, 50 * inch, 60 * inch}}}), 0, 1e-9) << "along a bank";
    ClearanceMap narrow = low;
    narrow.take({{60 * inch, 0, 0}, {80 * inch, 30 * inch, 76 * inch}}, ClearanceMap::kept_clear, "a pier");
    narrow.take({{60 * inch, 60 * inch, 0}, {80 * inch, 160 * inch, 76 * inch}}, ClearanceMap::kept_clear, "another");
    EXPECT_GT(walked(narrow, {}), 15 * inch) << "by the one gap there is";
}

TEST(Route, GoesRoundAnObstacleWithItsClearance) {
    ClearanceMap space = room();
    const shape::Box column{{100 * inch, 0, 0}, {120 * inch, 80 * inch, 120 * inch}};
    space.take(column, ClearanceMap::kept_clear, "the column");
    const RouteRequest ask = across();
    const auto way = find_route(space, ask);
    ASSERT_TRUE(way) << way.error().what;
    shape::Vec from = ask.from;
    for (const auto& corner : *way) {
        const auto leg = shape::box_of(from, corner);
        EXPECT_GE(shape::gap(leg, column), ask.radius + ask.clearance - 1e-6);
        from = corner;
    }
    EXPECT_LT(shape::distance(from, ask.to), 1e-9);
}

TEST(Route, LegsLeaveRoomForTheirElbows) {
    ClearanceMap space = room();
    space.take({{100 * inch, 0, 0}, {120 * inch, 80 * inch, 120 * inch}}, ClearanceMap::kept_clear, "the column");
    const RouteRequest ask = across();
    const auto way = find_route(space, ask);
    ASSERT_TRUE(way);
    ASSERT_GT(way->size(), 2U);
    shape::Vec from = ask.from;
    for (std::size_t i = 0; i < way->size(); ++i) {
        const bool end = i == 0 || i + 1 == way->size();
        EXPECT_GE(shape::distance(from, (*way)[i]), ask.turn * (end ? 1 : 2) + ask.least - 1e-6);
        from = (*way)[i];
    }
}

TEST(Route, NamesWhatShutsTheWay) {
    ClearanceMap space = room();
    space.take({{100 * inch, 0, 0}, {120 * inch, 160 * inch, 120 * inch}}, ClearanceMap::kept_clear, "the old boiler");
    const auto way = find_route(space, across());
    ASSERT_FALSE(way);
    EXPECT_THAT(way.error().what, testing::HasSubstr("the old boiler"));
}

TEST(Route, StaysInAnLShapedRoom) {
    const ClearanceMap space({{0, 0},
                              {240 * inch, 0},
                              {240 * inch, 80 * inch},
                              {80 * inch, 80 * inch},
                              {80 * inch, 200 * inch},
                              {0, 200 * inch}},
                             {120 * inch});
    RouteRequest ask = across();
    ask.from = {40 * inch, 200 * inch, 40 * inch};
    ask.from_facing = {0, -1, 0};
    const auto way = find_route(space, ask);
    ASSERT_TRUE(way) << way.error().what;
    shape::Vec from = ask.from;
    for (const auto& corner : *way) {
        EXPECT_TRUE(shape::contains(space.plan(), shape::box_of(from, corner), 1e-6));
        from = corner;
    }
}

TEST(Route, KeepsOffWhatOnlyThisRouteMustAvoid) {
    RouteRequest ask = across();
    const shape::Box door{{100 * inch, 0, 0}, {130 * inch, 60 * inch, 80 * inch}};
    ask.keep_off = {{door, "the way through the door"}};
    const auto way = find_route(room(), ask);
    ASSERT_TRUE(way) << way.error().what;
    shape::Vec from = ask.from;
    for (const auto& corner : *way) {
        EXPECT_FALSE(shape::overlap(shape::grown(shape::box_of(from, corner), ask.radius), door, 1e-6));
        from = corner;
    }
}

}  // namespace
}  // namespace bw::route
