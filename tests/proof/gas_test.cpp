// SPDX-License-Identifier: MIT
// Gas: the solved network beside the code's methods, and what a failing check says would mend it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "code/gas_pipe.h"
#include "job.h"
#include "matter/air.h"
#include "network/gas_network.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using reason::Check;
using reason::Status;
using ::testing::HasSubstr;

/// The wash-house without its regulator, so that what is delivered stands at the heaters.
Job low_pressure() {
    auto job = wash_house();
    job.survey.gas.delivery_pressure = {7.0 * inch_water, false};
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::regulator) p.part = text::Part::union_joint, p.loss_run = 0;
    return job;
}

Pressure least(const Job& job) {
    for (const auto& inlet : job.catalogue.heater(job.capacity.heater)->gas)
        if (inlet.gas == *job.survey.gas.kind) return inlet.least;
    return {};
}

Check solved(const Job& job) { return check(job, "gas.solved"); }

TEST(GasSolved, TheLowestOfAllHeatersBesideTheCodesEquation) {
    const auto c = solved(wash_house());
    EXPECT_NE(c.status, Status::fail) << c.says;
    ASSERT_TRUE(c.value && c.limit);
    EXPECT_DOUBLE_EQ(c.limit->si, least(wash_house()).value());
    const auto line = [&](std::string_view says) -> const reason::Step& {
        for (const auto& one : c.derivation)
            if (one.says.find(says) == 0) return one;
        ADD_FAILURE() << "no line: " << says;
        return c.derivation.front();
    };
    const auto &all = line("All firing"), &alone = line("Each firing alone"), &none = line("None firing");
    ASSERT_EQ(all.given.size(), 8u);
    ASSERT_EQ(alone.given.size(), 8u);
    ASSERT_EQ(none.given.size(), 8u);
    for (std::size_t n = 0; n < 8; ++n) {
        EXPECT_GE(alone.given[n].amount.si, all.given[n].amount.si) << "alone it has no less than with all";
        EXPECT_GT(none.given[n].amount.si, alone.given[n].amount.si) << "locked up it has most";
    }
    EXPECT_DOUBLE_EQ(all.result->amount.si, c.value->si);
    double by_code = 1e9;
    for (int n = 1; n <= 8; ++n)
        by_code = std::min(by_code, check(wash_house(), "gas.pressure.heater-" + std::to_string(n)).value->si);
    const double outlet = (7.0 * inch_water).value();
    EXPECT_NEAR(outlet - c.value->si, outlet - by_code, 0.3 * (outlet - by_code));
}

TEST(GasSolved, ThePressureItAsksForIsJustEnough) {
    auto job = low_pressure();
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::gas && p.part == text::Part::pipe) p.bore *= 0.45;
    const auto before = solved(job);
    ASSERT_EQ(before.status, Status::fail);
    EXPECT_THAT(before.says, HasSubstr("lacks"));
    // the delivery pressure that leaves just the least: what is lost of the squared pressure stays the same
    const double air = matter::atmosphere(*job.survey.altitude)->value();
    const auto square = [&](double gauge) { return (gauge + air) * (gauge + air); };
    const double delivery = job.survey.gas.delivery_pressure->value();
    const double needed = std::sqrt(square(least(job).value()) + square(delivery) - square(before.value->si)) - air;
    EXPECT_THAT(before.says, HasSubstr(print(amount(Pressure::from_value(needed), Kind::gas_pressure), System::us)));
    job.survey.gas.delivery_pressure = {Pressure::from_value(needed * 1.00001), false};
    EXPECT_NE(solved(job).status, Status::fail);
    job.survey.gas.delivery_pressure = {Pressure::from_value(needed * 0.995), false};
    EXPECT_EQ(solved(job).status, Status::fail);
}

TEST(GasSolved, PressureThatGivesOutStillSaysWhatWouldDo) {
    auto job = low_pressure();
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::gas && p.part == text::Part::pipe) p.bore *= 0.1;
    const auto c = solved(job);
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr("gives out"));
    EXPECT_THAT(c.says, HasSubstr("No pressure that may stand in the building would do without larger pipe"));
    EXPECT_THAT(c.says, HasSubstr("Larger pipe that would do"));
}

TEST(GasSolved, LargerPipeThatItNamesWouldDo) {
    auto job = low_pressure();
    job.survey.gas.delivery_pressure = {Pressure::from_value(least(job).value() * 1.05), false};
    const auto* small = job.catalogue.pipe(text::Material::steel_40, Nominal{8});
    ASSERT_TRUE(small);
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::gas && p.bank == 0 && p.bore > 0 && p.heater == 0)
            p.size = Nominal{8}, p.bore = small->inside.value();
    const auto c = solved(job);
    ASSERT_EQ(c.status, Status::fail) << c.says;
    EXPECT_THAT(c.says, HasSubstr("the main's pipe"));
    EXPECT_THAT(c.says, HasSubstr("instead of 1"));
}

TEST(GasSolved, BehindARegulatorItsSettingOrLargerPipeWouldDo) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::gas && p.part == text::Part::pipe && p.bank == 1 && p.heater == 0)
            p.bore *= 0.2;
    const auto c = solved(job);
    ASSERT_EQ(c.status, Status::fail) << c.says;
    // the squared pressure lost behind the regulator does not depend on its setting
    const double air = matter::atmosphere(*job.survey.altitude)->value(), setting = (7.0 * inch_water).value();
    const auto square = [&](double gauge) { return (gauge + air) * (gauge + air); };
    const double more = std::sqrt(square(least(job).value()) + square(setting) - square(c.value->si)) - air - setting;
    EXPECT_THAT(c.says, HasSubstr("A regulator set " + print({more, Kind::gas_pressure}, System::us) + " higher"));
    EXPECT_THAT(c.says, HasSubstr("Larger pipe behind it that would do: bank 1's header"));
}

TEST(GasSolved, AMeterTooSmallSaysByHowMuch) {
    auto job = wash_house();
    const auto load = check(job, "gas.meter").value->si;
    job.survey.gas.meter = {VolumeFlow::from_value(load * 0.9), false};
    const auto c = check(job, "gas.meter");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr(print({load * 0.1, Kind::gas_flow}, System::us)));
    job.survey.gas.other.push_back({"a boiler", 100000.0 * watt});
    EXPECT_GT(check(job, "gas.meter").value->si, load);
}

TEST(GasSolved, ASuddenStopFillsThePipeBehindTheRegulator) {
    std::string id;
    for (const auto& p : wash_house().built.plant.pieces)
        if (p.part == text::Part::regulator) id = p.id;
    ASSERT_FALSE(id.empty());
    const auto c = check(wash_house(), "gas.regulator.sudden." + id);
    EXPECT_EQ(c.status, Status::refer);
    ASSERT_TRUE(c.value);
    double held = 0, flow = 0;
    for (const auto& term : c.derivation.front().given) {
        if (term.symbol == "V") held = term.amount.si;
        if (term.symbol == "Q") flow = term.amount.si;
    }
    // 3.5 inH2O above its setting of 7, at one atmosphere
    EXPECT_NEAR(c.value->si, held * 3.5 * 249.08891 / (101325 * flow), 1e-3 * c.value->si);
    auto wider = wash_house();
    for (auto& p : wider.built.plant.pieces)
        if (p.service == text::Service::gas && p.part == text::Part::pipe) p.bore *= 2;
    EXPECT_GT(check(wider, "gas.regulator.sudden." + id).value->si, 2 * c.value->si);
}

TEST(GasSolved, ARegulatorPassesLessAtALowerInlet) {
    std::string id;
    for (const auto& p : wash_house().built.plant.pieces)
        if (p.part == text::Part::regulator) id = p.id;
    const auto stated = check(wash_house(), "gas.regulator.capacity." + id);
    ASSERT_TRUE(stated.value && stated.limit);
    // the same capacity stated at 4 psi, where some 2 psi come in
    auto job = wash_house();
    for (auto& item : job.catalogue.items)
        if (item.part == text::Part::regulator) item.data["capacity-inlet"] = (4.0 * psi).value();
    ASSERT_TRUE(job.catalogue.index());
    const auto c = check(job, "gas.regulator.capacity." + id);
    ASSERT_EQ(c.derivation.back().given.size(), 4u);
    const auto inlet = c.derivation.back().given[2].amount.si, outlet = (7.0 * inch_water).value();
    EXPECT_LT(inlet, (2.0 * psi).value());
    EXPECT_NEAR(c.limit->si, stated.limit->si * std::sqrt((inlet - outlet) / ((4.0 * psi).value() - outlet)),
                1e-9 * stated.limit->si);
    for (auto& item : job.catalogue.items)
        if (item.part == text::Part::regulator) item.data["capacity"] = 1.1 * stated.value->si;
    ASSERT_TRUE(job.catalogue.index());
    const auto low = check(job, "gas.regulator.capacity." + id);
    EXPECT_EQ(low.status, Status::fail);
    EXPECT_THAT(low.says, HasSubstr("It lacks"));
}

TEST(GasSize, TheBranchLengthMethodStandsBesideTheLongestLength) {
    const auto checks = wash_house().prove();
    int compared = 0;
    for (const auto& c : checks) {
        if (c.id.find("gas.size.") != 0) continue;
        for (const auto& line : c.derivation)
            if (line.says.find("branch-length") != std::string::npos) {
                EXPECT_GE(line.result->amount.si, c.limit->si * (1 - 1e-9))
                    << c.id << ": no branch is longer than the longest";
                ++compared;
            }
    }
    EXPECT_GT(compared, 1);
}

TEST(GasSize, PipeTooThinSaysWhichSizeWouldCarryIt) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::pipe && p.service == text::Service::gas && p.bank == 1 && p.heater == 0)
            p.item = "pipe/steel-40/3/4";
    const auto c = check(job, "gas.size.bank-1");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr("would carry it"));
}

}  // namespace
}  // namespace bw::tests
