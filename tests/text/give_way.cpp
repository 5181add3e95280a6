// SPDX-License-Identifier: MIT
#include "text/give_way.h"

#include <gtest/gtest.h>

namespace {

using namespace bw;
using text::Part;

TEST(GiveWay, WhatIsMovedAsideGivesWay) {
    int moved = 0, giving = 0;
    for (std::size_t i = 0; i < text::names<Part>().size(); ++i) {
        const auto part = static_cast<Part>(i);
        moved += text::moved_aside(part);
        giving += text::gives_way(part);
        EXPECT_LE(text::moved_aside(part), text::gives_way(part)) << text::name(part);
    }
    EXPECT_GT(moved, 0);
    EXPECT_GT(giving, moved);
}

TEST(GiveWay, ASealStaysWhereItIs) {
    EXPECT_TRUE(text::gives_way(Part::firestop));
    EXPECT_FALSE(text::moved_aside(Part::firestop));
    EXPECT_TRUE(text::moved_aside(Part::cable));
    EXPECT_FALSE(text::gives_way(Part::pipe));
}

}  // namespace
