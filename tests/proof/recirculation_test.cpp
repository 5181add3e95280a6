// SPDX-License-Identifier: MIT
// The loop: what it takes and loses in the plant, and branch by branch in the building.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "job.h"
#include "matter/pipe_heat.h"
#include "matter/water.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using reason::Check;
using reason::Status;
using ::testing::HasSubstr;

/// The hostel as if its building's loop had not been surveyed.
const Job& unsurveyed() {
    static const Job job = [] {
        auto made = hostel();
        made.survey.recirculation.branches.clear();
        return made;
    }();
    return job;
}

survey::LoopBranch branch(std::string name, double feet, Nominal size = {8}, Nominal back = {6}) {
    survey::LoopBranch b;
    b.name = std::move(name);
    b.length = feet * foot;
    b.size = size;
    b.return_length = {feet * foot, false};
    b.return_size = {back, false};
    b.material = {text::Material::copper_l, false};
    b.insulation = {1.0 * inch, false};
    b.fittings = {0.5, false};
    return b;
}

Job with(std::vector<survey::LoopBranch> branches) {
    auto job = unsurveyed();
    job.survey.recirculation.branches = std::move(branches);
    return job;
}

double term(const Check& c, std::string_view symbol) {
    for (const auto& line : c.derivation) {
        if (line.result && line.result->symbol == symbol) return line.result->amount.si;
        for (const auto& t : line.given)
            if (t.symbol == symbol) return t.amount.si;
    }
    ADD_FAILURE() << c.id << " has no " << symbol;
    return 0;
}

/// The working's line about one branch.
const reason::Step& line_of(const Check& c, const std::string& name) {
    for (const auto& line : c.derivation)
        if (line.says.find(name + ":") == 0) return line;
    ADD_FAILURE() << c.id << " says nothing of " << name;
    return c.derivation.front();
}

TEST(Loop, ABuildingNotSurveyedLeavesWhatThePumpHasOver) {
    const auto c = check(unsurveyed(), "water.recirculation-duty");
    EXPECT_EQ(c.status, Status::refer);
    ASSERT_TRUE(c.value);
    const double own = term(c, "h1") + term(c, "h2");
    EXPECT_NEAR(c.value->si, term(c, "hp") - own, 1e-9);
    EXPECT_GT(own, 0.1);
    // one heater takes the whole loop: no less than its own curve says
    const auto& heater = *unsurveyed().catalogue.heater(unsurveyed().capacity.heater);
    const auto through = catalogue::pressure_drop(heater, unsurveyed().demand.recirculation_flow);
    ASSERT_TRUE(through);
    EXPECT_GT(term(c, "h2"), through->value() / (1000 * 9.80665));
    EXPECT_THAT(c.derivation[2].says, HasSubstr("1 open heater"));
}

TEST(Loop, HeadFromTheLoopsDesignerDecides) {
    auto job = unsurveyed();
    job.survey.recirculation.head = 1.0 * foot;
    const auto holds = check(job, "water.recirculation-duty");
    ASSERT_TRUE(holds.value && holds.limit);
    EXPECT_NE(holds.status, Status::fail) << holds.says;
    job.survey.recirculation.head = 60.0 * foot;
    const auto c = check(job, "water.recirculation-duty");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr("It lacks " + print({c.limit->si - c.value->si, Kind::long_length}, System::us)));
}

TEST(Loop, LikeBranchesShareAlikeWithOpenValves) {
    const auto c = check(with({branch("east", 100), branch("west", 100)}), "water.recirculation-balance");
    EXPECT_NE(c.status, Status::fail) << c.says;
    const auto &east = line_of(c, "east"), &west = line_of(c, "west");
    EXPECT_NEAR(east.result->amount.si, west.result->amount.si, 1e-9);
    EXPECT_NEAR(east.result->amount.si, term(c, "Cv0"), 1e-9) << "none has to be closed";
    EXPECT_NEAR(term(c, "V"), unsurveyed().demand.recirculation_flow.value() / 2, 1e-12);
}

TEST(Loop, TheShortBranchIsThrottledToWhatTheLongOneTakes) {
    const auto job = with({branch("near", 30), branch("far", 200)});
    const auto c = check(job, "water.recirculation-balance");
    const auto &near = line_of(c, "near"), &far = line_of(c, "far");
    const auto of = [](const reason::Step& line, std::string_view symbol) {
        for (const auto& t : line.given)
            if (t.symbol == symbol) return t.amount.si;
        return 0.0;
    };
    EXPECT_NEAR(far.result->amount.si, of(far, "Cv0"), 1e-9);
    EXPECT_LT(near.result->amount.si, 0.5 * of(near, "Cv0"));
    EXPECT_NEAR(of(near, "hp") + of(near, "dp"), of(far, "hp") + of(far, "dp"), 1e-6) << "both ways take as much";
    // gpm at 1 psi, of water a little lighter than at 60 degF
    const double gpm = of(near, "V") / (1.0 * gallon_per_minute).value(),
                 psi_lost = of(near, "dp") / (1.0 * psi).value();
    EXPECT_NEAR(near.result->amount.si, gpm / std::sqrt(psi_lost), 0.01 * near.result->amount.si);
    // heat goes with the length: flows needed stand as the losses
    EXPECT_NEAR(of(far, "V") / of(near, "V"), 200.0 / 30, 1e-6);
    // with its valve open the short one robs the long one
    const auto unset = near.says.substr(0, near.says.find("; set"));
    EXPECT_THAT(far.says, HasSubstr("wide open"));
    EXPECT_NE(unset, near.says);
}

TEST(Loop, ComesBackAsWarmAsItsHeatAndFlowSay) {
    const auto job = with({branch("only", 100)});
    const auto checks = job.prove();
    const auto loss = term(check(checks, "water.recirculation-loss"), "H");
    const auto back = check(checks, "water.recirculation-return");
    const auto balance = check(checks, "water.recirculation-balance");
    const double flow = balance.value->si * term(balance, "V");
    const auto water = matter::water(job.demand.hot - *job.survey.recirculation.drop);
    ASSERT_TRUE(water && back.value);
    EXPECT_NEAR(back.value->si,
                job.demand.hot.value() - loss / (flow * (water->density * water->heat_capacity).value()), 1e-6);
    // 100 ft of 1 in and 100 ft of 3/4 in with an inch of mineral fibre
    const matter::Pipework out{text::Material::copper_l, 1.125 * inch, 1.025 * inch, matter::Insulation::mineral_fibre,
                               1.0 * inch};
    const matter::Pipework home{text::Material::copper_l, 0.875 * inch, 0.785 * inch, matter::Insulation::mineral_fibre,
                                1.0 * inch};
    const auto a = matter::pipe_heat(out, job.demand.hot, fahrenheit(70), 100.0 * foot);
    const auto b =
        matter::pipe_heat(home, job.demand.hot - *job.survey.recirculation.drop, fahrenheit(70), 100.0 * foot);
    ASSERT_TRUE(a && b);
    EXPECT_NEAR(loss, (a->loss + b->loss).value(), 1e-6 * loss);
}

TEST(Loop, HeatBeyondWhatWasAllowedFailsAndSaysHowMuch) {
    auto job = with({branch("east", 400), branch("west", 400)});
    for (auto& b : job.survey.recirculation.branches) b.insulation = {Length{}, false};
    const auto c = check(job, "water.recirculation-loss");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr(print({c.value->si - c.limit->si, Kind::heat_rate}, System::us)));
    for (auto& b : job.survey.recirculation.branches) b.insulation = {2.0 * inch, false};
    EXPECT_LT(check(job, "water.recirculation-loss").value->si, c.value->si / 4);
}

TEST(Loop, ALoopThatCannotBeMovedFailsAndSaysWhatWouldDo) {
    const auto checks = with({branch("near", 30), branch("far", 1500, {6}, {4})}).prove();
    const auto pump = check(checks, "water.recirculation-duty");
    EXPECT_EQ(pump.status, Status::fail);
    EXPECT_THAT(pump.says, HasSubstr("It lacks"));
    const auto balance = check(checks, "water.recirculation-balance");
    EXPECT_EQ(balance.status, Status::fail);
    EXPECT_LT(balance.value->si, 1);
    EXPECT_THAT(balance.says, HasSubstr("a return larger than 1/2 on far"));
}

TEST(Loop, TooFastInItsReturn) {
    auto job = with({branch("east", 8, {8}, {4})});
    job.demand.recirculation_flow = 5.0 * gallon_per_minute;
    const auto c = check(job, "water.recirculation-velocity");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr("east"));
    EXPECT_NEAR(c.limit->si, 3 * 0.3048, 1e-9);
}

TEST(Loop, ThePlantsPipeIsInsulatedByTheEnergyCode) {
    const auto c = check(unsurveyed(), "water.insulation");
    EXPECT_EQ(c.status, Status::refer);
    double sum = 0;
    for (const auto& line : c.derivation) {
        EXPECT_GE(line.given[2].amount.si, 0.0254);
        sum += line.result->amount.si;
    }
    EXPECT_NEAR(c.value->si, sum, 1e-6);
    EXPECT_THAT(c.says, HasSubstr("bare it would lose"));
}

TEST(Loop, APipeTheCatalogueLacksIsNamed) {
    auto b = branch("east", 60);
    b.material = {text::Material::stainless_10s, false};
    b.size = {200};
    const auto c = check(with({b}), "water.recirculation-duty");
    EXPECT_EQ(c.status, Status::fail);
    EXPECT_THAT(c.says, HasSubstr("east"));
}

}  // namespace
}  // namespace bw::tests
