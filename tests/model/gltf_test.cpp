// SPDX-License-Identifier: MIT
// The glTF file, judged by the validator of the format's makers and measured triangle by triangle.
#include <set>

#include "kit.h"

namespace bw::test {
namespace {

class Gltf : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Gltf, ::testing::ValuesIn(example_names));

TEST_P(Gltf, IsValidAndHoldsEveryPieceOnceWhereItStands) {
    const auto& plant = plant_of(GetParam());
    const auto read = read_by("gltf", model::gltf(designed(GetParam())).value(), "plant.glb");
    EXPECT_EQ(read["issues"]["numErrors"], 0) << read["issues"]["messages"];
    EXPECT_EQ(read["issues"]["numWarnings"], 0) << read["issues"]["messages"];
    EXPECT_EQ(read["info"]["version"], "2.0");
    std::set<std::string> seen;
    for (const auto& node : read["pieces"]) {
        const auto id = node["name"].get<std::string>();
        ASSERT_TRUE(seen.insert(id).second) << id;
        const int at = plant.find(id);
        ASSERT_GE(at, 0) << id;
        const auto& piece = plant.pieces[static_cast<std::size_t>(at)];
        expect_same_bounds(node, piece, 1.5e-3);  // the circle's corners stand on it, its sides a little within
        EXPECT_EQ(node["inward"], 0) << id << " is seen from inside";
        EXPECT_NEAR(node["volume"].get<double>(), volume_of(piece), 0.02 * volume_of(piece)) << id;
        EXPECT_EQ(node["extras"]["id"], id);
        EXPECT_EQ(node["extras"]["part"], text::name(piece.part));
        EXPECT_EQ(node["extras"]["service"], text::name(piece.service));
        EXPECT_NEAR(node["extras"].value("mass", 0.0), piece.mass_dry, 1e-6) << id;
        const auto look = piece.part == text::Part::heater ? "heater" : text::name(piece.service);
        EXPECT_EQ(node["material"], look);
        EXPECT_EQ(node["above"], (Json{look, "plant"}));
    }
    for (const auto* piece : own_pieces(plant))
        EXPECT_EQ(seen.contains(piece->id), !piece->solids.empty()) << piece->id;
}

TEST_P(Gltf, IsTheSameTwice) {
    EXPECT_TRUE(model::gltf(designed(GetParam())).value() == model::gltf(designed(GetParam())).value());
}

TEST(GltfText, TitlesOfAnyKindStayValid) {
    auto result = designed("hostel");
    result.survey.job = "Bad \"quotes\" \\ and\ttabs, é, 湯";
    const auto read = read_by("gltf", model::gltf(result).value(), "odd.glb");
    EXPECT_EQ(read["issues"]["numErrors"], 0) << read["issues"]["messages"];
}

TEST(NothingChosen, IsRefusedByName) {
    design::Result none;
    EXPECT_FALSE(model::gltf(none));
    EXPECT_FALSE(model::ifc(none, demo_catalogue()));
    const auto step = model::step(none);
    ASSERT_FALSE(step);
    EXPECT_EQ(step.error().what, "nothing was chosen");
}

}  // namespace
}  // namespace bw::test
