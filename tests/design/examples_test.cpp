// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>

#include <algorithm>
#include <cctype>
#include <set>

#include "laws.h"
#include "layout/layout.h"

namespace bw::test {
namespace {

class Examples : public ::testing::TestWithParam<const char*> {
protected:
    static survey::Survey survey() {
        auto s = survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + GetParam() + ".toml");
        EXPECT_TRUE(s) << (s ? "" : units::describe(s.error()));
        return *s;
    }
    static design::Result designed() {
        auto r = design::run(survey(), *catalogue::load());
        EXPECT_TRUE(r) << (r ? "" : units::describe(r.error()));
        return *r;
    }
};
INSTANTIATE_TEST_SUITE_P(All, Examples, ::testing::Values("hostel", "wash-house", "sports-hall"));

TEST_P(Examples, KeepTheLaws) { expect_lawful(designed()); }

TEST_P(Examples, NoCheckFailsAndEveryCheckExplainsItself) {
    std::set<std::string> ids;
    for (const auto& check : designed().checks) {
        EXPECT_NE(check.status, reason::Status::fail) << check.id << ": " << check.says;
        EXPECT_TRUE(ids.insert(check.id).second) << "twice: " << check.id;
        EXPECT_FALSE(check.title.empty()) << check.id;
        EXPECT_FALSE(check.sources.empty()) << check.id;
        if (check.status == reason::Status::refer) {
            EXPECT_FALSE(check.says.empty()) << check.id;
        }
        if (check.value && check.limit && check.sense != reason::Sense::yes && check.limit->si != 0) {
            EXPECT_TRUE(check.margin) << check.id;
        }
    }
    EXPECT_GT(ids.size(), 60u);
}

/// Ids of pieces that stand in a text.
std::vector<std::string> ids_in(const std::string& text, const plant::Plant& plant) {
    std::vector<std::string> found;
    std::string word;
    for (const char c : text + " ") {
        if (std::islower(static_cast<unsigned char>(c)) || std::isdigit(static_cast<unsigned char>(c)) || c == '-' ||
            c == '.') {
            word += c;
            continue;
        }
        while (word.ends_with('.')) word.pop_back();
        if (plant.find(word) >= 0) found.push_back(word);
        word.clear();
    }
    return found;
}

TEST_P(Examples, ChecksNamePiecesInWords) {
    const auto result = designed();
    const auto& plant = result.chosen->built.plant;
    ASSERT_EQ(ids_in("The gas of heater-1, by heater-1.gas.valve.", plant).size(), 2u);
    for (const auto& check : result.checks) {
        EXPECT_THAT(ids_in(check.title, plant), testing::IsEmpty()) << check.id;
        EXPECT_THAT(ids_in(check.says, plant), testing::IsEmpty()) << check.id;
        for (const auto& step : check.derivation) EXPECT_THAT(ids_in(step.says, plant), testing::IsEmpty()) << check.id;
    }
}

TEST_P(Examples, FirmCapacityCoversThePeak) {
    const auto r = designed();
    EXPECT_GE(r.capacity.flow_firm.value(), r.demand.peak.value() * (1 - 1e-9));
    EXPECT_EQ(r.capacity.installed, r.capacity.needed + r.capacity.spare);
}

TEST_P(Examples, OneLessPressureOfGasIsNoticed) {
    auto s = survey();
    s.gas.delivery_pressure.value = units::Pressure::from_value(500);  // 2 inH2O starves every heater
    const auto r = design::run(s, *catalogue::load());
    if (!r) return;  // refused by name
    EXPECT_EQ(r->exit_status(), 2);
    bool gas = false;
    for (const auto& check : r->checks)
        gas = gas || (check.status == reason::Status::fail && check.id.starts_with("gas."));
    EXPECT_TRUE(gas);
}

TEST_P(Examples, WithoutAdoptedCodesNothingIsCalledProved) {
    auto s = survey();
    s.codes.clear();
    const auto with = design::tally(designed().checks),
               without = design::tally(design::run(s, *catalogue::load())->checks);
    EXPECT_GT(without.refer, with.refer + 10);
    EXPECT_LT(without.pass, with.pass);
}

TEST(SportsHall, AMainWithoutItsExpansionTeeSaysSo) {
    auto survey = survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/sports-hall.toml");
    ASSERT_TRUE(survey);
    ASSERT_TRUE(*survey->supply.closed);
    const auto catalogue = catalogue::load();
    const auto demand = demand::peak_demand(*survey);
    const auto capacity = demand::capacity(*survey, *demand, *catalogue);
    int without = 0;
    const auto start = survey->room.cold.at;
    for (int step = 0; step < 24 && without == 0; ++step) {
        survey->room.cold.at = start + shape::Vec{0, (step - 10) * 4 * 0.0254, 0};
        const auto layouts =
            layout::candidates(*survey, *catalogue->heater(capacity->heater), capacity->installed, 12).candidates;
        for (const auto& layout : layouts) {
            const auto built = piping::build(*survey, *catalogue, *demand, *capacity, layout);
            if (!built || built->plant.find("main.cold.expansion-tee") >= 0) continue;
            ++without;
            EXPECT_TRUE(std::ranges::any_of(built->findings, [](const auto& finding) {
                return finding.id == "parts.main.cold.expansion-tee" && finding.status == reason::Status::fail;
            })) << layout.id;
        }
    }
    EXPECT_GT(without, 0);
}

}  // namespace
}  // namespace bw::test
