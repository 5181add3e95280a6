// SPDX-License-Identifier: MIT
// Headers fed and led off elsewhere.
#include <numeric>

#include "laws.h"

namespace bw::test {
namespace {

design::Result designed(const char* name, int header_serves) {
    auto survey = *survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + name + ".toml");
    survey.wishes.header_serves = {header_serves, false};
    return *design::run(survey, *catalogue::load());
}

const reason::Check* check(const design::Result& result, const std::string& id) {
    for (const auto& each : result.checks)
        if (each.id == id) return &each;
    return nullptr;
}

class Schemes : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Schemes, ::testing::Values("hostel", "wash-house", "sports-hall"));

TEST_P(Schemes, TheFirstIsThePlantAsLaidAndAllGiveWhatIsDrawn) {
    const auto result = designed(GetParam(), 4);
    const auto& schemes = result.chosen->schemes;
    ASSERT_EQ(schemes.size(), 4u);
    const auto* balance = check(result, "water.balance");
    ASSERT_TRUE(balance && balance->value);
    EXPECT_NEAR(schemes.front().shortfall, balance->value->si, 1e-6);
    const auto drawn = [](const piping::HeaderScheme& scheme) {
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
    const auto result = designed("wash-house", 8);
    const auto& schemes = result.chosen->schemes;
    ASSERT_EQ(schemes.size(), 4u);
    EXPECT_LT(schemes[1].shortfall, schemes[0].shortfall);
    EXPECT_LT(schemes[2].shortfall, schemes[0].shortfall);
}

TEST(Taps, OneSmallTapIsHeldToWhatLightsAHeater) {
    const auto result = designed("hostel", 4);
    const auto* tap = check(result, "water.one-tap");
    ASSERT_TRUE(tap && tap->value && tap->limit);
    EXPECT_EQ(tap->status == reason::Status::refer, tap->value->si < tap->limit->si);
    const auto* mixing = check(result, "water.mixing");
    ASSERT_TRUE(mixing && mixing->value);
    EXPECT_EQ(mixing->status, reason::Status::refer);
    EXPECT_GT(mixing->value->si, 5 * 6894.757);
    EXPECT_LT(mixing->value->si, 30 * 6894.757);
}

}  // namespace
}  // namespace bw::test
