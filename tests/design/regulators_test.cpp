// SPDX-License-Identifier: MIT
// Gas delivered above what heaters take, and no regulator that passes what all of them burn.
#include "../support/examples.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

namespace bw::test {
namespace {

using text::Part;

/// The hostel, of several banks, on 2 psi; of natural gas no regulator passes more than this, ft3/h.
bw::Result<design::Result> hostel_with_regulators_up_to(double most) {
    auto survey = example("hostel");
    survey.gas.delivery_pressure.value = 2.0 * units::psi;
    auto catalogue = demo_catalogue();
    const double cubic_feet_an_hour = units::cubic_foot_per_hour.value();
    std::erase_if(catalogue.items, [&](const catalogue::Item& item) {
        return item.part == Part::regulator && item.number("capacity").value_or(0) > most * cubic_feet_an_hour;
    });
    if (auto fine = catalogue.index(); !fine) return tl::unexpected(fine.error());
    return design::run(survey, catalogue);
}

int regulators(const design::Result& result) {
    return static_cast<int>(
        std::ranges::count(result.chosen->built.plant.pieces, Part::regulator, &plant::Piece::part));
}

TEST(Regulators, EachBankHasItsOwnWhereNonePassesAll) {
    const auto with_all = hostel_with_regulators_up_to(5000);
    ASSERT_TRUE(with_all) << units::describe(with_all.error());
    ASSERT_TRUE(with_all->chosen);
    EXPECT_EQ(regulators(*with_all), 1);

    const auto result = hostel_with_regulators_up_to(1300);
    ASSERT_TRUE(result) << units::describe(result.error());
    ASSERT_TRUE(result->chosen);
    const auto& plant = result->chosen->built.plant;
    const auto banks = result->chosen->layout.banks.size();
    ASSERT_GE(banks, 2u);
    EXPECT_EQ(regulators(*result), static_cast<int>(banks));
    int judged = 0;
    for (const auto& check : result->checks) {
        EXPECT_NE(check.status, reason::Status::fail) << check.id << ": " << check.says;
        judged += check.id.starts_with("gas.regulator.capacity.");
    }
    EXPECT_EQ(judged, static_cast<int>(banks));
    for (std::size_t bank = 1; bank <= banks; ++bank)
        for (const auto* what : {"valve", "test-before", "regulator", "test"})
            EXPECT_GE(plant.find(fmt::format("main.gas.bank-{}-{}", bank, what)), 0) << bank << what;
}

TEST(Regulators, WhereNonePassesABanksShareThatIsSaid) {
    const auto result = hostel_with_regulators_up_to(500);
    ASSERT_TRUE(result) << units::describe(result.error());
    EXPECT_FALSE(result->chosen);
    EXPECT_NE(result->checks.front().says.find("line regulator"), std::string::npos) << result->checks.front().says;
}

}  // namespace
}  // namespace bw::test
