// SPDX-License-Identifier: MIT
// The register of checks and what holds it together: every row is made to fail, every check is a row.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <map>
#include <set>

#include "reason/register/register.h"
#include "spoilers.h"

namespace bw::tests {
namespace {

using reason::CheckRow;
using reason::Ends;
using reason::Status;

std::vector<const CheckRow*> rows() {
    std::vector<const CheckRow*> all;
    for (const auto& group : reason::check_register())
        for (const auto& row : group.rows) all.push_back(&row);
    return all;
}

std::vector<const Spoiler*> spoilers() {
    std::vector<const Spoiler*> all;
    for (const auto& table : {demand_spoilers(), water_spoilers(), gas_spoilers(), vent_spoilers(), plant_spoilers()})
        for (const auto& one : table) all.push_back(&one);
    return all;
}

Checks of_row(const Checks& checks, const CheckRow& row) {
    Checks found;
    for (const auto& check : checks)
        if (const auto place = reason::place_of(check.id); place && place->row == &row) found.push_back(check);
    return found;
}

bool any(const Checks& checks, Status status) {
    return std::ranges::any_of(checks, [&](const auto& check) { return check.status == status; });
}

std::string told(const Checks& checks) {
    std::string text;
    for (const auto& check : checks) text += check.id + " " + reason::name(check.status) + ": " + check.says + "\n";
    return text.empty() ? "there is no such check" : text;
}

TEST(Register, EveryRowHasOneSpoilerAndEverySpoilerARow) {
    std::multiset<std::string_view> spoiled;
    for (const auto* one : spoilers()) spoiled.insert(one->row);
    std::set<std::string_view> known;
    for (const auto* row : rows()) {
        EXPECT_TRUE(known.insert(row->id).second) << "twice: " << std::string_view(row->id);
        EXPECT_EQ(spoiled.count(row->id), 1u) << std::string_view(row->id);
    }
    for (const auto& name : spoiled) EXPECT_EQ(known.count(name), 1u) << name << " is no row";
}

/// Nothing fails in the plants that are spoiled, or the failing check would prove nothing.
TEST(Register, NothingFailsBeforeItIsSpoiled) {
    for (const auto* base : {&wash_house(), &hostel(), &racked(), &single_vents()})
        for (const auto& check : base->prove()) EXPECT_NE(check.status, Status::fail) << check.id << ": " << check.says;
}

TEST(Register, EverySpoilerMakesItsCheckFailOrRefer) {
    std::map<std::string_view, const CheckRow*> by_id;
    for (const auto* row : rows()) by_id.emplace(row->id, row);
    for (const auto* spoiler : spoilers()) {
        const auto at = by_id.find(spoiler->row);
        if (at == by_id.end()) continue;
        SCOPED_TRACE(spoiler->row);
        const auto after = of_row(spoiler->spoiled(), *at->second);
        switch (at->second->ends) {
            case Ends::may_fail: EXPECT_TRUE(any(after, Status::fail)) << told(after); break;
            case Ends::only_refers:
                EXPECT_TRUE(any(after, Status::refer)) << told(after);
                EXPECT_FALSE(any(after, Status::fail)) << told(after);
                break;
            case Ends::only_passes: EXPECT_TRUE(after.empty()) << told(after); break;
        }
    }
}

TEST(Register, AnIdLeadsToTheRowThatFitsItBest) {
    const auto row = [](std::string_view id) {
        const auto place = reason::place_of(id);
        return place ? std::string(place->row->id) : "none";
    };
    EXPECT_EQ(row("vent.length.heater-12"), "vent.length.heater-<n>");
    EXPECT_EQ(row("vent.length.vent-1.terminal"), "vent.length.<terminal>");
    EXPECT_EQ(row("gas.size"), "gas.size");
    EXPECT_EQ(row("gas.regulator.sudden.main.gas.regulator"), "gas.regulator.sudden.<piece>");
    EXPECT_EQ(row("parts.main.cold.strainer"), "parts.main.<service>.<thing>");
    EXPECT_EQ(row("gas.pressure.heater-"), "none");
    EXPECT_EQ(row("gas.pressure.heater-x"), "none");
    EXPECT_EQ(row("gas.regulator."), "none");
}

TEST(Register, AChecksTitleAndGroupComeFromItsRow) {
    const auto check = reason::new_check("structure.wall.bank-<b>", {reason::Source{}}, {{"b", 2}, {"w", 4}});
    EXPECT_EQ(check.id, "structure.wall.bank-2");
    EXPECT_EQ(check.title, "Wall 4 carries bank 2");
    EXPECT_EQ(check.service, "structure");
}

TEST(RegisterDeathTest, ACheckThatIsNoRowIsABug) {
    EXPECT_DEATH((void)reason::new_check("gas.nonsense", {}), "no such row");
    EXPECT_DEATH((void)reason::new_check("gas.trap.heater-<n>", {}), "left open");
    Checks checks(1);
    checks[0].id = "gas.nonsense";
    EXPECT_DEATH(reason::in_report_order(checks), "not in the register");
}

TEST(Register, TheDocumentOnDiskIsMadeFromIt) {
    std::ifstream in(BANKWRIGHT_SOURCE "/docs/checks.md");
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    EXPECT_TRUE(text == reason::register_page()) << "run: bankwright checks > docs/checks.md";
}

}  // namespace
}  // namespace bw::tests
