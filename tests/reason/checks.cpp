// SPDX-License-Identifier: MIT
#include <gtest/gtest.h>

#include "reason/json.h"
#include "reason/reason.h"

namespace bw::reason {
namespace {

Check of(double value, double limit, Sense sense) {
    Check check;
    check.sense = sense;
    check.value = units::number(value);
    check.limit = units::number(limit);
    return judged(check);
}

TEST(Judging, AtMostPassesBelowItsLimit) {
    EXPECT_EQ(of(90, 100, Sense::at_most).status, Status::pass);
    EXPECT_DOUBLE_EQ(*of(90, 100, Sense::at_most).margin, 0.1);
    EXPECT_EQ(of(95, 100, Sense::at_most).status, Status::pass);
    EXPECT_EQ(of(95.1, 100, Sense::at_most).status, Status::tight);
    EXPECT_EQ(of(100, 100, Sense::at_most).status, Status::tight);
    EXPECT_EQ(of(100.1, 100, Sense::at_most).status, Status::fail);
    EXPECT_LT(*of(110, 100, Sense::at_most).margin, 0);
}

TEST(Judging, AtLeastPassesAboveItsLimit) {
    EXPECT_EQ(of(110, 100, Sense::at_least).status, Status::pass);
    EXPECT_EQ(of(101, 100, Sense::at_least).status, Status::tight);
    EXPECT_EQ(of(99, 100, Sense::at_least).status, Status::fail);
}

TEST(Judging, ASumThatEndsAtItsLimitIsAtIt) { EXPECT_EQ(of(0.1 + 0.2, 0.3, Sense::at_most).status, Status::tight); }

/// Supports are set out at 95 % of their spacing: the last bit of the quotient does not decide.
TEST(Judging, FivePercentToSpareIsEnoughWhateverTheLastBit) {
    for (int inches = 1; inches < 400; ++inches) {
        const double limit = inches * 0.0254;
        EXPECT_EQ(of(0.95 * limit, limit, Sense::at_most).status, Status::pass) << inches;
        EXPECT_EQ(of(0.9501 * limit, limit, Sense::at_most).status, Status::tight) << inches;
    }
}

TEST(Judging, AZeroLimitHasNoMargin) {
    EXPECT_EQ(of(0, 0, Sense::at_most).status, Status::pass);
    EXPECT_FALSE(of(0, 0, Sense::at_most).margin);
    EXPECT_EQ(of(1, 0, Sense::at_most).status, Status::fail);
}

TEST(Judging, NothingUncomputedPasses) {
    EXPECT_EQ(of(std::nan(""), 1, Sense::at_most).status, Status::fail);
    Check empty;
    empty.sense = Sense::at_most;
    EXPECT_EQ(judged(empty).status, Status::fail);
}

TEST(Judging, TemperaturesCountFromFreezing) {
    Check check;
    check.sense = Sense::at_most;
    check.value = units::amount(units::celsius(45));
    check.limit = units::amount(units::celsius(50));
    EXPECT_NEAR(*judged(check).margin, 0.1, 1e-9);
}

TEST(Proving, HoldsOrFailsAndReferringNeverPasses) {
    EXPECT_EQ(proved({}, true).status, Status::pass);
    EXPECT_EQ(proved({}, false).status, Status::fail);
    const auto referred_to = referred({}, "a licensed engineer decides the anchors");
    EXPECT_EQ(referred_to.status, Status::refer);
    EXPECT_EQ(referred_to.says, "a licensed engineer decides the anchors");
}

TEST(Sources, NameTheirStanding) {
    EXPECT_EQ(print(Source{"IFGC", "2018", "402.4.1", Standing::memory}), "IFGC 2018, 402.4.1 (from memory)");
    EXPECT_EQ(print(Source{"IPC", "2018", "Table E103.3(3)", Standing::published}), "IPC 2018, Table E103.3(3)");
    EXPECT_EQ(print(Source{"", "", "", Standing::common_practice}), "common practice, no source");
}

TEST(Json, CarriesValueUnitAndWorking) {
    Check check;
    check.id = "gas.pressure.heater-7";
    check.sense = Sense::at_least;
    check.value = units::amount(4.2 * units::inch_water, units::Kind::gas_pressure);
    check.limit = units::amount(3.5 * units::inch_water, units::Kind::gas_pressure);
    check.derivation = {
        {"Pressure left", "p = p0 - d", {{"p0", "inlet", *check.value}}, Term{"p", "left", *check.value}}};
    check.sources = {{"IFGC", "2018", "402.5", Standing::published}};
    const auto json = to_json(judged(check), units::System::us);
    EXPECT_EQ(json["status"], "pass");
    EXPECT_EQ(json["value"]["unit"], "inH2O");
    EXPECT_DOUBLE_EQ(json["value"]["value"], 4.2);
    EXPECT_DOUBLE_EQ(json["margin"], 0.2);
    EXPECT_EQ(json["derivation"][0]["formula"], "p = p0 - d");
    EXPECT_EQ(json["source"][0]["standing"], "published");
}

}  // namespace
}  // namespace bw::reason
