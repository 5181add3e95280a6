// SPDX-License-Identifier: MIT
#include "units/nominal.h"

#include <gtest/gtest.h>

#include "units/error.h"

namespace bw::units {
namespace {

TEST(Nominal, IsReadInEighths) {
    EXPECT_EQ(parse_nominal("3/4")->eighths, 6);
    EXPECT_EQ(parse_nominal("1-1/4 in")->eighths, 10);
    EXPECT_EQ(parse_nominal("2")->eighths, 16);
    EXPECT_EQ(parse_nominal(" 2-1/2\" ")->eighths, 20);
    EXPECT_EQ(parse_nominal("0.75")->eighths, 6);
}

TEST(Nominal, RefusesWhatIsNoPipeSize) {
    for (const char* text : {"", "0", "-1", "1/3", "1-1/4 mm", "two", "1.3", "1e9", "97", "1-1/4 in x", "nan"})
        EXPECT_FALSE(parse_nominal(text)) << text;
}

TEST(Nominal, QuotesOnlyTheStartOfALongText) {
    EXPECT_LT(describe(parse_nominal(std::string(10000, 'x')).error()).size(), 200u);
}

TEST(Nominal, PrintsAsItIsRead) {
    for (int eighths = 1; eighths <= 96; ++eighths) {
        const std::string text = print(Nominal{eighths});
        ASSERT_TRUE(parse_nominal(text)) << text;
        EXPECT_EQ(parse_nominal(text)->eighths, eighths) << text;
    }
    EXPECT_EQ(print(Nominal{10}), "1-1/4");
    EXPECT_EQ(print(Nominal{6}), "3/4");
}

TEST(Errors, AreOneLineWithTheirPlace) {
    EXPECT_EQ(describe({"pressure: 'x' is not a pressure", "psi", {"a.toml", 3, 7}}),
              "a.toml:3:7: pressure: 'x' is not a pressure, expected psi");
    EXPECT_EQ(describe({"is empty", "", {"a.toml", 0, 0}}), "a.toml: is empty");
    EXPECT_EQ(describe({"two\nlines", "", {}}), "two\\nlines");
}

}  // namespace
}  // namespace bw::units
