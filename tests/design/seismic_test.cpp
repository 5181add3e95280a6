// SPDX-License-Identifier: MIT
// Earthquake checks with and without the site's figures.
#include "../support/examples.h"

#include <gtest/gtest.h>

namespace bw::test {
namespace {

design::Result shaken(const char* name, std::optional<double> sds, const char* place) {
    auto survey = example(name);
    survey.preferences.place = place;
    survey.seismic.sds = sds;
    survey.seismic.height_ratio = 0;
    return designed(survey);
}

TEST(Seismic, NothingIsComputedWithoutTheSitesFigures) {
    const auto result = shaken("sports-hall", std::nullopt, "rack-one-sided-1-at-18-65.75");
    const auto* whole = check_of(result, "structure.seismic");
    ASSERT_TRUE(whole);
    EXPECT_EQ(whole->status, reason::Status::refer);
    EXPECT_FALSE(whole->value);
    EXPECT_FALSE(check_of(result, "structure.seismic.bank-1"));
}

TEST(Seismic, ARacksAnchorsArePulledByStatics) {
    const auto result = shaken("sports-hall", 1.0, "rack-one-sided-1-at-18-65.75");
    const auto* bank = check_of(result, "structure.seismic.bank-1");
    ASSERT_TRUE(bank && bank->value);
    EXPECT_EQ(bank->status, reason::Status::refer) << "an engineer chooses anchors";
    double mass = 0, moment = 0, low = 1e9, high = -1e9;
    int anchors = 0;
    for (const auto& piece : result.chosen->built.plant.pieces) {
        if (piece.bank != 1) continue;
        const double here = piece.mass_dry + 1000 * piece.water;
        const auto box = piece.solids.empty() ? shape::Box{piece.ports.front().at, piece.ports.front().at}
                                              : shape::bounds(piece.solids);
        mass += here;
        moment += here * (box.min.z + box.max.z) / 2;
        anchors += piece.part == text::Part::anchor;
        if (piece.part != text::Part::foot) continue;
        // this rack stands along x
        low = std::min(low, (box.min.y + box.max.y) / 2);
        high = std::max(high, (box.min.y + box.max.y) / 2);
    }
    // 0.4 ap SDS Wp / (Rp/Ip) = 0.16 Wp at grade, but 0.3 Wp at least; 0.2 Wp lifts; 0.9 Wp holds
    const double weight = 9.80665 * mass, base = high - low;
    const double pull = (0.3 * weight * moment / mass - (0.9 - 0.2) * weight * base / 2) / (base * (anchors / 2));
    ASSERT_GT(pull, 0);
    EXPECT_NEAR(bank->value->si, pull, 0.01 * pull);
}

TEST(Seismic, AStrongerShakeOnAWallPullsHarder) {
    const auto weak = shaken("wash-house", 0.3, "wall-1"), strong = shaken("wash-house", 0.9, "wall-1");
    const auto *one = check_of(weak, "structure.seismic.bank-1"), *other = check_of(strong, "structure.seismic.bank-1");
    ASSERT_TRUE(one && one->value && other && other->value);
    EXPECT_NEAR(other->value->si / one->value->si, 3, 1e-6);
}

}  // namespace
}  // namespace bw::test
