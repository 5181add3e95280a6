// SPDX-License-Identifier: MIT
// Pressures in the vents against the heaters' fans, and what is said of an idle heater.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job.h"
#include "network/vent_network.h"

namespace bw::tests {
namespace {

using namespace bw::units;  // NOLINT: quantity names
using reason::Status;
using ::testing::HasSubstr;

catalogue::Heater& heater(Job& job) {
    for (auto& each : job.catalogue.heaters)
        if (each.key == job.capacity.heater) return each;
    std::abort();
}

/// The last line of working that gives this symbol.
const reason::Term* term(const reason::Check& check, const std::string& symbol) {
    const reason::Term* found = nullptr;
    for (const auto& step : check.derivation)
        if (step.result && step.result->symbol == symbol) found = &*step.result;
    return found;
}

TEST(VentBackflow, TheFanMeetsThePressureOfTheWorstHeater) {
    auto job = wash_house();
    const auto c = check(job, "vent.fan.vent-1.terminal");
    ASSERT_TRUE(c.value && c.limit);
    EXPECT_NE(c.status, Status::fail);
    // 90 ft up: (1 - 0.0065 * 27.4 / 288.15)^5.256 of sea level's
    EXPECT_NEAR(c.limit->si, 0.99675 * heater(job).fan.value(), 1e-2);
    // heater 1 stands farthest from the way out
    EXPECT_THAT(c.pieces, testing::Contains("heater-1"));
    const auto feed = network::vent_feed(job.survey, heater(job), job.demand, job.capacity);
    ASSERT_TRUE(feed);
    const auto all = network::vent_networks(job.built.plant, job.catalogue, text::Service::exhaust, *feed);
    ASSERT_TRUE(all);
    const auto flows = network::vent_flows(all->front(), *feed);
    ASSERT_TRUE(flows && flows->all);
    for (const auto& port : flows->all->port) EXPECT_LE(port.value(), c.value->si);
}

TEST(VentBackflow, AFanTooWeakFailsAndSaysWhatMends) {
    auto job = wash_house();
    heater(job).fan = 0.5 * check(job, "vent.fan.vent-1.terminal").value->si * pascal;
    const auto c = check(job, "vent.fan.vent-1.terminal");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_NEAR(*c.margin, 1 - 2 / 0.99675, 1e-4);
    EXPECT_THAT(c.says, HasSubstr("second terminal"));
}

TEST(VentBackflow, AFanTheCatalogueDoesNotKnowRefers) {
    auto job = wash_house();
    heater(job).fan = Pressure{};
    EXPECT_EQ(check(job, "vent.fan.vent-1.terminal").status, Status::refer);
}

TEST(VentBackflow, ANarrowerVentMeetsMore) {
    auto job = wash_house();
    const double before = check(job, "vent.fan.vent-1.terminal").value->si;
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::exhaust && p.id.starts_with("vent-1.")) p.bore *= 0.8;
    const auto c = check(job, "vent.fan.vent-1.terminal");
    EXPECT_GT(c.value->si, 1.8 * before);
}

TEST(VentBackflow, AnIdleHeaterIsReferredWithItsFigures) {
    const auto c = check(wash_house(), "vent.idle");
    EXPECT_EQ(c.status, Status::refer);
    EXPECT_THAT(c.says, HasSubstr("CAUTION: carbon monoxide"));
    const auto *shut = term(c, "pi"), *open = term(c, "mb"), *least = term(c, "pl"), *each = term(c, "m");
    ASSERT_TRUE(shut && open && least && each && c.value);
    EXPECT_EQ(c.value->si, shut->amount.si);
    EXPECT_GT(shut->amount.si, 0);
    EXPECT_GT(least->amount.si, shut->amount.si);
    EXPECT_LT(least->amount.si, check(wash_house(), "vent.fan.vent-1.terminal").value->si);
    EXPECT_GT(open->amount.si, 0);
    EXPECT_LT(open->amount.si, 7 * each->amount.si);
}

TEST(VentBackflow, ADamperFailedOpenNeverPasses) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::exhaust) p.bore *= 20;  // next to no pressure at all
    EXPECT_EQ(check(job, "vent.idle").status, Status::refer);
}

TEST(VentBackflow, AirPipesCountBesideTheVentAndRefer) {
    const auto c = check(wash_house(), "vent.air-and-fan");
    EXPECT_EQ(c.status, Status::refer);
    EXPECT_GT(c.value->si, check(wash_house(), "vent.fan.vent-1.terminal").value->si);
}

TEST(VentBackflow, ExhaustTooHotForItsPipeFails) {
    auto job = wash_house();
    job.survey.recirculation.present = {true, false};
    job.survey.recirculation.drop = {10.0 * degF_difference, false};
    // 140 degF less 10 comes back, 30 above it leaves
    const auto c = check(job, "vent.temperature");
    EXPECT_NE(c.status, Status::fail);
    EXPECT_NEAR(c.value->si, si_value(fahrenheit(160)), 0.01);
    for (auto& pipe : job.catalogue.pipes)
        if (pipe.material == text::Material::vent_polypropylene) pipe.greatest = fahrenheit(149);
    EXPECT_EQ(check(job, "vent.temperature").status, Status::fail);
}

TEST(VentCooling, VelocityIsTheFlowOverTheTerminalsBore) {
    const auto c = check(wash_house(), "vent.velocity");
    EXPECT_EQ(c.status, Status::refer);
    const auto& line = c.derivation.front();
    const double flow = line.given[0].amount.si, bore = line.given[1].amount.si;
    EXPECT_NEAR(c.value->si, flow / (M_PI / 4 * bore * bore), 1e-9 * c.value->si);
    EXPECT_LT(c.derivation.back().result->amount.si, c.value->si / 8);
    // 199 kBtu/h of natural gas: some 0.11 kg/s with 25 % excess air for eight, 0.1 m3/s each 1.1 kg/m3
    EXPECT_NEAR(flow, 8 * 0.025, 8 * 0.005);
}

TEST(VentCooling, ALongerVentComesColderAndCondensesMore) {
    auto job = wash_house();
    job.survey.recirculation.present = {true, false};
    job.survey.recirculation.drop = {10.0 * degF_difference, false};
    // at its real least fire the exhaust cools to the room's air on any way: a larger least shows the difference
    EXPECT_NEAR(check(job, "vent.cooling").value->si, 288.15, 0.1);
    for (auto& heater : job.catalogue.heaters) heater.input_least = 0.9 * heater.input_greatest;
    const auto near = check(job, "vent.cooling");
    ASSERT_TRUE(near.value);
    EXPECT_EQ(near.status, Status::refer);
    EXPECT_NEAR(near.derivation.front().given[1].amount.si, si_value(fahrenheit(160)), 0.01);
    EXPECT_LT(near.value->si, si_value(fahrenheit(160)));
    EXPECT_GT(near.value->si, 288.15);
    for (auto& p : job.built.plant.pieces)
        for (auto& port : p.ports)
            if (p.service == text::Service::exhaust) port.at = 3.0 * port.at;
    const auto far = check(job, "vent.cooling");
    EXPECT_LT(far.value->si, near.value->si);
    EXPECT_GT(far.derivation.back().result->amount.si, near.derivation.back().result->amount.si);
}

TEST(VentBackflow, AVentThatCannotBeReadIsSaidToBeUnsolved) {
    auto job = wash_house();
    for (auto& p : job.built.plant.pieces)
        if (p.service == text::Service::exhaust) p.bore = 0;
    const auto checks = job.prove();
    EXPECT_EQ(check(checks, "vent.solved").status, Status::fail);
    const auto idle = check(checks, "vent.idle");
    EXPECT_EQ(idle.status, Status::refer);
    EXPECT_FALSE(idle.value);
}

}  // namespace
}  // namespace bw::tests
