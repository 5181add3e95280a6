// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "code/gas_tables.h"

namespace bw::code {
namespace {

using testing::HasSubstr;

GasFeed natural(Pressure inlet) {
    GasFeed feed;
    feed.inlet = inlet;
    return feed;
}

const Length two_inch = 2.067 * inch;
const std::vector<GasSize> steel{{Nominal{4}, 0.622 * inch},  {Nominal{6}, 0.824 * inch},  {Nominal{8}, 1.049 * inch},
                                 {Nominal{10}, 1.380 * inch}, {Nominal{12}, 1.610 * inch}, {Nominal{16}, 2.067 * inch},
                                 {Nominal{20}, 2.469 * inch}, {Nominal{24}, 3.068 * inch}, {Nominal{32}, 4.026 * inch}};

TEST(GasPipe, CapacityDiameterAndDropAreOneEquation) {
    for (double inlet : {7 / 27.68, 1.0, 1.5, 2.0, 5.0}) {
        auto feed = natural(inlet * psi);
        Pressure drop = 0.2 * feed.inlet;
        auto capacity = gas_capacity(feed, drop, two_inch, 130.0 * foot);
        ASSERT_TRUE(capacity);
        auto diameter = gas_diameter(feed, drop, capacity->value, 130.0 * foot);
        ASSERT_TRUE(diameter);
        EXPECT_NEAR(diameter->value / two_inch, 1, 1e-12) << inlet;
        auto back = gas_drop(feed, two_inch, 130.0 * foot, capacity->value);
        ASSERT_TRUE(back);
        EXPECT_NEAR(back->value / drop, 1, 1e-9) << inlet;
    }
}

TEST(GasPipe, TheHighPressureEquationBeginsAtOneAndAHalfPsi) {
    EXPECT_EQ(gas_equation(1.4999 * psi), GasEquation::low_pressure);
    EXPECT_EQ(gas_equation(1.5 * psi), GasEquation::high_pressure);
    auto low = gas_capacity(natural(1.0 * psi), 0.1 * psi, two_inch, 100.0 * foot);
    auto high = gas_capacity(natural(2.0 * psi), 0.1 * psi, two_inch, 100.0 * foot);
    EXPECT_EQ(low->sources.front().clause, "402.4.1, equation 4-1");
    EXPECT_EQ(high->sources.front().clause, "402.4.2, equation 4-2");
}

TEST(GasPipe, HeavierGasFlowsLessByTheRootOfTheRatio) {
    auto feed = natural(7.0 * inch_water);
    auto light = gas_capacity(feed, 0.5 * inch_water, two_inch, 100.0 * foot);
    feed.specific_gravity = 0.65;
    auto heavy = gas_capacity(feed, 0.5 * inch_water, two_inch, 100.0 * foot);
    ASSERT_TRUE(light && heavy);
    EXPECT_NEAR(heavy->value / light->value, std::sqrt(0.60 / 0.65), 1e-12);
    EXPECT_GT(heavy->derivation.size(), light->derivation.size());
    feed.specific_gravity = 3;
    EXPECT_FALSE(gas_capacity(feed, 0.5 * inch_water, two_inch, 100.0 * foot));
}

TEST(GasPipe, RefusesWhatHasNoAnswer) {
    auto feed = natural(7.0 * inch_water);
    EXPECT_FALSE(gas_capacity(feed, 8.0 * inch_water, two_inch, 100.0 * foot)) << "more drop than pressure";
    EXPECT_FALSE(gas_capacity(feed, 0.5 * inch_water, two_inch, 0.0 * foot));
    EXPECT_FALSE(gas_capacity(feed, Pressure(), two_inch, 100.0 * foot));
    EXPECT_FALSE(gas_capacity(feed, 0.5 * inch_water, Length(), 100.0 * foot));
    auto starved = gas_drop(feed, 0.622 * inch, 500.0 * foot, 2000.0 * cubic_foot_per_hour);
    ASSERT_FALSE(starved);
    EXPECT_THAT(starved.error().what, HasSubstr("uses up the inlet pressure"));
    auto starved_high = gas_drop(natural(2.0 * psi), 0.622 * inch, 5000.0 * foot, 20000.0 * cubic_foot_per_hour);
    EXPECT_FALSE(starved_high);
}

TEST(GasPipe, DropGrowsWithFlowAndLengthAndIsNothingWithoutFlow) {
    auto feed = natural(7.0 * inch_water);
    EXPECT_EQ(*gas_drop_by(GasEquation::low_pressure, feed, two_inch, 10.0 * foot, VolumeFlow()), Pressure());
    auto some = *gas_drop_by(GasEquation::low_pressure, feed, two_inch, 10.0 * foot, 500.0 * cubic_foot_per_hour);
    auto more = *gas_drop_by(GasEquation::low_pressure, feed, two_inch, 10.0 * foot, 600.0 * cubic_foot_per_hour);
    auto longer = *gas_drop_by(GasEquation::low_pressure, feed, two_inch, 20.0 * foot, 500.0 * cubic_foot_per_hour);
    EXPECT_LT(some, more);
    EXPECT_NEAR(longer / some, 2, 1e-12);
}

TEST(GasMaterial, PlasticWaterPipeAndThinCopperCarryNoGas) {
    for (auto material : {Material::cpvc, Material::copper_m, Material::vent_pvc, Material::vent_cpvc,
                          Material::pvc_drain, Material::vent_polypropylene, Material::cable, Material::strut}) {
        auto refused = gas_material(material, true);
        ASSERT_FALSE(refused) << text::name(material);
        EXPECT_THAT(refused.error().what, HasSubstr("may not carry fuel gas"));
    }
    for (auto material : {Material::copper_k, Material::copper_l}) {
        EXPECT_TRUE(gas_material(material, true));
        auto refused = gas_material(material, false);
        ASSERT_FALSE(refused);
        EXPECT_THAT(refused.error().what, HasSubstr("0.3 grain"));
    }
    for (auto material : {Material::steel_40, Material::steel_80, Material::stainless_10s, Material::csst})
        EXPECT_TRUE(gas_material(material, false)) << text::name(material);
}

TEST(GasTables, TheEmbeddedFileIsReadableAndEveryCellStandsOnAPrintedRow) {
    ASSERT_GE(gas_tables().size(), 22U);
    std::size_t cells = 0;
    for (const auto& table : gas_tables()) {
        for (const auto& cell : table.cells) {
            bool on_row = false;
            for (double row : table.lengths) on_row = on_row || std::abs(cell.length / foot - row) < 1e-6;
            EXPECT_TRUE(on_row) << table.number << " " << print(cell.size) << " at " << cell.length / foot;
        }
        cells += table.cells.size();
    }
    EXPECT_GE(cells, 400U);
}

TEST(GasTables, LongerOfTwoCellsOfASizeCarriesLess) {
    for (const auto& table : gas_tables())
        for (const auto& a : table.cells)
            for (const auto& b : table.cells)
                if (a.size == b.size && a.length < b.length) {
                    EXPECT_GT(a.printed, b.printed) << table.number << " " << print(a.size);
                }
}

TEST(GasTables, TheNextLongerRowIsTaken) {
    auto at = [](double feet) {
        return pipe_capacity(natural(7.0 * inch_water), 0.5 * inch_water, Material::steel_40, Nominal{12}, 1.610 * inch,
                             feet * foot);
    };
    auto fifty = at(50), forty_three = at(43);
    ASSERT_TRUE(fifty && forty_three);
    ASSERT_TRUE(fifty->value.table && forty_three->value.table);
    EXPECT_NEAR(*forty_three->value.table->flow / cubic_foot_per_hour, 873, 1e-6);  // IFGC 2018 Table 402.4(2), memory
    EXPECT_EQ(forty_three->value.table->row, 50);
    EXPECT_GT(*forty_three->value.equation, *fifty->value.equation);
    EXPECT_EQ(forty_three->value.governing, fifty->value.governing);
}

TEST(GasTables, ATableThatDepartsFromTheEquationLowersWhatStandsInForAnUnheldCell) {
    auto feed = natural(2.0 * psi);
    auto found = pipe_capacity(feed, 1.0 * psi, Material::steel_40, Nominal{16}, two_inch, 1000.0 * foot);
    ASSERT_TRUE(found);
    EXPECT_EQ(found->value.table_number, "402.4(5)");
    EXPECT_FALSE(found->value.table);
    EXPECT_NEAR(found->value.governing / *found->value.equation, 0.88, 1e-9);
    EXPECT_THAT(found->value.table_note, HasSubstr("12.0 % below to 7.0 % above"));
    EXPECT_THAT(found->value.table_note, HasSubstr("not held"));
}

TEST(GasTables, NoTableForOtherPipeOrPressureLeavesTheEquationAlone) {
    auto heavy = pipe_capacity(natural(7.0 * inch_water), 0.5 * inch_water, Material::steel_80, Nominal{16},
                               1.939 * inch, 50.0 * foot);
    ASSERT_TRUE(heavy);
    EXPECT_TRUE(heavy->value.table_number.empty());
    EXPECT_EQ(heavy->value.governing, *heavy->value.equation);
    EXPECT_EQ(gas_table(natural(2.5 * psi), 1.0 * psi, Material::steel_40), nullptr);
    EXPECT_EQ(gas_table(natural(2.0 * psi), 0.5 * inch_water, Material::steel_40), nullptr)
        << "the table is below 2 psi";
}

TEST(GasTables, CorrugatedTubingHasNoEquation) {
    auto feed = natural(7.0 * inch_water);
    auto at = [&](double feet) {
        return pipe_capacity(feed, 0.5 * inch_water, Material::csst, *parse_nominal("19"), 1.0 * inch, feet * foot);
    };
    auto held = at(15), between = at(17), beyond = at(80);
    ASSERT_TRUE(held && between);
    EXPECT_FALSE(held->value.equation);
    EXPECT_NEAR(*held->value.table->flow / cubic_foot_per_hour, 77, 1e-6);  // IFGC Table 402.4(15), memory
    EXPECT_FALSE(between->value.table) << "17 ft is no row we hold";
    EXPECT_NEAR(between->value.governing / cubic_foot_per_hour, 67, 1e-6) << "the 20 ft cell is a safe lower value";
    EXPECT_FALSE(beyond);
    EXPECT_FALSE(pipe_capacity(feed, 0.3 * inch_water, Material::csst, *parse_nominal("19"), 1.0 * inch, 15.0 * foot));
}

TEST(GasTables, CorrugatedTubingByTradeSizeIsTheSmallerSoldUnderIt) {
    auto feed = natural(7.0 * inch_water);
    auto at = [&](const char* size) {
        return pipe_capacity(feed, 0.5 * inch_water, Material::csst, *parse_nominal(size), 1.0 * inch, 20.0 * foot);
    };
    auto trade = at("1/2"), hydraulic = at("18"), larger = at("19");
    ASSERT_TRUE(trade && hydraulic && larger);
    EXPECT_EQ(trade->value.governing, hydraulic->value.governing);
    EXPECT_LT(trade->value.governing, larger->value.governing);
    EXPECT_THAT(trade->derivation.front().says, HasSubstr("EHD 18"));
}

TEST(GasTables, PropaneIsPrintedInHeat) {
    GasFeed feed{Gas::propane, 1.50, 2.0 * psi};
    auto found = pipe_capacity(feed, 1.0 * psi, Material::steel_40, Nominal{12}, 1.610 * inch, 30.0 * foot);
    ASSERT_TRUE(found);
    ASSERT_TRUE(found->value.table && found->value.table->heat);
    EXPECT_FALSE(found->value.table->flow);
    double heat = *found->value.table->heat / btu_per_hour;
    EXPECT_NEAR(found->value.governing / cubic_foot_per_hour, heat / 2516, 1e-6);
}

TEST(GasSize, SmallestThatCarriesTheLoadAndItsNeighbourDoesNot) {
    auto feed = natural(7.0 * inch_water);
    for (double load = 50; load < 4500; load *= 1.3) {
        auto choice =
            gas_size(feed, 0.5 * inch_water, Material::steel_40, load * cubic_foot_per_hour, 120.0 * foot, steel);
        ASSERT_TRUE(choice) << load;
        EXPECT_GE(choice->value.capacity.governing / cubic_foot_per_hour, load);
        for (const auto& smaller : steel) {
            if (!(smaller.inside < choice->value.size.inside)) continue;
            auto capacity = pipe_capacity(feed, 0.5 * inch_water, Material::steel_40, smaller.nominal, smaller.inside,
                                          120.0 * foot);
            EXPECT_LT(capacity->value.governing / cubic_foot_per_hour, load);
        }
    }
}

TEST(GasSize, SaysWhatTheLargestCarriesWhenNoneIsEnough) {
    auto none = gas_size(natural(7.0 * inch_water), 0.5 * inch_water, Material::steel_40, 90000.0 * cubic_foot_per_hour,
                         120.0 * foot, steel);
    ASSERT_FALSE(none);
    EXPECT_THAT(none.error().what, HasSubstr("the largest carries"));
    auto refused = gas_size(natural(7.0 * inch_water), 0.5 * inch_water, Material::copper_l, 90.0 * cubic_foot_per_hour,
                            120.0 * foot, steel, false);
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().what, HasSubstr("hydrogen sulphide"));
}

TEST(GasTables, ABrokenFileIsRefusedAtItsPlace) {
    auto broken = read_gas_tables(
        "format = 1\ndocument = \"IFGC\"\nedition = \"2018\"\ndescription = \"x\"\n[[table]]\n"
        "number = \"402.4(2)\"\ngas = \"natural\"\nspecific-gravity = 0.6\npipe = \"metallic-40\"\n"
        "inlet = \"2 psi\"\ninlet-is-bound = true\ndrop = \"0.5 inH2O\"\nfollows-equation = true\n"
        "below = 0\nabove = 0\nrows-complete = true\nrows = [10, 5]\n",
        "t.toml");
    ASSERT_FALSE(broken);
    EXPECT_EQ(broken.error().place.line, 17);
    EXPECT_THAT(broken.error().what, HasSubstr("rows do not rise"));
}

}  // namespace
}  // namespace bw::code
