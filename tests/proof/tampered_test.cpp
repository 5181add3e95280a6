// SPDX-License-Identifier: MIT
// A plant as built passes; each thing taken out of it or spoiled makes the check that guards it fail, and names it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "job.h"

namespace bw::tests {
namespace {

using reason::Status;
using ::testing::HasSubstr;

TEST(AsBuilt, NothingFails) {
    for (const auto& c : wash_house().prove()) {
        EXPECT_NE(c.status, Status::fail) << c.id << ": " << c.says;
    }
}

TEST(AsBuilt, EveryCheckExplainsItself) {
    std::set<std::string> ids;
    const auto& plant = wash_house().built.plant;
    for (const auto& c : wash_house().prove()) {
        EXPECT_TRUE(ids.insert(c.id).second) << "twice: " << c.id;
        EXPECT_FALSE(c.title.empty() || c.service.empty() || c.says.empty() || c.sources.empty()) << c.id;
        EXPECT_TRUE(c.margin || !c.value || !c.limit || c.limit->si == 0) << c.id;
        for (const auto& id : c.pieces) EXPECT_GE(plant.find(id), 0) << c.id << " names " << id;
        for (const auto& source : c.sources) {
            EXPECT_FALSE(source.standing == reason::Standing::published && source.clause.empty()) << c.id;
        }
    }
}

TEST(AsBuilt, TightMeansUnderFivePercent) {
    for (const auto& c : wash_house().prove()) {
        if (!c.margin) continue;
        EXPECT_TRUE(c.status != Status::pass || *c.margin >= 0.05) << c.id;
        EXPECT_TRUE(c.status != Status::tight || (*c.margin < 0.05 && *c.margin >= 0)) << c.id;
    }
}

/// Takes pieces out of the wash-house; the check must pass before and fail after, and no other heater's may change.
void expect_missed(const std::vector<std::string>& pieces, const std::string& id, const std::string& words) {
    ASSERT_NE(check(wash_house(), id).status, Status::fail);
    auto job = wash_house();
    job.built.plant = without(job.built.plant, pieces);
    const auto after = check(job, id);
    EXPECT_EQ(after.status, Status::fail) << id;
    EXPECT_THAT(after.says, HasSubstr(words));
}

TEST(Tampered, SedimentTrapWithoutItsCap) {
    expect_missed({"heater-3.gas.trap-cap"}, "gas.trap.heater-3", "Heater 3's gas trap's lower opening");
    auto job = wash_house();
    job.built.plant = without(job.built.plant, {"heater-3.gas.trap-cap"});
    EXPECT_NE(check(job, "gas.trap.heater-2").status, Status::fail);
}

TEST(Tampered, GasValveThatShutsNothing) {
    auto job = wash_house();
    piece(job, "heater-2.gas.valve").part = text::Part::coupling;
    const auto checks = job.prove();
    EXPECT_EQ(check(checks, "gas.valve.heater-2").status, Status::fail);
    EXPECT_EQ(check(checks, "gas.trap.heater-2").status, Status::fail);
    EXPECT_EQ(check(checks, "gas.union.heater-2").status, Status::fail);
    EXPECT_NE(check(checks, "gas.valve.heater-1").status, Status::fail);
}

TEST(Tampered, UnionReplacedByCoupling) {
    auto job = wash_house();
    piece(job, "heater-7.gas.union").part = text::Part::coupling;
    EXPECT_EQ(check(job, "gas.union.heater-7").status, Status::fail);
}

TEST(Tampered, ValveBeforeTheReliefValve) {
    auto job = wash_house();
    insert_after(job, "heater-5.hot.valve", "relief", text::Part::ball_valve, "ball-valve/3/4");
    const auto after = check(job, "water.relief.heater-5");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("the added stands between heater 5"));
    EXPECT_NE(check(job, "water.relief.heater-4").status, Status::fail);
}

TEST(Tampered, ServiceValveTurnedRoundShutsItsReliefOff) {
    auto job = wash_house();
    auto& valve = piece(job, "heater-5.hot.valve");
    std::swap(valve.ports[0].name, valve.ports[1].name);
    EXPECT_EQ(check(job, "water.relief.heater-5").status, Status::fail);
}

TEST(Tampered, ReliefValveMissing) {
    expect_missed({"heater-1.relief.valve"}, "water.relief.heater-1", "Heater 1 has no relief valve");
}

TEST(Tampered, ReliefDischarge) {
    auto shut = wash_house();
    insert_after(shut, "heater-6.relief.air-gap", "a", text::Part::ball_valve, "ball-valve/3/4");
    EXPECT_EQ(check(shut, "water.relief-discharge.heater-6").status, Status::fail);

    auto high = wash_house();
    for (auto& port : piece(high, "heater-6.relief.air-gap").ports) port.at.z += 2 * 0.0254;
    const auto end = check(high, "water.relief-end.heater-6");
    EXPECT_EQ(end.status, Status::fail);
    EXPECT_NEAR(end.value->si, 7 * 0.0254, 1e-6);

    auto low = wash_house();
    for (auto& port : piece(low, "heater-6.relief.air-gap").ports) port.at.z -= 4 * 0.0254;
    EXPECT_EQ(check(low, "water.relief-end.heater-6").status, Status::fail);
    expect_missed({"heater-6.relief.air-gap"}, "water.relief-discharge.heater-6", "without an air gap");
}

TEST(Tampered, ReliefSetTooHighOrTooSmall) {
    auto job = wash_house();
    const auto key = piece(job, "heater-1.relief.valve").item;
    for (auto& item : job.catalogue.items)
        if (item.key == key)
            item.data["set-pressure"] = units::si_value(175.0 * units::psi), item.data["capacity"] = 40e3;
    ASSERT_TRUE(job.catalogue.index());
    const auto checks = job.prove();
    EXPECT_EQ(check(checks, "water.relief-set.heater-1").status, Status::fail);
    EXPECT_EQ(check(checks, "water.relief-capacity.heater-1").status, Status::fail);
}

TEST(Tampered, ShrunkGasPipe) {
    auto job = wash_house();
    const auto before = check(job, "gas.pressure.heater-8");
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::gas && p.part == text::Part::pipe && p.heater == 0) p.bore *= 0.4;
    const auto after = check(job, "gas.pressure.heater-8");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_LT(after.value ? after.value->si : -1, before.value->si);
}

TEST(Tampered, ThinGasPipeIsNotOfTheCodesSize) {
    auto job = wash_house();
    int changed = 0;
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::pipe && p.service == text::Service::gas && p.bank == 1 && p.heater == 0)
            p.item = "pipe/steel-40/3/4", ++changed;
    ASSERT_GT(changed, 0);
    EXPECT_EQ(check(job, "gas.size.bank-1").status, Status::fail);
}

TEST(Tampered, ShrunkColdMain) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::cold && p.bank == 0) p.bore *= 0.7;
    EXPECT_EQ(check(job, "water.velocity.main.cold").status, Status::fail);
}

TEST(Tampered, CopperScrewedToSteel) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::pipe && p.service == text::Service::hot) {
            p.item = "pipe/steel-40/2";
            break;
        }
    EXPECT_EQ(check(job, "water.dielectric").status, Status::fail);
    EXPECT_EQ(check(job, "water.materials").status, Status::fail);
}

TEST(Tampered, CommonVentWithoutADamper) {
    auto job = wash_house();
    piece(job, "heater-4.exhaust.damper").part = text::Part::coupling;
    const auto after = check(job, "vent.damper.heater-4");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.says, HasSubstr("Heater 4"));
}

TEST(Tampered, CommonVentPastTheListing) {
    auto job = wash_house();
    for (auto& heater : job.catalogue.heaters)
        for (auto& limit : heater.common_vents) limit.most = 7, limit.longest = 5.0 * units::foot;
    const auto checks = job.prove();
    EXPECT_EQ(check(checks, "vent.common-count.vent-1.terminal").status, Status::fail);
    EXPECT_EQ(check(checks, "vent.length.vent-1.terminal").status, Status::fail);
    for (auto& heater : job.catalogue.heaters) heater.common_vents.clear();
    EXPECT_EQ(check(job, "vent.listing").status, Status::fail);
}

TEST(Tampered, CondensateTrapAndNeutraliser) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::condensate_trap && p.heater == 2) p.part = text::Part::coupling;
    EXPECT_EQ(check(job, "condensate.trap.heater-2").status, Status::fail);
    EXPECT_NE(check(job, "condensate.trap.heater-1").status, Status::fail);
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::neutraliser) p.part = text::Part::coupling;
    EXPECT_EQ(check(job, "condensate.neutraliser.heater-1").status, Status::fail);
}

TEST(Tampered, CircuitsAndLinks) {
    expect_missed({"heater-3.link.cable"}, "capacity.linked", "a link cable is missing");
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::disconnect && p.heater == 1) p.part = text::Part::cable;
    EXPECT_EQ(check(job, "electric.disconnect.heater-1").status, Status::fail);
    auto one = wash_house();
    for (auto& item : one.catalogue.items)
        if (item.part == text::Part::panel_feed) item.data["rating"] = 10;
    ASSERT_TRUE(one.catalogue.index());
    EXPECT_EQ(check(one, "electric.load.circuit-1.breaker").status, Status::fail);
}

TEST(Tampered, EmergencyStopBypassed) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::emergency_stop) p.part = text::Part::disconnect;
    EXPECT_EQ(check(job, "safety.emergency-stop").status, Status::fail);
}

TEST(Tampered, SomethingInTheWorkingSpace) {
    auto job = wash_house();
    const auto box = shape::bounds(piece(job, "heater-4").solids.front());
    survey::Obstacle crate{"crate", {{box.min.x, box.max.y + 0.3, 0}, {box.max.x, box.max.y + 0.8, 1}}};
    job.survey.room.obstacles.push_back(crate);
    const auto after = check(job, "room.working-space.heater-4");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_NEAR(after.value->si, 0.3, 1e-6);
}

TEST(Tampered, TwoPiecesInOnePlace) {
    auto job = wash_house();
    piece(job, "heater-2.gas.valve").solids = piece(job, "heater-5").solids;
    const auto after = check(job, "plant.clash");
    EXPECT_EQ(after.status, Status::fail);
    EXPECT_THAT(after.pieces, ::testing::Contains("heater-2.gas.valve"));
}

TEST(Tampered, APortLeftOpen) { expect_missed({"bank-1.gas.header.cap"}, "plant.lawful", "joined to nothing"); }

TEST(Tampered, AHeaterMissing) {
    auto job = wash_house();
    job.built.plant = without(job.built.plant, {"heater-3"});
    const auto checks = job.prove();
    EXPECT_EQ(check(checks, "capacity.number").status, Status::fail);
    EXPECT_EQ(check(checks, "gas.pressure.heater-3").status, Status::fail);
    EXPECT_EQ(check(checks, "water.reached.cold").status, Status::fail);
}

TEST(Tampered, BracketTooWeakOrMissing) {
    auto job = wash_house();
    for (auto& item : job.catalogue.items)
        if (item.part == text::Part::bracket) item.data["load"] = 100;
    ASSERT_TRUE(job.catalogue.index());
    EXPECT_EQ(check(job, "structure.bracket.heater-1").status, Status::fail);
}

TEST(Tampered, HangersTakenDown) {
    auto job = wash_house();
    std::vector<std::string> hangers;
    for (const auto& p : job.built.plant.pieces)
        if (p.part == text::Part::hanger) hangers.push_back(p.id);
    ASSERT_FALSE(hangers.empty());
    job.built.plant = without(job.built.plant, hangers);
    for (const auto* service : {"gas", "cold", "hot"}) {
        EXPECT_EQ(check(job, std::string("structure.hangers.") + service).status, Status::fail) << service;
    }
}

}  // namespace
}  // namespace bw::tests
