// SPDX-License-Identifier: MIT
// The DXF file as an independent parser reads it, against the pieces and the survey.
#include <cmath>
#include <map>
#include <set>

#include "../support/readers.h"
#include "kit.h"

namespace bw::test {
namespace {

Json read(const std::string& example, units::System system) {
    return read_by("dxf", draw::dxf(designed(example), demo_catalogue(), system).value(), "sheets.dxf");
}

class Dxf : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Dxf, ::testing::ValuesIn(example_names));

TEST_P(Dxf, HasALayerForEveryServiceAndEveryBlockItInserts) {
    const auto dxf = read(GetParam(), units::System::us);
    EXPECT_EQ(dxf["version"], "AC1009");
    std::set<std::string> layers, blocks;
    for (const auto& layer : dxf["layers"]) layers.insert(layer);
    for (const auto* name : {"GAS", "COLD", "HOT", "EXHAUST", "CONDENSATE", "POWER", "LINK", "STRUCTURE", "HEATER",
                             "ROOM", "DIMENSION", "TEXT", "HIDDEN"})
        EXPECT_TRUE(layers.contains(name)) << name;
    for (const auto& block : dxf["blocks"]) {
        EXPECT_TRUE(blocks.insert(block["name"]).second) << block["name"];
        EXPECT_LE(block["name"].get<std::string>().size(), 31u);
        EXPECT_FALSE(block["entities"].empty()) << block["name"];
    }
    std::map<std::string, int> used;
    for (const auto& entity : dxf["entities"]) {
        EXPECT_TRUE(layers.contains(entity["layer"].get<std::string>())) << entity;
        if (entity["type"] == "INSERT") ++used[entity["name"]];
    }
    for (const auto& [name, count] : used) EXPECT_TRUE(blocks.contains(name)) << name;
    EXPECT_EQ(used.size(), blocks.size()) << "a block that nothing inserts";
    EXPECT_LT(blocks.size() * 2, [&] {
        std::size_t n = 0;
        for (const auto& u : used) n += static_cast<std::size_t>(u.second);
        return n;
    }()) << "what repeats shares a block";
}

/// Plan comes first: every heater's block stands where its box does, to a ten-thousandth of an inch or a hundredth of
/// a millimetre, from the plan's lower left corner.
TEST_P(Dxf, HeatersStandInPlanWhereTheirBoxesAre) {
    for (const auto system : {units::System::us, units::System::si}) {
        const double unit = system == units::System::us ? 1 / 0.0254 : 1000;
        const auto dxf = read(GetParam(), system);
        std::vector<std::pair<double, double>> found;
        for (const auto& entity : dxf["entities"])
            if (entity["type"] == "INSERT" && entity["layer"] == "HEATER")
                found.emplace_back(entity["position"]["x"], entity["position"]["y"]);
        std::vector<const plant::Piece*> heaters;
        for (const auto& piece : plant_of(GetParam()).pieces)
            if (piece.part == text::Part::heater) heaters.push_back(&piece);
        ASSERT_GE(found.size(), 2 * heaters.size()) << "in plan and from the front";
        const auto origin = shape::bounds(heaters.front()->solids.front()).min;
        for (std::size_t i = 0; i < heaters.size(); ++i) {
            auto low = shape::bounds(heaters[i]->solids.front()).min;
            EXPECT_NEAR(found[i].first - found[0].first, (low.x - origin.x) * unit, 1e-2) << heaters[i]->id;
            EXPECT_NEAR(found[i].second - found[0].second, (low.y - origin.y) * unit, 1e-2) << heaters[i]->id;
        }
    }
}

TEST_P(Dxf, WallsAreTheSurveysAndDimensionsSayTheirLength) {
    const auto dxf = read(GetParam(), units::System::us);
    const auto& plan = designed(GetParam()).survey.room.plan;
    const auto& walls = dxf["entities"][0];
    ASSERT_EQ(walls["type"], "POLYLINE");
    ASSERT_EQ(walls["vertices"].size(), plan.size());
    for (std::size_t i = 0; i < plan.size(); ++i) {
        EXPECT_NEAR(walls["vertices"][i]["x"].get<double>() - walls["vertices"][0]["x"].get<double>(),
                    (plan[i].x - plan[0].x) / 0.0254, 1e-5);
        EXPECT_NEAR(walls["vertices"][i]["y"].get<double>() - walls["vertices"][0]["y"].get<double>(),
                    (plan[i].y - plan[0].y) / 0.0254, 1e-5);
    }
    int told = 0;
    const auto& all = dxf["entities"];
    for (std::size_t i = 1; i < all.size(); ++i) {  // a dimension's text follows its line
        if (all[i]["layer"] != "DIMENSION" || all[i]["type"] != "TEXT") continue;
        const auto& a = all[i - 1]["vertices"][0];
        const auto& b = all[i - 1]["vertices"][1];
        const double length =
            std::hypot(a["x"].get<double>() - b["x"].get<double>(), a["y"].get<double>() - b["y"].get<double>());
        EXPECT_EQ(all[i]["text"], units::print_feet_inches(length * 0.0254 * units::metre)) << all[i];
        ++told;
    }
    EXPECT_GT(told, 15);
}

TEST_P(Dxf, HiddenLinesLieOnALayerOfTheirOwn) {
    const auto dxf = read(GetParam(), units::System::us);
    int hidden = 0, seen = 0;
    const auto count = [&](const Json& entities) {
        for (const auto& entity : entities)
            if (entity["type"] != "INSERT" && entity["type"] != "TEXT") (entity["layer"] == "HIDDEN" ? hidden : seen)++;
    };
    count(dxf["entities"]);
    for (const auto& block : dxf["blocks"]) count(block["entities"]);
    EXPECT_GT(hidden, 300);
    EXPECT_GT(seen, hidden);
}

/// A block a door: its leaf, and a quarter of a circle as wide as the door, from shut to open.
TEST_P(Dxf, DoorsAreBlocksWithTheirSwing) {
    const auto dxf = read(GetParam(), units::System::us);
    const auto& doors = designed(GetParam()).survey.room.doors;
    std::vector<std::string> placed;
    for (const auto& entity : dxf["entities"])
        if (entity["type"] == "INSERT" && entity["layer"] == "DOOR") placed.push_back(entity["name"]);
    ASSERT_EQ(placed.size(), doors.size());
    for (std::size_t i = 0; i < doors.size(); ++i)
        for (const auto& block : dxf["blocks"]) {
            if (block["name"] != placed[i]) continue;
            ASSERT_EQ(block["entities"].size(), 2u);
            const auto& arc = block["entities"][1];
            ASSERT_EQ(arc["type"], "ARC");
            EXPECT_NEAR(arc["radius"].get<double>(), doors[i].width.value() / 0.0254, 1e-5);
            EXPECT_NEAR(std::abs(arc["angleLength"].get<double>()), M_PI / 2, 1e-6);
        }
}

TEST_P(Dxf, IsTheSameTwice) {
    const auto once = [&] { return draw::dxf(designed(GetParam()), demo_catalogue(), units::System::us).value(); };
    EXPECT_TRUE(once() == once());
}

TEST(DxfText, NamesOfAnyKindStayOnTheirLine) {
    auto result = designed("hostel");
    ASSERT_FALSE(result.survey.room.obstacles.empty());
    result.survey.room.obstacles.front().name = "é\n  0\nEOF";
    const auto dxf = read_by("dxf", draw::dxf(result, demo_catalogue(), units::System::us).value(), "odd.dxf");
    bool found = false;
    for (const auto& entity : dxf["entities"])
        found |= entity["type"] == "TEXT" && entity["text"].get<std::string>().find("  0 EOF") != std::string::npos;
    EXPECT_TRUE(found);
    EXPECT_FALSE(draw::dxf({}, demo_catalogue(), units::System::us));
}

}  // namespace
}  // namespace bw::test
