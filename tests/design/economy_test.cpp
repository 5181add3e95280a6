// SPDX-License-Identifier: MIT
// What pipe in the cheapest sizes costs, beside the handbook's and beside the parts list.
#include "../support/examples.h"

#include <gtest/gtest.h>

namespace bw::test {
namespace {

class Economy : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Economy, ::testing::Values("hostel", "wash-house", "sports-hall"));

TEST_P(Economy, IsProvedAndPassesEveryCheck) {
    const auto result = designed(GetParam());
    const auto& economy = result.chosen->built.economy;
    // at the lengths laid, other sizes would cost the hostel less; laid, they do not
    EXPECT_EQ(economy.proved, std::string_view(GetParam()) != "hostel");
    EXPECT_GE(economy.tried, 1);
    EXPECT_GT(economy.cost, 0);
    for (const auto& line : economy.lines) {
        EXPECT_GT(line.cost, 0) << line.what;
        // the code's table holds gas up; water headers may be thinner than the handbook's
        if (line.service == text::Service::gas) {
            EXPECT_GE(line.chosen, line.handbook) << line.what;
        }
    }
    EXPECT_EQ(result.exit_status(), 0);
}

TEST_P(Economy, CostsWhatThePartsListSays) {
    const auto survey = example(GetParam());
    const auto result = designed(survey);
    const auto& economy = result.chosen->built.economy;
    const auto& plant = result.chosen->built.plant;
    double listed = 0;
    for (const auto& line : result.chosen->estimate.lines) {
        const double each =
            (line.price * (1 + *survey.preferences.markup) + line.minutes / 60 * *survey.preferences.labour_rate) /
            (line.length > 0 ? line.length : line.count);
        for (const int i : line.pieces) {
            const auto& piece = plant.pieces[static_cast<std::size_t>(i)];
            using text::Service;
            const bool gas = piece.service == Service::gas;
            if (!gas && piece.service != Service::cold && piece.service != Service::hot) continue;
            if (piece.part == text::Part::heater || piece.part == text::Part::regulator) continue;
            // water branches have one size; what hangs on the mains has its own
            if ((!gas && piece.heater > 0) || piece.id.find("expansion") != std::string::npos) continue;
            listed += each * (line.length > 0 ? piece.cut : 1);
        }
    }
    EXPECT_NEAR(economy.cost / listed, 1, 0.04) << economy.cost << " reckoned, " << listed << " by the parts list";
}

TEST(GasByEngineering, CostsLessAndRefersToTheEngineer) {
    auto survey = example("hostel");
    const auto by_table = designed(survey);
    survey.preferences.engineered_gas = {true, false};
    const auto by_pressure = designed(survey);
    const auto gas = [](const design::Result& result) {
        double cost = 0;
        for (const auto& line : result.chosen->built.economy.lines)
            if (line.service == text::Service::gas) cost += line.cost;
        return cost;
    };
    EXPECT_LT(gas(by_pressure), 0.9 * gas(by_table));
    int referred = 0;
    for (const auto& check : by_pressure.checks) {
        if (check.id.starts_with("gas.size.")) referred += check.status == reason::Status::refer;
        if (check.id.starts_with("gas.pressure.")) {
            EXPECT_EQ(check.status, reason::Status::pass) << check.id << ": solved pressures are not cut to the bone";
        }
        EXPECT_FALSE(check.id.starts_with("gas.") && check.status == reason::Status::fail) << check.id;
    }
    EXPECT_GT(referred, 0);
}

}  // namespace
}  // namespace bw::test
