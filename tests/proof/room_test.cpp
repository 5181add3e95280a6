// SPDX-License-Identifier: MIT
// What stands in whose way, what holds the pipe, how it grows and falls: as built, and spoiled.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "code/hangers.h"
#include "job.h"
#include "plant/words.h"
#include "proof/base/collision_grid.h"
#include "text/give_way.h"

namespace bw::tests {
namespace {

using reason::Status;
using ::testing::HasSubstr;

constexpr double inch = 0.0254;

shape::Vec middle(const plant::Piece& piece) {
    const auto box = shape::bounds(piece.solids);
    return 0.5 * (box.min + box.max);
}

const plant::Piece* first(const Job& job, text::Part part, text::Service service) {
    for (const auto& p : job.built.plant.pieces)
        if (p.part == part && p.service == service) return &p;
    return nullptr;
}

TEST(Clashes, AnObstacleInAHeaterIsNamedWithItsDepth) {
    auto job = wash_house();
    const auto at = middle(piece(job, "heater-3"));
    job.survey.room.obstacles.push_back({"the column", shape::grown({at, at}, 2 * inch)});
    const auto after = check(job, "plant.clash");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("heater 3 and the column"));
    EXPECT_THAT(after.says, HasSubstr("deep"));
}

TEST(Clashes, DepthIsWhatTheTwoMustLose) {
    plant::Plant plant;
    plant.add({.id = "a", .solids = {shape::Box{{0, 0, 0}, {1, 1, 1}}}});
    plant.add({.id = "b", .solids = {shape::Cylinder{{0.5, 0.5, 0.97}, {0.5, 0.5, 3}, 0.1}}});
    plant.add({.id = "c", .solids = {shape::Cylinder{{1.101, 0.2, -1}, {1.101, 0.2, 2}, 0.1}}});
    plant.add({.id = "d", .solids = {shape::Cylinder{{1.0992, 0.8, -1}, {1.0992, 0.8, 2}, 0.1}}});
    const proof::CollisionGrid bodies(plant, survey::Room{});
    const auto found = proof::clashes(plant, bodies);
    ASSERT_EQ(found.size(), 1u) << "one stands 1 mm off, one touches within the fit";
    EXPECT_EQ(found[0].a, 0);
    EXPECT_EQ(found[0].b, 1);
    EXPECT_NEAR(found[0].depth, 0.03, 2e-4);
}

/// Every pair that the cells give is what looking at every pair gives.
TEST(Clashes, NoPairIsMissedByLookingInCells) {
    auto job = hostel();
    for (int k = 1; k <= 8; ++k)
        for (auto& solid : piece(job, "heater-" + std::to_string(k)).solids)
            if (auto* box = std::get_if<shape::Box>(&solid)) box->max = box->max + shape::Vec{0.05, 0.08, 0.4};
    const auto& plant = job.built.plant;
    const proof::CollisionGrid bodies(plant, job.survey.room);
    std::set<std::pair<int, int>> every;
    for (const auto& a : bodies.all())
        for (const auto& b : bodies.all()) {
            if (a.piece < 0 || b.piece <= a.piece || text::gives_way(plant.pieces[std::size_t(a.piece)].part) ||
                text::gives_way(plant.pieces[std::size_t(b.piece)].part))
                continue;
            if (proof::clash(a.solid, b.solid) && !proof::joined(plant, a.piece, b.piece))
                every.emplace(a.piece, b.piece);
        }
    std::set<std::pair<int, int>> found;
    for (const auto& c : proof::clashes(plant, bodies)) found.emplace(c.a, c.b);
    EXPECT_GT(every.size(), 8u);
    EXPECT_EQ(found, every);
}

TEST(Clearances, ColdPipeInsideTheHotOnesInsulation) {
    auto job = wash_house();
    const auto hot = shape::bounds(piece(job, "bank-1.hot.header.pipe-2").solids);
    auto& cold = piece(job, "bank-1.cold.header.pipe-2");
    const auto box = shape::bounds(cold.solids);
    const double lift = hot.min.z - box.max.z - 0.75 * inch;
    for (auto& solid : cold.solids) {
        auto& bar = std::get<shape::Cylinder>(solid);
        bar.a.z += lift, bar.b.z += lift;
    }
    const auto after = check(job, "plant.clearance.insulation");
    EXPECT_EQ(after.status, Status::refer);
    EXPECT_NEAR(after.value->si, 0.75 * inch, 0.1 * inch);
    EXPECT_THAT(after.says, HasSubstr("pipe 2 of bank 1's cold header"));
}

TEST(Clearances, CableOnAHotPipe) {
    auto job = wash_house();
    const auto hot = piece(job, "bank-1.hot.header.pipe-2").solids;
    const auto* cable = first(job, text::Part::cable, text::Service::power);
    ASSERT_NE(cable, nullptr);
    piece(job, cable->id).solids = hot;
    const auto after = check(job, "plant.clearance.cables");
    EXPECT_EQ(after.status, Status::refer);
    EXPECT_EQ(after.value->si, 0);
    EXPECT_THAT(after.says, HasSubstr(plant::in_words(cable->id)));
}

TEST(Clearances, AValveWalledIn) {
    auto job = wash_house();
    const auto box = shape::bounds(piece(job, "heater-2.gas.valve").solids);
    const auto off = shape::grown(box, 0.5 * inch), wide = shape::grown(box, 2 * inch);
    auto& wall = piece(job, "heater-7.bracket-1").solids;
    const auto slab = [&](shape::Vec low, shape::Vec high) { wall.push_back(shape::Box{low, high}); };
    slab(wide.min, {off.min.x, wide.max.y, wide.max.z});
    slab({off.max.x, wide.min.y, wide.min.z}, wide.max);
    slab(wide.min, {wide.max.x, off.min.y, wide.max.z});
    slab({wide.min.x, off.max.y, wide.min.z}, wide.max);
    slab(wide.min, {wide.max.x, wide.max.y, off.min.z});
    slab({wide.min.x, wide.min.y, off.max.z}, wide.max);
    const auto after = check(job, "plant.clearance.hand");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.pieces, ::testing::Contains(HasSubstr("heater-2.gas")));
}

TEST(Hanging, APipeTooHeavyForItsSupportsFails) {
    auto job = wash_house();
    ASSERT_NE(check(job, "structure.hanger-load.cold").status, Status::fail);
    piece(job, "bank-1.cold.header.pipe-3").water = 2;
    const auto after = check(job, "structure.hanger-load.cold");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_GT(after.value->si, 2 * 9.80665 * 100);
}

/// From the clevis to the ceiling in one piece, as thick as the pipe's size asks; plastic takes the least.
TEST(Hanging, RodsReachFromTheClevisToTheCeiling) {
    const auto& plant = hostel().built.plant;
    int rods = 0;
    for (int i = 0; i < static_cast<int>(plant.pieces.size()); ++i) {
        const auto& rod = plant.pieces[static_cast<std::size_t>(i)];
        if (rod.part != text::Part::rod) continue;
        ++rods;
        const int above = plant.mate({i, 0}).piece;
        const auto& clevis = plant.pieces[static_cast<std::size_t>(above)];
        ASSERT_EQ(clevis.part, text::Part::hanger) << rod.id;
        EXPECT_EQ(plant.pieces[static_cast<std::size_t>(plant.mate({i, 1}).piece)].part, text::Part::anchor);
        const auto& pipe = plant.pieces[static_cast<std::size_t>(plant.mate({above, 0}).piece)];
        const bool water = pipe.service == text::Service::hot || pipe.service == text::Service::cold ||
                           pipe.service == text::Service::gas || pipe.service == text::Service::recirculation;
        EXPECT_EQ(rod.size, water ? code::hanger_rod(pipe.size)->value : units::Nominal{3}) << rod.id;
        EXPECT_NEAR(rod.cut, shape::distance(rod.ports[0].at, rod.ports[1].at), inch / 16) << rod.id;
        EXPECT_NEAR(rod.ports[1].at.z, hostel().survey.room.ceiling->value(), 1e-9);
    }
    EXPECT_GT(rods, 10);
}

/// Every support of a service carries the pipe between: the loads sum to what the runs weigh, no less.
TEST(Hanging, LoadsSumToTheWeightOfTheRuns) {
    const auto& job = hostel();
    const auto c = check(job, "structure.hanger-load.gas");
    double carried = 0, level = 0;
    for (const auto& line : c.derivation)
        if (line.result && line.result->symbol == "F") carried += line.result->amount.si;
    for (const auto& p : job.built.plant.pieces)
        if (p.service == text::Service::gas && p.part == text::Part::pipe && p.heater == 0 &&
            std::abs(p.ports[0].at.z - p.ports[1].at.z) < 1e-3)
            level += 9.80665 * p.mass_dry;
    EXPECT_GE(carried, 0.95 * level);
    EXPECT_LT(carried, 5 * level) << "risers and fittings weigh less than four times the headers";
}

TEST(Hanging, TurnsWithoutSupportAreReferred) {
    auto job = hostel();
    std::vector<std::string> hangers;
    for (const auto& p : job.built.plant.pieces)
        if (p.part == text::Part::hanger) hangers.push_back(p.id);
    job.built.plant = without(job.built.plant, hangers);
    const auto after = check(job, "structure.turns");
    EXPECT_EQ(after.status, Status::refer);
    EXPECT_GT(after.pieces.size(), 3u);
}

TEST(Movement, GrowthIsCoefficientTimesLengthTimesRise) {
    const auto c = check(hostel(), "structure.movement.hot");
    const double rise = (130.0 - 50) / 1.8, copper = 1.8 * 9.4e-6;
    int runs = 0;
    for (const auto& line : c.derivation) {
        if (!line.result || line.result->symbol != "dL") continue;
        EXPECT_NEAR(line.result->amount.si, copper * rise * line.given.front().amount.si, 1e-6);
        ++runs;
    }
    EXPECT_GT(runs, 0);
}

TEST(Movement, HotterWaterMovesMore) {
    auto job = hostel();
    const auto before = check(job, "structure.movement.branches");
    job.survey.temperatures.distribution.value = units::fahrenheit(180);
    const auto after = check(job, "structure.movement.branches");
    EXPECT_NEAR(after.value->si / before.value->si, 130.0 / 80, 1e-6);
}

TEST(Fall, VentsRiseAQuarterInchInAFootFromTheirDrain) {
    const auto c = check(wash_house(), "vent.fall.vent-1");
    EXPECT_EQ(c.status, Status::pass) << c.says;
    // drain end to terminal: 5.283 - 1.105 along the bank, 0.914 - 0.171 across, 6.553 - 5.283 along to the wall
    const double way = 5.283 - 1.105 + 0.914 - 0.171 + 6.553 - 5.283;
    EXPECT_NEAR(c.value->si, way * 0.25 / 12, 0.01);
    EXPECT_THAT(c.derivation.back().says, HasSubstr("than listed"));
}

TEST(Fall, ACeilingJustAboveTheVentLeavesNoRoom) {
    auto job = wash_house();
    double top = 0;
    for (const auto& p : job.built.plant.pieces)
        if (p.service == text::Service::exhaust)
            for (const auto& solid : p.solids) top = std::max(top, shape::bounds(solid).max.z);
    job.survey.room.ceiling.value = (top + 0.25 * inch) * units::metre;
    const auto c = check(job, "vent.fall.vent-1");
    // it is set lower, on shorter risers, or has no room: it never stands in the ceiling
    if (c.status == Status::fail) {
        EXPECT_THAT(c.says, HasSubstr("ceiling"));
    } else {
        EXPECT_THAT(c.derivation.front().says, HasSubstr("below where it is drawn"));
    }
}

TEST(Fall, TheDrainLineReachesItsDrain) {
    for (const auto* job : {&wash_house(), &hostel()}) {
        const auto c = check(*job, "condensate.fall");
        EXPECT_EQ(c.status, Status::pass) << c.says;
        EXPECT_GT(c.value->si, 0);
    }
}

}  // namespace
}  // namespace bw::tests
