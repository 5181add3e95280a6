// SPDX-License-Identifier: MIT
#include "network/service_tree.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "network/run/length.h"

namespace bw::network {
namespace {

using namespace network;  // NOLINT

using plant::JointKind;
using plant::Piece;
using plant::Plant;
using text::Part;
using text::Service;

int add(Plant& plant, const std::string& id, Part part, std::vector<plant::Port> ports, int heater = 0) {
    Piece piece;
    piece.id = id;
    piece.part = part;
    piece.service = Service::gas;
    piece.heater = heater;
    piece.ports = std::move(ports);
    return plant.add(std::move(piece));
}

plant::Port port(const std::string& name, shape::Vec at, shape::Vec facing = {1, 0, 0},
                 Service service = Service::gas) {
    return {name, at, facing, {6}, service};
}

/// Connection, a metre of pipe, a tee; heater 1 half a metre up its branch, heater 2 on its run.
Plant two_heaters() {
    Plant plant;
    const int site = add(plant, "site.gas", Part::connection, {port("a", {0, 0, 0})});
    const int pipe = add(plant, "pipe", Part::pipe, {port("a", {0, 0, 0}, {-1, 0, 0}), port("b", {1, 0, 0})});
    const int tee =
        add(plant, "tee", Part::tee,
            {port("a", {1, 0, 0}, {-1, 0, 0}), port("b", {1.2, 0, 0}), port("branch", {1.1, 0, 0.1}, {0, 0, 1})});
    const int riser =
        add(plant, "riser", Part::pipe, {port("a", {1.1, 0, 0.1}, {0, 0, -1}), port("b", {1.1, 0, 0.6}, {0, 0, 1})});
    const int one = add(plant, "heater-1", Part::heater,
                        {port("gas", {1.1, 0, 0.6}), port("cold", {0, 0, 0}, {1, 0, 0}, Service::cold)}, 1);
    const int two = add(plant, "heater-2", Part::heater, {port("gas", {1.2, 0, 0})}, 2);
    plant.join({site, 0}, {pipe, 0}, JointKind::threaded);
    plant.join({pipe, 1}, {tee, 0}, JointKind::threaded);
    plant.join({tee, 2}, {riser, 0}, JointKind::threaded);
    plant.join({riser, 1}, {one, 0}, JointKind::threaded);
    plant.join({tee, 1}, {two, 0}, JointKind::threaded);
    return plant;
}

TEST(ReadOff, CountsTheHeatersBehindEachPassage) {
    const Plant plant = two_heaters();
    const auto tree = trace_service(plant, Service::gas, plant.find("site.gas"));
    ASSERT_TRUE(tree);
    EXPECT_EQ(tree->traversals[0].heaters, 2);
    int tees = 0;
    for (const auto& passage : tree->traversals)
        if (plant.pieces[static_cast<std::size_t>(passage.piece)].id == "tee") {
            EXPECT_EQ(passage.heaters, 1);
            ++tees;
        }
    EXPECT_EQ(tees, 2);
}

TEST(ReadOff, MeasuresTheCentreLineToEachHeater) {
    const Plant plant = two_heaters();
    const auto tree = trace_service(plant, Service::gas, plant.find("site.gas"));
    ASSERT_TRUE(tree);
    ASSERT_EQ(tree->leaf.size(), 2U);
    // 1 m of pipe, 0.1 m along and 0.1 m out of the tee, 0.5 m of riser
    EXPECT_NEAR(tree->traversals[static_cast<std::size_t>(tree->leaf[0])].along, 1.7, 1e-12);
    EXPECT_NEAR(tree->traversals[static_cast<std::size_t>(tree->leaf[1])].along, 1.2, 1e-12);
}

/// Of an elbow of 45 degrees with legs of 0.1 m the codes count both legs, the solved network the line between its
/// ends.
TEST(ReadOff, ALengthThroughAPieceIsByTheRuleThatIsNamed) {
    Piece bend;
    bend.part = Part::elbow_45;
    const double slant = std::sqrt(0.5);
    bend.ports = {port("a", {-0.1, 0, 0}, {-1, 0, 0}), port("b", {0.1 * slant, 0.1 * slant, 0}, {slant, slant, 0})};
    EXPECT_NEAR(length_through(bend, 0, 1, LengthRule::centre_lines), 0.2, 1e-12);
    EXPECT_NEAR(length_through(bend, 0, 1, LengthRule::solved), 0.2 * std::cos(M_PI / 8), 1e-12);
    EXPECT_EQ(length_through(bend, -1, 1, LengthRule::centre_lines), 0);
    const Plant plant = two_heaters();
    const auto& tee = plant.pieces[static_cast<std::size_t>(plant.find("tee"))];
    EXPECT_NEAR(length_through(tee, 0, 2, LengthRule::centre_lines), 0.2, 1e-12);
    EXPECT_EQ(length_through(tee, 0, 2, LengthRule::solved), 0);
}

TEST(ReadOff, PathLeadsFromTheRootToTheHeater) {
    const Plant plant = two_heaters();
    const auto tree = trace_service(plant, Service::gas, plant.find("site.gas"));
    ASSERT_TRUE(tree);
    std::vector<std::string> ids;
    for (int at : path_to(*tree, 1))
        ids.push_back(plant.pieces[static_cast<std::size_t>(tree->traversals[static_cast<std::size_t>(at)].piece)].id);
    EXPECT_THAT(ids, testing::ElementsAre("site.gas", "pipe", "tee", "riser", "heater-1"));
    EXPECT_TRUE(path_to(*tree, 3).empty());
}

TEST(ReadOff, DoesNotCrossAHeaterIntoAnotherService) {
    const Plant plant = two_heaters();
    const auto tree = trace_service(plant, Service::gas, plant.find("site.gas"));
    ASSERT_TRUE(tree);
    EXPECT_EQ(tree->traversals.size(), 7U);  // site, pipe, tee twice, riser, two heaters
}

TEST(ReadOff, RefusesALoop) {
    Plant plant;
    const int site = add(plant, "site.gas", Part::connection, {port("a", {0, 0, 0})});
    const int tee =
        add(plant, "tee", Part::tee, {port("a", {0, 0, 0}), port("b", {1, 0, 0}), port("branch", {0, 1, 0})});
    const int bend = add(plant, "bend", Part::elbow, {port("a", {1, 0, 0}), port("b", {0, 1, 0})});
    plant.join({site, 0}, {tee, 0}, JointKind::threaded);
    plant.join({tee, 1}, {bend, 0}, JointKind::threaded);
    plant.join({bend, 1}, {tee, 2}, JointKind::threaded);
    const auto tree = trace_service(plant, Service::gas, site);
    ASSERT_FALSE(tree);
    EXPECT_THAT(tree.error().what, testing::HasSubstr("comes back to"));
}

TEST(ReadOff, RefusesAServiceWithoutARoot) {
    const auto tree = trace_service(two_heaters(), Service::gas, -1);
    EXPECT_FALSE(tree);
}

}  // namespace
}  // namespace bw::network
