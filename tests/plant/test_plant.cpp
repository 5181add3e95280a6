// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <set>

#include "plant/plant.h"

using namespace bw::plant;
using bw::shape::Vec;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;

namespace {

constexpr double inch = 0.0254;

Piece straight(std::string id, Vec a, Vec b, Part part = Part::pipe) {
    const Vec along = (1 / bw::shape::distance(a, b)) * (b - a);
    Piece p;
    p.id = std::move(id);
    p.part = part;
    p.item = "pipe/copper-l/2";
    p.ports = {{"a", a, -along, {16}, Service::cold}, {"b", b, along, {16}, Service::cold}};
    p.cut = bw::shape::distance(a, b);
    return p;
}

Piece boundary(std::string id, Vec at, Vec facing) {
    Piece p;
    p.id = std::move(id);
    p.part = Part::connection;
    p.ports = {{"a", at, facing, {16}, Service::cold}};
    return p;
}

/// A connection, `n` one-foot pipes end to end, and a cap.
Plant line(int n) {
    Plant plant;
    PortRef end{plant.add(boundary("site.cold", {}, {1, 0, 0})), 0};
    for (int i = 0; i < n; ++i) {
        const int pipe =
            plant.add(straight("pipe-" + std::to_string(i + 1), {12 * i * inch, 0, 0}, {12 * (i + 1) * inch, 0, 0}));
        plant.join(end, {pipe, 0}, JointKind::soldered);
        end = {pipe, 1};
    }
    Piece cap;
    cap.id = "cap";
    cap.part = Part::cap;
    cap.item = "cap/copper-l/2";
    cap.ports = {{"a", {12 * n * inch, 0, 0}, {-1, 0, 0}, {16}, Service::cold}};
    plant.join(end, {plant.add(cap), 0}, JointKind::soldered);
    return plant;
}

}  // namespace

TEST(Plants, PiecesAreFoundAndPortsKnowTheirMates) {
    const Plant plant = line(3);
    EXPECT_EQ(plant.find("pipe-2"), 2);
    EXPECT_EQ(plant.find("pipe-9"), -1);
    EXPECT_EQ(plant.port(2, "b"), 1);
    EXPECT_EQ(plant.port(2, "branch"), -1);
    EXPECT_EQ(plant.mate({2, 1}), (PortRef{3, 0}));
    EXPECT_EQ(plant.mate({3, 0}), (PortRef{2, 1}));
    EXPECT_EQ(plant.mate({77, 0}), PortRef{});
    EXPECT_EQ(plant.at({1, 1}).at.x, 12 * inch);
}

TEST(Plants, AWholeLineIsLawful) { EXPECT_THAT(unlawful(line(20)), IsEmpty()); }

TEST(Plants, ACopyAnswersForItself) {
    Plant a = line(1);
    Plant b = a;
    const int extra = b.add(boundary("site.hot", {}, {0, 0, 1}));
    EXPECT_EQ(b.find("site.hot"), extra);
    EXPECT_EQ(a.find("site.hot"), -1);
}

TEST(Laws, EveryPortIsJoinedOnce) {
    Plant plant = line(2);
    plant.add(boundary("site.hot", {}, {0, 0, 1}));
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("site.hot port 'a': joined to nothing")));
    plant.join({plant.find("site.hot"), 0}, {1, 0}, JointKind::soldered);
    EXPECT_THAT(unlawful(plant), testing::Contains(HasSubstr("pipe-1 port 'a': joined 2 times")));
}

TEST(Laws, IdsAreUnique) {
    Plant plant = line(2);
    plant.pieces[2].id = "pipe-1";
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("pipe-1: the id stands more than once")));
}

TEST(Laws, JoinedPortsStandAtTheSamePlaceWithin64th) {
    Plant plant = line(2);
    plant.pieces[3].ports[0].at.y = inch / 65;
    EXPECT_THAT(unlawful(plant), IsEmpty());
    plant.pieces[3].ports[0].at.y = inch / 60;
    EXPECT_THAT(unlawful(plant), ElementsAre(AllOf(HasSubstr("pipe-2 port 'b' and cap port 'a'"), HasSubstr("apart"))));
}

TEST(Laws, JoinedPortsFaceOneAnotherAndAgreeInSizeAndService) {
    Plant plant = line(1);
    plant.pieces[2].ports[0].facing = {0, 1, 0};
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("do not face one another")));
    plant = line(1);
    plant.pieces[2].ports[0].size = {8};
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("sizes 16 and 8")));
    plant = line(1);
    plant.pieces[2].ports[0].service = Service::hot;
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("services differ")));
}

TEST(Laws, WhatHangsOnNothingIsAdrift) {
    Plant plant = line(1);
    const int one = plant.add(straight("loose-1", {0, 1, 0}, {inch, 1, 0}));
    const int two = plant.add(straight("loose-2", {inch, 1, 0}, {0, 1, 0}));
    plant.join({one, 1}, {two, 0}, JointKind::soldered);
    plant.join({two, 1}, {one, 0}, JointKind::soldered);
    for (auto& port : plant.pieces[one].ports) port.facing = {0, 0, 1};
    for (auto& port : plant.pieces[two].ports) port.facing = {0, 0, -1};
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("loose-1: no chain"), HasSubstr("loose-2: no chain")));
}

TEST(Laws, RigidPipeIsCutOnTheSixteenthGrid) {
    Plant plant = line(1);
    plant.pieces[1].cut += inch / 40;
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("pipe-1: cut length 0.30543 m is not a multiple of 1/16 in")));
    plant.pieces[1].item = "pipe/csst/2";
    EXPECT_THAT(unlawful(plant), IsEmpty()) << "a bendable pipe is cut as it lies";
    plant.pieces[1].cut = -inch;
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("negative")));
}

TEST(Laws, OnlyConnectionsAreWithoutItem) {
    Plant plant = line(1);
    plant.pieces[1].item.clear();
    plant.pieces[0].item = "pipe/copper-l/2";
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("never bought"), HasSubstr("no catalogue item")));
}

TEST(Laws, JointsNameWhatIsThere) {
    Plant plant = line(1);
    plant.joints.push_back({{0, 5}, {99, 0}, JointKind::bolted});
    EXPECT_THAT(unlawful(plant), ElementsAre(HasSubstr("does not exist")));
}

TEST(Plants, AThousandPiecesAreAddedAndJoinedInMuchLessThanTheTimeOfADesign) {
    double best = 1;
    for (int k = 0; k < 5; ++k) {
        const auto from = std::chrono::steady_clock::now();
        const Plant plant = line(1000);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - from;
        ASSERT_EQ(plant.pieces.size(), 1002u);
        best = std::min(best, took.count());
    }
    EXPECT_LT(best, 0.010) << "a loose bound for slow and instrumented builds; about half a millisecond is usual";
}

TEST(Names, EveryJointKindHasOne) {
    std::vector<std::string_view> all;
    for (int k = 0; k <= static_cast<int>(JointKind::flare); ++k) all.push_back(name(static_cast<JointKind>(k)));
    EXPECT_THAT(all, testing::Each(testing::Not(IsEmpty())));
    EXPECT_EQ(std::set<std::string_view>(all.begin(), all.end()).size(), all.size());
}
