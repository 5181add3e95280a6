// SPDX-License-Identifier: MIT
// Pieces become shapes without gaining, losing or moving anything.
#include "model/form.h"

#include <cmath>
#include <map>
#include <set>

#include "../support/random_survey.h"
#include "kit.h"
#include "model/mesh.h"

namespace bw::test {
namespace {

using model::Form;
using model::Rod;
using shape::Box;
using shape::Cylinder;
using shape::Vec;

double volume(const std::vector<Form>& all) {
    double sum = 0;
    for (const auto& form : all) sum += model::volume(form);
    return sum;
}

TEST(Forms, BarsEndToEndBecomeOneRodWithTheirVolume) {
    const std::vector<shape::Solid> elbow{Cylinder{{0, 0, 0}, {0, 0, 0.1}, 0.03},
                                          Cylinder{{0, 0, 0.1}, {0.1, 0, 0.1}, 0.03}};
    const auto all = model::forms(elbow);
    ASSERT_EQ(all.size(), 1u);
    ASSERT_EQ(std::get<Rod>(all[0]).line.size(), 3u);
    EXPECT_NEAR(volume(all), shape::volume(elbow[0]) + shape::volume(elbow[1]), 1e-15);
}

TEST(Forms, AMitreThatHasNoRoomLeavesTheBars) {
    const std::vector<shape::Solid> stubby{Cylinder{{0, 0, 0}, {0, 0, 0.02}, 0.03},
                                           Cylinder{{0, 0, 0.02}, {0.1, 0, 0.02}, 0.03}};
    EXPECT_EQ(model::forms(stubby).size(), 2u);
    const std::vector<shape::Solid> back{Cylinder{{0, 0, 0}, {0, 0, 0.2}, 0.03},
                                         Cylinder{{0, 0, 0.2}, {0, 0, 0}, 0.03}};
    EXPECT_EQ(model::forms(back).size(), 2u) << "folded back on itself";
    // two turns of which each alone would have room
    const std::vector<shape::Solid> tight{Cylinder{{0, 0, 0}, {0, 0, 0.1}, 0.03},
                                          Cylinder{{0, 0, 0.1}, {0.05, 0, 0.1}, 0.03},
                                          Cylinder{{0.05, 0, 0.1}, {0.05, 0, 0.2}, 0.03}};
    EXPECT_EQ(model::forms(tight).size(), 2u);
}

TEST(Forms, OtherThicknessOrPlaceStaysApart) {
    EXPECT_EQ(model::forms({Cylinder{{0, 0, 0}, {0, 0, 1}, 0.03}, Cylinder{{0, 0, 1}, {1, 0, 1}, 0.02}}).size(), 2u);
    EXPECT_EQ(model::forms({Cylinder{{0, 0, 0}, {0, 0, 1}, 0.03}, Cylinder{{0, 0, 0.5}, {1, 0, 0.5}, 0.03}}).size(),
              2u);
    EXPECT_TRUE(model::forms({Cylinder{{1, 1, 1}, {1, 1, 1}, 0.03}}).empty());
}

/// Every piece with a solid once, and each placed shape lies where the piece's own solids lie.
void expect_faithful(const plant::Plant& plant) {
    const auto scene = model::scene(plant);
    std::set<int> seen;
    for (const auto& placed : scene.placed) {
        const auto& piece = plant.pieces[static_cast<std::size_t>(placed.piece)];
        EXPECT_TRUE(seen.insert(placed.piece).second) << piece.id;
        const auto& forms = scene.shapes[static_cast<std::size_t>(placed.shape)].forms;
        EXPECT_NEAR(volume(forms), volume_of(piece), 1e-6 * volume_of(piece)) << piece.id;
        const auto straight = model::forms(piece.solids);
        ASSERT_EQ(straight.size(), forms.size()) << piece.id;
        for (std::size_t i = 0; i < forms.size(); ++i) {
            std::vector<Vec> there, here;
            if (const auto* rod = std::get_if<Rod>(&forms[i]))
                there = rod->line, here = std::get<Rod>(straight[i]).line;
            else
                there = {std::get<Box>(forms[i]).min, std::get<Box>(forms[i]).max},
                here = {std::get<Box>(straight[i]).min, std::get<Box>(straight[i]).max};
            ASSERT_EQ(there.size(), here.size());
            for (std::size_t k = 0; k < here.size(); ++k)
                EXPECT_LT(shape::distance(placed.frame.out(there[k]), here[k]), 1e-6) << piece.id;
        }
    }
    for (const auto* piece : own_pieces(plant))
        EXPECT_EQ(seen.contains(plant.find(piece->id)), !piece->solids.empty()) << piece->id;
}

/// Closed: every edge is used once each way.
void expect_closed(const model::Mesh& mesh, const std::string& what) {
    using Corner = std::array<long long, 3>;
    std::map<std::pair<Corner, Corner>, int> edges;
    const auto corner = [&](std::size_t i) {
        const auto& at = mesh.vertices[mesh.indices[i]].at;
        return Corner{std::llround(at[0] * 1e6), std::llround(at[1] * 1e6), std::llround(at[2] * 1e6)};
    };
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3)
        for (std::size_t k = 0; k < 3; ++k) ++edges[{corner(i + k), corner(i + (k + 1) % 3)}];
    for (const auto& [edge, times] : edges) {
        const auto back = edges.find({edge.second, edge.first});
        ASSERT_TRUE(back != edges.end() && back->second == times) << what << " is open";
    }
}

double enclosed(const model::Mesh& mesh) {
    double sum = 0;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        std::array<Vec, 3> p;
        for (std::size_t k = 0; k < 3; ++k) {
            const auto& at = mesh.vertices[mesh.indices[i + k]].at;
            p[k] = {at[0], at[1], at[2]};
        }
        sum += shape::dot(p[0], shape::cross(p[1], p[2])) / 6;
    }
    return sum;
}

TEST(Scene, EveryPieceOfEveryExampleStandsOnceWhereItIs) {
    for (const auto* name : example_names) {
        SCOPED_TRACE(name);
        expect_faithful(plant_of(name));
    }
}

TEST(Scene, MeshesAreClosedAndHoldTheirVolume) {
    // a circle's share of its polygon
    const double share = std::sin(2 * M_PI / model::round_sides) * model::round_sides / (2 * M_PI);
    for (const auto* name : example_names)
        for (const auto& shape : model::scene(plant_of(name)).shapes)
            for (const auto& form : shape.forms) {
                const auto mesh = model::mesh({form});
                expect_closed(mesh, shape.item);
                const double wanted = model::volume(form) * (std::holds_alternative<Rod>(form) ? share : 1);
                EXPECT_NEAR(enclosed(mesh), wanted, 2e-4 * wanted) << shape.item;
            }
}

TEST(Scene, EqualPiecesShareAShape) {
    const auto scene = model::scene(plant_of("hostel"));
    EXPECT_LT(scene.shapes.size() * 3, scene.placed.size());
    int used = 0;
    for (const auto& shape : scene.shapes) used += shape.used;
    EXPECT_EQ(static_cast<std::size_t>(used), scene.placed.size());
}

TEST(RandomPlants, AreModelledWhole) {
    int built = 0;
    for (std::uint64_t seed = 1; seed <= 24; ++seed) {
        const auto survey = survey::parse(random_survey(seed), "random.toml");
        if (!survey) continue;
        const auto result = design::run(*survey, demo_catalogue(), {.candidates = 1});
        if (!result || !result->chosen) continue;
        SCOPED_TRACE("seed " + std::to_string(seed));
        expect_faithful(result->chosen->built.plant);
        EXPECT_TRUE(model::gltf(*result));
        EXPECT_TRUE(model::ifc(*result, demo_catalogue()));
        if (++built % 4 != 1) continue;
        const auto step = model::step(*result);
        EXPECT_TRUE(step) << units::describe(step.error());
    }
    EXPECT_GT(built, 5);
}

}  // namespace
}  // namespace bw::test
