// SPDX-License-Identifier: MIT
// Paper: every size, all words on the sheet, usual paper by unit system.
#include "kit.h"

namespace bw::test {
namespace {

using draw::Paper;

struct Size {
    Paper paper;
    double width, height;  // points, landscape: ISO 216 and ASME Y14.1 sizes A and B
};
class Papers : public ::testing::TestWithParam<Size> {};
INSTANTIATE_TEST_SUITE_P(All, Papers,
                         ::testing::Values(Size{Paper::a3, 420 / 25.4 * 72, 297 / 25.4 * 72},
                                           Size{Paper::a4, 297 / 25.4 * 72, 210 / 25.4 * 72},
                                           Size{Paper::tabloid, 17 * 72, 11 * 72},
                                           Size{Paper::letter, 11 * 72, 8.5 * 72}));

TEST_P(Papers, EverySheetHasTheSizeAndKeepsItsWordsWithinTheBorder) {
    const auto& [paper, width, height] = GetParam();
    for (const auto system : {units::System::us, units::System::si}) {
        const auto pages = pages_of(draw::sheets(designed("sports-hall"), demo_catalogue(), system, paper).value().pdf);
        ASSERT_GE(pages.size(), 3u);
        for (const auto& page : pages) {
            EXPECT_NEAR(page.width, width, 0.01);
            EXPECT_NEAR(page.height, height, 0.01);
            for (const auto& word : page.words) {
                EXPECT_GE(word.left, 20) << word.text;
                EXPECT_GE(word.top, 20) << word.text;
                EXPECT_LE(word.right, width - 20) << word.text;
                EXPECT_LE(word.bottom, height - 20) << word.text;
            }
        }
    }
}

/// The last of the plan's notes, on the smallest paper too; and lengths in the sheet's own units alone.
TEST_P(Papers, PlanHasAllItsNotesInOneSystemOfUnits) {
    const auto pages =
        pages_of(draw::sheets(designed("hostel"), demo_catalogue(), units::System::si, GetParam().paper).value().pdf);
    const auto& plan = page_titled(pages, "Plan");
    EXPECT_EQ(plan.count("before hanging anything."), 1);
    EXPECT_EQ(plan.count("Catalogue equipment marked 'demo' is invented."), 1);
    EXPECT_EQ(plan.count("dimensions in mm"), 1);
    EXPECT_EQ(plan.count("ft"), 0);
}

TEST_P(Papers, IsometricNamesEveryHeaterAndService) {
    const auto pages =
        pages_of(draw::sheets(designed("hostel"), demo_catalogue(), units::System::us, GetParam().paper).value().pdf);
    const auto& sheet = page_titled(pages, "Isometric");
    for (int n = 1; n <= designed("hostel").chosen->capacity.installed; ++n)
        EXPECT_GE(sheet.count(std::to_string(n)), 1) << n;
    for (const auto* service : {"in gas", "in cold", "in hot", "in exhaust", "in intake"})
        EXPECT_GE(sheet.count(service), 1) << service;
}

TEST(UsualPaper, FollowsTheUnits) {
    EXPECT_EQ(draw::usual_paper(units::System::us), Paper::tabloid);
    EXPECT_EQ(draw::usual_paper(units::System::si), Paper::a3);
}

class Sheets : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Sheets, ::testing::ValuesIn(example_names));

TEST_P(Sheets, AreTheSameTwice) {
    const auto once = [&] {
        return draw::sheets(designed(GetParam()), demo_catalogue(), units::System::us, Paper::letter).value();
    };
    const auto one = once(), two = once();
    EXPECT_TRUE(one.pdf == two.pdf);
    ASSERT_EQ(one.svg.size(), two.svg.size());
    for (std::size_t i = 0; i < one.svg.size(); ++i) {
        EXPECT_EQ(one.svg[i].first, two.svg[i].first);
        EXPECT_TRUE(one.svg[i].second == two.svg[i].second) << one.svg[i].first;
    }
}

}  // namespace
}  // namespace bw::test
