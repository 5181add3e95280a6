// SPDX-License-Identifier: MIT
// Calcite in water under carbon dioxide against figures of the textbooks and handbooks.
#include <gtest/gtest.h>

#include "matter/neutralise.h"

namespace bw::matter {
namespace {

Pressure atmospheres(double p) { return Pressure::from_value(p * 101325); }

// Textbooks of water chemistry, from memory: pure water open to air of 10^-3.5 atm of carbon dioxide and in balance
// with calcite stands at pH 8.3 and holds 0.5 mmol/L of calcium.
TEST(OutsideNeutralise, CalciteInOpenWater) {
    const auto found = neutralise_by_marble(7, atmospheres(3.16e-4));
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR(found->acidity, 8.3, 0.05);
    EXPECT_NEAR(found->dissolved, 0.050, 0.003);
}

// Handbook solubility of calcium carbonate at 25 degC under one atmosphere of carbon dioxide: 0.9 g/L; from memory. Its
// pH is about 6.0.
TEST(OutsideNeutralise, CalciteUnderPureCarbonDioxide) {
    const auto found = neutralise_by_marble(7, atmospheres(1));
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR(found->dissolved, 0.9, 0.07);
    EXPECT_NEAR(found->acidity, 6.0, 0.1);
}

// Stoichiometry: two of acid take one of marble, 50 g a mole of acid.
TEST(OutsideNeutralise, StrongAcidTakesHalfAMole) {
    const auto found = neutralise_by_marble(3, atmospheres(1.1e-5));
    ASSERT_TRUE(found) << describe(found.error());
    EXPECT_NEAR(found->least, 1e-3 * 50.05, 1e-4);
    EXPECT_GT(found->dissolved, found->least);
    EXPECT_LT(found->dissolved, found->least + 0.02);
}

TEST(OutsideNeutralise, RefusedOutsideItsRange) {
    EXPECT_FALSE(neutralise_by_marble(1.5, atmospheres(0.1)));
    EXPECT_FALSE(neutralise_by_marble(3.5, atmospheres(2)));
    EXPECT_FALSE(neutralise_by_marble(3.5, Pressure{}));
}

}  // namespace
}  // namespace bw::matter
