// SPDX-License-Identifier: MIT
// The neutraliser's bed: how long it lasts and what it makes of the condensate.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "job.h"

namespace bw::tests {
namespace {

using namespace units;  // NOLINT
using reason::Status;
using ::testing::HasSubstr;

std::string bed() {
    for (const auto& p : hostel().built.plant.pieces)
        if (p.part == text::Part::neutraliser) return "condensate.bed." + p.id;
    return {};
}

double term(const reason::Check& c, std::string_view symbol) {
    for (const auto& line : c.derivation) {
        if (line.result && line.result->symbol == symbol) return line.result->amount.si;
        for (const auto& t : line.given)
            if (t.symbol == symbol) return t.amount.si;
    }
    ADD_FAILURE() << "no " << symbol;
    return 0;
}

TEST(CondensateBed, LastsAsLongAsHalfItsMarble) {
    const auto c = check(hostel(), bed());
    EXPECT_EQ(c.status, Status::refer);
    EXPECT_NEAR(c.value->si, term(c, "m") / 2 / (term(c, "V") * term(c, "c")), 1e-6 * c.value->si);
    // flue gas of some 9 % carbon dioxide dissolves a third of a gram a litre, far more than the acid alone
    EXPECT_NEAR(term(c, "c"), 0.37, 0.05);
    EXPECT_LT(term(c, "ca"), 0.1 * term(c, "c"));
    EXPECT_GT(term(c, "pHb"), 6);
    EXPECT_LT(term(c, "pHb"), 7.5);
    EXPECT_THAT(c.says, HasSubstr("Estimate: pH"));
}

TEST(CondensateBed, ABiggerBedOrAShorterDayLastsLonger) {
    const auto c = check(hostel(), bed());
    auto more = hostel();
    for (auto& item : more.catalogue.items)
        if (item.part == text::Part::neutraliser) item.data["medium-mass"] *= 2;
    ASSERT_TRUE(more.catalogue.index());
    const auto twice = check(more, bed());
    EXPECT_NEAR(twice.value->si, 2 * c.value->si, 1e-6 * c.value->si);
    EXPECT_NEAR(term(twice, "n"), 2 * term(c, "n"), 1e-6);
    auto quiet = hostel();
    quiet.demand.day.total = 0.5 * quiet.demand.day.total;
    EXPECT_GT(term(check(quiet, bed()), "n"), 1.2 * term(c, "n"));
}

TEST(CondensateBed, NoMediumNamedFails) {
    auto job = hostel();
    for (auto& item : job.catalogue.items)
        if (item.part == text::Part::neutraliser) item.data.erase("medium-mass");
    ASSERT_TRUE(job.catalogue.index());
    EXPECT_EQ(check(job, bed()).status, Status::fail);
}

}  // namespace
}  // namespace bw::tests
