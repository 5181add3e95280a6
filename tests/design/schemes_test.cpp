// SPDX-License-Identifier: MIT
// Headers fed and led off elsewhere.
#include <numeric>

#include "../support/examples.h"
#include "design/solved.h"

#include <gtest/gtest.h>

namespace bw::test {
namespace {

design::Result serving(const char* name, int heaters_a_length) {
    auto survey = example(name);
    survey.preferences.header_serves = {heaters_a_length, false};
    return designed(survey);
}

class Schemes : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Schemes, ::testing::Values("hostel", "wash-house", "sports-hall"));

TEST_P(Schemes, TheFirstIsThePlantAsLaidAndAllGiveWhatIsDrawn) {
    const auto result = serving(GetParam(), 4);
    const auto schemes = design::header_schemes(result);
    ASSERT_EQ(schemes.size(), 4u);
    const auto* balance = check_of(result, "water.balance");
    ASSERT_TRUE(balance && balance->value);
    EXPECT_NEAR(schemes.front().shortfall, balance->value->si, 1e-6);
    const auto drawn = [](const network::HeaderScheme& scheme) {
        return std::accumulate(scheme.heater.begin(), scheme.heater.end(), 0.0,
                               [](double sum, units::VolumeFlow flow) { return sum + flow.value(); });
    };
    for (const auto& scheme : schemes) {
        EXPECT_TRUE(scheme.refused.empty()) << scheme.what << ": " << scheme.refused;
        EXPECT_NEAR(drawn(scheme), drawn(schemes.front()), 1e-8 * drawn(schemes.front())) << scheme.what;
    }
}

/// The rule of the trade: in headers of one size a reverse return shares more evenly than a direct one, and a feed at
/// the middle more evenly than one at the end.
TEST(Schemes, AReverseReturnAndAMiddleFeedShareMoreEvenlyInHeadersOfOneSize) {
    const auto result = serving("wash-house", 8);
    const auto schemes = design::header_schemes(result);
    ASSERT_EQ(schemes.size(), 4u);
    EXPECT_LT(schemes[1].shortfall, schemes[0].shortfall);
    EXPECT_LT(schemes[2].shortfall, schemes[0].shortfall);
}

TEST(Taps, OneSmallTapIsHeldToWhatLightsAHeater) {
    const auto result = serving("hostel", 4);
    const auto* tap = check_of(result, "water.one-tap");
    ASSERT_TRUE(tap && tap->value && tap->limit);
    EXPECT_EQ(tap->status == reason::Status::refer, tap->value->si < tap->limit->si);
    const auto* mixing = check_of(result, "water.mixing");
    ASSERT_TRUE(mixing && mixing->value);
    EXPECT_EQ(mixing->status, reason::Status::refer);
    EXPECT_GT(mixing->value->si, 5 * 6894.757);
    EXPECT_LT(mixing->value->si, 30 * 6894.757);
}

}  // namespace
}  // namespace bw::test
