// SPDX-License-Identifier: MIT
// A user's own maker's heater and parts, as the documentation shows them.

#include "files.h"

namespace bw::catalogue {
namespace {

TEST(OwnFile, TheDocumentedHeaterIsReadWhole) {
    EXPECT_EQ(refusal(documented(0)), "");
    const auto loaded = load({file_of(documented(0))});
    ASSERT_TRUE(loaded) << describe(loaded.error());
    EXPECT_EQ(loaded->heaters.size(), 4u);
    const Heater* own = loaded->heater("own-150");
    ASSERT_NE(own, nullptr);
    EXPECT_NEAR(own->input_greatest / kbtu_per_hour, 150, 1e-9);
    EXPECT_NEAR(own->efficiency[2].y, 0.90, 1e-12);
    EXPECT_NEAR(own->height / inch, 27.5, 1e-9);
    EXPECT_NEAR(own->excess_air, 0.27, 1e-12);
    EXPECT_NEAR(own->port("condensate")->at.x / 0.0254, 13.5, 1e-9);
    EXPECT_EQ(own->port("condensate")->size, Nominal{4});
    EXPECT_EQ(own->gas.size(), 2u);
    EXPECT_NEAR(own->gas[1].greatest / inch_water, 13, 1e-9);
    EXPECT_EQ(own->common_vents[1].most, 7);
    EXPECT_EQ(own->vent_materials.size(), 2u);
    EXPECT_EQ(own->sources.front().standing, reason::Standing::maker);
    EXPECT_EQ(own->sources.front().document, "Installation manual");
    EXPECT_EQ(own->greatest_group, 12);
    EXPECT_NEAR(own->derate_per_1000ft.value(), 0.04, 1e-12);
    EXPECT_NEAR(own->labour / minute, 140, 1e-9);
}

TEST(OwnFile, ARowOfTheSameKeyReplacesAndOthersAdd) {
    const auto plain = load();
    const auto over = load({file_of(documented(1))});
    ASSERT_TRUE(plain && over);
    EXPECT_EQ(over->items.size(), plain->items.size());
    EXPECT_EQ(over->item("ball-valve/1")->title, "Ball valve, full port, press ends, 1 in");
    EXPECT_NEAR(over->item("ball-valve/1")->price, 27, 1e-12);
    EXPECT_EQ(over->item(Part::ball_valve, Material::copper_l, Nominal{8}), over->item("ball-valve/1"));
    EXPECT_EQ(over->item("ball-valve/2")->price, plain->item("ball-valve/2")->price);
    const auto added =
        load({file_of(with(documented(1), "part = \"ball-valve\"", "part = \"ball-valve\"\nvariant = \"press\""))});
    ASSERT_TRUE(added);
    EXPECT_EQ(added->items.size(), plain->items.size() + 2);
}

TEST(OwnFile, LaterFilesWinAndAFolderIsReadInNameOrder) {
    const auto first = file_of(documented(1), "a.toml");
    file_of(with(documented(0), "price = 1900", "price = 1700"), "b.toml");
    const auto folder = std::filesystem::path(first).parent_path().string();
    const auto whole = load({folder});
    ASSERT_TRUE(whole) << describe(whole.error());
    EXPECT_NEAR(whole->heater("own-150")->price, 1700, 1e-12);
    EXPECT_NEAR(whole->item("ball-valve/1")->price, 27, 1e-12);
    const auto later = file_of(documented(0), "c.toml");
    EXPECT_NEAR(load({folder + "/b.toml", later})->heater("own-150")->price, 1900, 1e-12);
    EXPECT_NEAR(load({later, folder + "/b.toml"})->heater("own-150")->price, 1700, 1e-12);
    const auto clash = load({folder});
    ASSERT_FALSE(clash);
    EXPECT_NE(describe(clash.error()).find("'own-150' stands twice"), std::string::npos);
    EXPECT_NE(clash.error().expected.find("b.toml:"), std::string::npos);
    std::filesystem::remove_all(folder);
}

TEST(OwnFile, AnUnreadablePathIsNamed) {
    const auto missing = load({"/nowhere/at-all.toml"});
    ASSERT_FALSE(missing);
    EXPECT_NE(describe(missing.error()).find("/nowhere/at-all.toml"), std::string::npos);
    const auto folder = std::filesystem::temp_directory_path() / "bankwright-catalogue-empty";
    std::filesystem::create_directories(folder);
    const auto empty = load({folder.string()});
    ASSERT_FALSE(empty);
    EXPECT_NE(describe(empty.error()).find("no catalogue file"), std::string::npos);
}

}  // namespace
}  // namespace bw::catalogue
