// SPDX-License-Identifier: MIT
// A sloping ceiling on the sheets. The wash-house: 20 by 14 ft, heaters along wall 1 (y = 0).
#include <gmock/gmock.h>

#include "draw/bank_view.h"
#include "kit.h"

namespace bw::test {
namespace {

using ::testing::HasSubstr;

constexpr double ft = 0.3048;

design::Result falling(int wall, double low) {
    auto result = designed("wash-house");
    result.survey.room.slope = survey::CeilingSlope{wall, low * ft * units::metre};
    return result;
}

TEST(SlopeDrawn, AlongTheBankItIsOneLineFromWallToWall) {
    const auto result = falling(1, 8);  // from 10 ft at x = 0 to 8 ft at x = 20 ft
    const auto& bank = result.chosen->layout.banks.front();
    const auto view = draw::front_view(result.chosen->built.plant, bank, 0);
    const auto lines = draw::ceiling_lines(result.survey.room, view);
    ASSERT_EQ(lines.size(), 1u);
    // seen from the room, x runs to the left
    for (const auto& [along, height] : {std::pair{lines[0].from, lines[0].left}, {lines[0].to, lines[0].right}}) {
        const double x = -along;
        EXPECT_GE(x, -1e-9);
        EXPECT_LE(x, 20 * ft + 1e-9);
        EXPECT_NEAR(height, 10 * ft - 0.1 * x, 1e-9);
    }
    EXPECT_LT(lines[0].left, lines[0].right);
}

TEST(SlopeDrawn, AwayFromTheReaderItIsTwo) {
    const auto result = falling(2, 8);  // from 10 ft at y = 0 to 8 ft at y = 14 ft
    const auto& bank = result.chosen->layout.banks.front();
    const auto view = draw::front_view(result.chosen->built.plant, bank, 0);
    const auto lines = draw::ceiling_lines(result.survey.room, view);
    ASSERT_EQ(lines.size(), 2u);
    EXPECT_NEAR(lines[0].left, 10 * ft, 1e-9) << "at the wall the heaters hang on";
    EXPECT_NEAR(lines[1].left, 10 * ft - view.near_high / 7, 1e-9);
    EXPECT_NEAR(draw::top_of(lines), 10 * ft, 1e-9);
}

TEST(SlopeDrawn, ALevelCeilingIsOneLineAcrossTheView) {
    const auto& result = designed("wash-house");
    const auto view = draw::end_view(result.chosen->layout.banks.front());
    const auto lines = draw::ceiling_lines(result.survey.room, view);
    ASSERT_EQ(lines.size(), 1u);
    EXPECT_EQ(lines[0].from, view.low);
    EXPECT_EQ(lines[0].to, view.high);
    EXPECT_EQ(lines[0].left, result.survey.room.ceiling->value());
    EXPECT_EQ(draw::ceiling_note(lines, units::System::us), "");
}

TEST(SlopeDrawn, PlanAndElevationsTellTheHeights) {
    const auto pages =
        pages_of(draw::sheets(falling(2, 8), demo_catalogue(), units::System::us, draw::Paper::tabloid).value().pdf);
    EXPECT_THAT(page_titled(pages, "Plan").text(), HasSubstr("falling evenly to 8 ft at wall 3"));
    const auto& front = page_titled(pages, "Front of bank 1").text();
    EXPECT_THAT(front, HasSubstr("ceiling, at the back"));
    EXPECT_THAT(front, HasSubstr("The ceiling is 10 ft high at the back of the view"));
}

}  // namespace
}  // namespace bw::test
