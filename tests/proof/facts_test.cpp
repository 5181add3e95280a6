// SPDX-License-Identifier: MIT
// What the survey says moves the checks that lean on it; figures are worked out again here by hand.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "job.h"

namespace bw::tests {
namespace {

using namespace bw::units;  // NOLINT: quantity names
using reason::Status;
using ::testing::HasSubstr;

TEST(Facts, StaticPressureAbove80PsiWantsAReducer) {
    auto job = wash_house();
    job.survey.supply.pressure = {95.0 * psi, false};
    const auto c = check(job, "water.reducer");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_NEAR(*c.margin, (80.0 - 95.0) / 80.0, 1e-9);
}

TEST(Facts, AMeterTooSmallFailsAndAnUnknownOneRefers) {
    auto job = wash_house();
    job.survey.gas.meter = {2000.0 * cubic_foot_per_hour, false};
    const auto small = check(job, "gas.meter");
    EXPECT_EQ(small.status, Status::fail);
    // eight heaters of 199 kBtu/h and dryers of 480 kBtu/h on gas of the survey's heating value
    const double load = (8 * 199e3 + 480e3) / (*job.survey.gas.heating_value / btu_per_cubic_foot);
    EXPECT_NEAR(small.value->si, si_value(load * cubic_foot_per_hour), 1e-6 * small.value->si);
    job.survey.gas.meter = {VolumeFlow{}, true};
    const auto unknown = check(job, "gas.meter");
    EXPECT_EQ(unknown.status, Status::refer);
    EXPECT_THAT(unknown.says, HasSubstr("gas supplier"));
}

TEST(Facts, IndoorGasAbove5PsiFails) {
    auto job = wash_house();
    job.survey.gas.delivery_pressure = {6.0 * psi, false};
    EXPECT_EQ(check(job, "gas.indoor-pressure").status, Status::fail);
    EXPECT_EQ(check(job, "gas.regulator.inlet.main.gas.regulator").status, Status::fail);
}

TEST(Facts, HardWaterFailsGivenAndRefersAssumed) {
    auto job = wash_house();
    job.survey.supply.hardness = {500, false};
    EXPECT_EQ(check(job, "water.hardness").status, Status::fail);
    job.survey.supply.hardness = {80, true};
    job.survey.assumed.push_back({"supply.hardness", "80", "for this test", false});
    EXPECT_EQ(check(job, "water.hardness").status, Status::refer);
}

TEST(Facts, PeakBeyondTheHeatersFails) {
    auto job = wash_house();
    job.demand.peak = 40.0 * gallon_per_minute;
    EXPECT_EQ(check(job, "capacity.flow").status, Status::fail);
}

TEST(Facts, MoreLinkedThanTheMakerAllowsFails) {
    auto job = wash_house();
    for (auto& heater : job.catalogue.heaters) heater.greatest_group = 7;
    EXPECT_EQ(check(job, "capacity.group").status, Status::fail);
}

TEST(Facts, VelocityIsFlowOverBore) {
    const auto& job = wash_house();
    const auto c = check(job, "water.velocity.main.hot");
    const auto& p = job.built.plant.pieces[static_cast<std::size_t>(job.built.plant.find(c.pieces.front()))];
    EXPECT_NEAR(c.value->si, si_value(job.demand.peak) / (M_PI / 4 * p.bore * p.bore), 1e-9);
}

TEST(Facts, GasPressureIsDeliveryLessTheDropsOfItsWorking) {
    const auto& job = wash_house();
    const auto c = check(job, "gas.pressure.heater-8");
    // the regulator's outlet less every drop after it
    double left = 0;
    bool after = false;
    for (const auto& step : c.derivation) {
        if (!step.result) continue;
        if (step.result->symbol == "P2") left = step.result->amount.si, after = true;
        if (after && (step.result->symbol == "dH" || step.result->symbol == "dHk")) left -= step.result->amount.si;
    }
    ASSERT_TRUE(after);
    EXPECT_NEAR(c.value->si, left, 1e-6);
}

/// IFGC 2018 402.4.1 solved for the drop, written out again with Cr of natural gas at 0.60 as printed (0.6094).
double low_pressure_drop(double q, double length_ft, double bore_in) {
    return 0.6094 * length_ft * std::pow(std::pow(q, 0.381) / (19.17 * bore_in), 1 / 0.206);
}

TEST(Facts, EachDropFollowsTheCodesEquation) {
    const auto c = check(wash_house(), "gas.pressure.heater-8");
    int seen = 0;
    bool after = false;
    for (const auto& step : c.derivation) {
        if (step.result && step.result->symbol == "P2") after = true;
        if (!after || !step.result || step.result->symbol != "dH") continue;
        double q = 0, length = 0, bore = 0;
        for (const auto& term : step.given) {
            if (term.symbol == "Q") q = term.amount.si / si_value(cubic_foot_per_hour);
            if (term.symbol == "L") length = term.amount.si / 0.3048;
            if (term.symbol == "D") bore = term.amount.si / 0.0254;
        }
        const double expected = low_pressure_drop(q, length, bore), got = step.result->amount.si / si_value(inch_water);
        EXPECT_NEAR(got, expected, 0.001 * expected) << step.says;
        ++seen;
    }
    EXPECT_GE(seen, 2);
}

TEST(Facts, NoOutdoorAirWhereThereIsLintFails) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.part == text::Part::intake_terminal)
            for (auto& port : p.ports) port.at = {3, 1.5, 2};
    EXPECT_EQ(check(job, "air.clean").status, Status::fail);
    EXPECT_NE(check(job, "air.volume").status, Status::pass);
}

TEST(Facts, AFireRatedWallWantsFirestops) {
    auto job = wash_house();
    for (auto& wall : job.survey.room.walls) wall.rated = {true, false};
    bool failed = false;
    for (const auto& c : job.prove())
        if (c.id.rfind("room.firestop", 0) == 0) failed = failed || c.status == Status::fail;
    EXPECT_TRUE(failed);
}

TEST(Facts, ACombustibleWallBehindTheHeatersRefers) {
    auto job = wash_house();
    for (auto& wall : job.survey.room.walls) wall.combustible = {true, false};
    const auto c = check(job, "room.combustible.wall-1");
    EXPECT_NE(c.status, Status::pass);
    EXPECT_THAT(c.says, HasSubstr("CAUTION"));
}

TEST(Facts, PastTheAltitudeLimitFails) {
    auto job = wash_house();
    job.survey.altitude = {12000.0 * foot, false};
    EXPECT_EQ(check(job, "capacity.altitude").status, Status::fail);
}

TEST(Facts, ProvingTwiceSaysTheSame) {
    const auto once = wash_house().prove(), again = wash_house().prove();
    ASSERT_EQ(once.size(), again.size());
    for (std::size_t i = 0; i < once.size(); ++i) {
        EXPECT_EQ(once[i].id, again[i].id);
        EXPECT_EQ(once[i].says, again[i].says);
        EXPECT_EQ(once[i].status, again[i].status);
    }
}

}  // namespace
}  // namespace bw::tests
