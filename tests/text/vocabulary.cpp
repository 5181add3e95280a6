// SPDX-License-Identifier: MIT
#include "text/vocabulary.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace bw::text {
namespace {

using testing::HasSubstr;

TEST(Vocabulary, NamesAreTheContractsOwn) {
    EXPECT_EQ(name(Material::steel_40), "steel-40");
    EXPECT_EQ(name(Material::stainless_10s), "stainless-10s");
    EXPECT_EQ(name(Material::copper_l), "copper-l");
    EXPECT_EQ(name(Material::vent_polypropylene), "vent-polypropylene");
    EXPECT_EQ(name(Material::strut), "strut");
    EXPECT_EQ(name(Part::union_joint), "union-joint");
    EXPECT_EQ(name(Part::co_alarm), "co-alarm");
    EXPECT_EQ(name(Part::elbow_45), "elbow-45");
    EXPECT_EQ(name(Part::panel_feed), "panel-feed");
    EXPECT_EQ(name(Part::frame_post), "frame-post");
    EXPECT_EQ(name(Fixture::basin_public), "basin-public");
    EXPECT_EQ(name(Fixture::urinal), "urinal");
    EXPECT_EQ(name(Service::recirculation), "recirculation");
    EXPECT_EQ(name(Building::gymnasium), "gymnasium");
    EXPECT_EQ(name(Gas::propane), "propane");
}

template <class Enum>
void every_name_comes_back() {
    int index = 0;
    for (const auto word : names<Enum>()) {
        const auto value = named<Enum>(word);
        ASSERT_TRUE(value) << word;
        EXPECT_EQ(static_cast<int>(*value), index++) << word;
        EXPECT_EQ(name(*value), word);
    }
}

TEST(Vocabulary, EveryNameComesBack) {
    every_name_comes_back<Service>();
    every_name_comes_back<Part>();
    every_name_comes_back<Material>();
    every_name_comes_back<Gas>();
    every_name_comes_back<Building>();
    every_name_comes_back<Fixture>();
}

TEST(Vocabulary, SuggestsTheNearestWord) {
    EXPECT_THAT(named<Material>("coper-l").error().expected, HasSubstr("'copper-l' perhaps"));
    EXPECT_THAT(named<Fixture>("basin").error().expected, HasSubstr("'basin-private' perhaps"));
    EXPECT_THAT(named<Gas>("propnae").error().expected, HasSubstr("'propane' perhaps"));
    EXPECT_THAT(named<Gas>("butane").error().expected, HasSubstr("one of natural, propane"));
    EXPECT_THAT(named<Material>("unobtainium").error().what, HasSubstr("unknown material 'unobtainium'"));
    EXPECT_FALSE(named<Gas>("Natural"));
    EXPECT_FALSE(named<Gas>(""));
    EXPECT_FALSE(named<Gas>(std::string(1u << 20, 'x')));
}

TEST(Nearest, IsSilentWhereNothingIsNear) {
    constexpr std::string_view choices[] = {"pressure", "hardness"};
    EXPECT_EQ(nearest("presure", choices), "pressure");
    EXPECT_EQ(nearest("zzz", choices), "");
    EXPECT_EQ(nearest("", choices), "");
}

}  // namespace
}  // namespace bw::text
