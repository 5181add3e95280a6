// SPDX-License-Identifier: MIT
// Finding rows.

#include <gtest/gtest.h>

#include "catalogue/catalogue.h"

namespace bw::catalogue {
namespace {

const Catalogue& demo() {
    static const Catalogue catalogue = load().value();
    return catalogue;
}
constexpr Nominal half{4}, three_quarter{6}, two{16}, three{24};

TEST(LookUp, ByKey) {
    ASSERT_NE(demo().item("tee/steel-40/3x3/4"), nullptr);
    EXPECT_EQ(demo().item("tee/steel-40/3x3/4"), demo().item(Part::tee, Material::steel_40, three, three_quarter));
    EXPECT_EQ(demo().item("elbow/copper-l/2")->title, "90 degree elbow, wrought copper, 2 in");
    EXPECT_EQ(demo().pipe("pipe/copper-l/2"), demo().pipe(Material::copper_l, two));
    EXPECT_EQ(demo().item("elbow/copper-l/7"), nullptr);
    EXPECT_EQ(demo().item(""), nullptr);
    for (const auto& item : demo().items) EXPECT_EQ(demo().item(item.key), &item);
    for (const auto& pipe : demo().pipes) EXPECT_EQ(demo().pipe(pipe.key), &pipe);
}

TEST(LookUp, ATeeWithoutBranchIsTheEqualOneAndAReducerNeedsBoth) {
    EXPECT_EQ(demo().item(Part::tee, Material::copper_l, two), demo().item(Part::tee, Material::copper_l, two, two));
    EXPECT_EQ(demo().item(Part::reducer, Material::copper_l, two), nullptr);
    EXPECT_NE(demo().item(Part::reducer, Material::copper_l, two, half), nullptr);
    EXPECT_EQ(demo().item(Part::reducer, Material::copper_l, half, two), nullptr);
    EXPECT_NE(demo().item(Part::service_valve_hot, three_quarter), nullptr);
}

TEST(LookUp, OfManyTheCheapestComesFirst) {
    const auto all = demo().of(Part::flexible_water);
    ASSERT_EQ(all.size(), 3u);
    EXPECT_LE(all[0]->price, all[1]->price);
    EXPECT_LE(all[1]->price, all[2]->price);
    EXPECT_EQ(demo().item(Part::flexible_water, three_quarter), all.front());
    EXPECT_EQ(demo().cheapest(Part::flexible_water), all.front());
}

TEST(LookUp, SizesRise) {
    const auto sizes = demo().sizes(Material::steel_40);
    ASSERT_EQ(sizes.size(), 10u);
    EXPECT_EQ(sizes.front()->size, half);
    for (std::size_t i = 1; i < sizes.size(); ++i) EXPECT_LT(sizes[i - 1]->size, sizes[i]->size);
}

TEST(LookUp, ACopyKeepsItsOwnRows) {
    const Catalogue copy = demo();
    const Item* found = copy.item(Part::tee, Material::copper_l, two);
    ASSERT_NE(found, nullptr);
    EXPECT_GE(found, copy.items.data());
    EXPECT_LT(found, copy.items.data() + copy.items.size());
}

TEST(LookUp, IndexRefusesTwoRowsOfOneKey) {
    Catalogue twice;
    twice.items.resize(2);
    twice.items[0].key = twice.items[1].key = "a";
    const auto indexed = twice.index();
    ASSERT_FALSE(indexed);
    EXPECT_NE(indexed.error().what.find("'a'"), std::string::npos);
}

TEST(LookUp, AnEmptyCatalogueFindsNothing) {
    const Catalogue none;
    EXPECT_EQ(none.item("a"), nullptr);
    EXPECT_EQ(none.item(Part::tee, Material::copper_l, two), nullptr);
    EXPECT_EQ(none.pipe(Material::copper_l, two), nullptr);
    EXPECT_TRUE(none.of(Part::tee).empty());
    EXPECT_EQ(none.cheapest(Part::tee), nullptr);
    EXPECT_TRUE(none.sizes(Material::copper_l).empty());
}

}  // namespace
}  // namespace bw::catalogue
