// SPDX-License-Identifier: MIT
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "rooms.h"

using namespace bw;
using namespace bw::layout::tests;
using plant::Arrangement;
using survey::ArrangementPreference;
using testing::Contains;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

namespace {

plant::Layouts fit(const survey::Survey& s, int count) { return layout::candidates(s, heater(), count); }

survey::Survey preferring(survey::Survey s, ArrangementPreference preference) {
    s.preferences.arrangement = {preference, false};
    return s;
}

const plant::Layout* find(const plant::Layouts& found, std::string_view family) {
    for (const auto& c : found.candidates)
        if (c.family == family) return &c;
    return nullptr;
}

const plant::Shortfall* short_of(const plant::Layouts& found, std::string_view arrangement) {
    for (const auto& s : found.shortfalls)
        if (s.arrangement == arrangement) return &s;
    return nullptr;
}

// four heaters of 18-1/2 in with 2-1/2 in between: 3 x 21 + 18-1/2, and 12 + 4 at the ends (common practice: three
// elbows turning up at 4 in; a cap); 30 in to work in (IFGC 306.1)
constexpr double four_long = (3 * 21 + 18.5 + 16) * in;
constexpr double wall_deep = (13 + 30) * in;

}  // namespace

TEST(WallFit, AWallExactlyLongEnoughIsEnough) {
    const auto s = preferring(rectangle(four_long, wall_deep), ArrangementPreference::wall);
    const auto found = fit(s, 4);
    ASSERT_NE(find(found, "wall-1"), nullptr);
    const auto& bank = find(found, "wall-1")->banks.front();
    EXPECT_NEAR(bank.length, four_long, 1e-9);
    EXPECT_EQ(bank.wall, 0);
    EXPECT_EQ(bank.stands.size(), 4u);
    // nobody works before the ends
    EXPECT_NEAR(find(found, "wall-1")->floor_area, four_long * 13 * in + (four_long - 8 * in) * 30 * in, 1e-9);
}

TEST(WallFit, ASixteenthLessIsShortByASixteenth) {
    const auto s = preferring(rectangle(four_long - in / 16, wall_deep), ArrangementPreference::wall);
    const auto found = fit(s, 4);
    EXPECT_THAT(found.candidates, IsEmpty());
    const auto* wall = short_of(found, "wall-1");
    ASSERT_NE(wall, nullptr);
    EXPECT_NEAR(wall->need, four_long, 1e-9);
    EXPECT_NEAR(wall->have, four_long - in / 16, 1e-9);
    EXPECT_THAT(wall->what, HasSubstr("1/16 in short"));
    EXPECT_THAT(wall->remedy, HasSubstr("or take 3 heaters of this model here"));
}

TEST(WallFit, TheShortfallIsTrueGivenThatMuchMoreItFits) {
    int lengths = 0, depths = 0;
    for (double x : {40.0, 51.0, 66.0, 94.0, 176.0})
        for (double y : {24.0, 34.0, 41.0, 42.9375, 54.0})
            for (int count : {2, 4, 7}) {
                const auto s = preferring(rectangle(x * in, y * in), ArrangementPreference::wall);
                const auto found = fit(s, count);
                double dx = 0, dy = 0;
                for (const auto& f : found.shortfalls) {
                    if (f.arrangement != "wall-1") continue;
                    const bool length = f.what.find("in line take") != std::string::npos;
                    (length ? dx : dy) += f.need - f.have;
                    ++(length ? lengths : depths);
                }
                if (dx == 0 && dy == 0) {
                    EXPECT_NE(find(found, "wall-1"), nullptr);
                    continue;
                }
                EXPECT_EQ(find(found, "wall-1"), nullptr);
                const auto more = preferring(rectangle(x * in + dx, y * in + dy), ArrangementPreference::wall);
                EXPECT_NE(find(fit(more, count), "wall-1"), nullptr) << x << " " << y << " " << count;
                const double less_x = dx > 0 ? dx - in / 16 : 0, less_y = dy > 0 ? dy - in / 16 : 0;
                const auto nearly =
                    preferring(rectangle(x * in + less_x, y * in + less_y), ArrangementPreference::wall);
                EXPECT_EQ(find(fit(nearly, count), "wall-1"), nullptr) << x << " " << y << " " << count;
            }
    EXPECT_GT(lengths, 10);
    EXPECT_GT(depths, 10);
}

TEST(WallFit, ADoorInTheWallLeavesTheStretchBesideIt) {
    auto s = preferring(rectangle(20 * ft, 10 * ft), ArrangementPreference::wall);
    add_door(s, 0, 8 * ft, 3 * ft, true);
    const auto found = fit(s, 5);
    EXPECT_EQ(find(found, "wall-1"), nullptr);
    const auto* wall = short_of(found, "wall-1");
    ASSERT_NE(wall, nullptr);
    EXPECT_NEAR(wall->have, 9 * ft, 1e-9);
    EXPECT_THAT(wall->what, AllOf(HasSubstr("wall 1 is 9 ft clear"), HasSubstr("the door in wall 1")));
    EXPECT_NE(find(fit(s, 3), "wall-1"), nullptr);
    EXPECT_NE(find(found, "wall-3"), nullptr) << "ten feet leave room behind the door's swing";
}

TEST(WallFit, AnObstacleBelowOrAboveABankIsNotInItsWay) {
    auto s = preferring(rectangle(four_long, 10 * ft, 12 * ft), ArrangementPreference::wall);
    const auto put = [&](double low, double high) {
        s.room.obstacles = {{"beam", {{2 * ft, 0, low}, {3 * ft, 8 * in, high}}}};
        return find(fit(s, 4), "wall-1") != nullptr;
    };
    EXPECT_TRUE(put(0, 3 * in)) << "a kerb under the condensate line";
    EXPECT_FALSE(put(0, 15 * in));
    EXPECT_FALSE(put(5 * ft, 6 * ft));
    EXPECT_TRUE(put(11 * ft, 12 * ft)) << "a beam above the vents";
    s.room.obstacles = {{"pump", {{2 * ft, 30 * in, 0}, {3 * ft, 40 * in, 2 * ft}}}};
    EXPECT_EQ(find(fit(s, 4), "wall-1"), nullptr) << "in the working space";
    EXPECT_THAT(short_of(fit(s, 4), "wall-1")->what, HasSubstr("wall 1"));
}

TEST(WallFit, AWallAtAnAngleCarriesNothingAndSaysSo) {
    const auto s = preferring(room({{0, 0}, {20 * ft, 0}, {20 * ft, 10 * ft}, {10 * ft, 16 * ft}, {0, 10 * ft}}),
                              ArrangementPreference::wall);
    const auto found = fit(s, 3);
    for (const char* id : {"wall-3", "wall-4"}) {
        ASSERT_NE(short_of(found, id), nullptr);
        EXPECT_THAT(short_of(found, id)->what, HasSubstr("stands at an angle"));
    }
    EXPECT_NE(find(found, "wall-1"), nullptr);
}

TEST(WallFit, HeatersStandOffAWallThatBurnsOrIsLightOnStrutAcrossItsStuds) {
    auto s = preferring(rectangle(20 * ft, 10 * ft), ArrangementPreference::wall);
    auto h = heater();
    h.combustible = 1.0 * units::inch;
    s.room.walls[0].combustible = {true, false};
    s.room.walls[1].build = {survey::WallBuild::steel_stud, false};
    const auto found = layout::candidates(s, h, 3);
    for (const char* family : {"wall-1", "wall-2"}) {
        ASSERT_NE(find(found, family), nullptr) << family;
        EXPECT_NEAR(find(found, family)->banks[0].depth_back, 1.625 * in, 1e-12) << "the height of strut channel";
    }
    EXPECT_NEAR(find(found, "wall-1")->banks[0].place.origin.y, 1.625 * in, 1e-12);
    EXPECT_EQ(find(found, "wall-3")->banks[0].depth_back, 0) << "concrete takes anchors itself";
}

TEST(WallFit, APipeOutOfTheWallKeepsOffHeatersAndNoHeaders) {
    auto s = preferring(rectangle(four_long, wall_deep), ArrangementPreference::wall);
    const auto with_gas_at = [&](double height) {
        s.room.gas = connection({four_long / 2, 0, height}, {0, 1, 0});
        return find(fit(s, 4), "wall-1") != nullptr;
    };
    EXPECT_TRUE(with_gas_at(18 * in)) << "a stub under the headers is where it belongs";
    EXPECT_FALSE(with_gas_at(57 * in)) << "behind a heater at every height it may hang";
    EXPECT_TRUE(with_gas_at(9 * ft));
}

TEST(Ceiling, LowersTheHeatersThenIsShort) {
    // 28 in of heater and 12 in above it, in which a single vent turns, over 33 in for cold and gas headers abreast
    const double least = (33 + 28 + 12) * in;
    const auto bottom = [](double ceiling) {
        return fit(rectangle(20 * ft, 20 * ft, ceiling), 2).candidates.front().banks.front().bottom;
    };
    EXPECT_NEAR(bottom(12 * ft), 50 * in, 1e-9);
    EXPECT_NEAR(bottom(8 * ft), 38 * in, 1e-9) << "30 in over the heaters for the vents, as long as 38 in are below";
    EXPECT_NEAR(bottom(least), 33 * in, 1e-9);
    const auto low = fit(rectangle(20 * ft, 20 * ft, least - 5 * in), 2);
    EXPECT_THAT(low.candidates, IsEmpty());
    ASSERT_EQ(low.shortfalls.size(), 1u);
    EXPECT_NEAR(low.shortfalls[0].need - low.shortfalls[0].have, 5 * in, 1e-9);
    EXPECT_THAT(low.shortfalls[0].what, HasSubstr("5 in short"));
    auto common = rectangle(20 * ft, 20 * ft, least);
    common.preferences.vent = {survey::VentPreference::common, false};
    const auto shut = fit(common, 2);
    EXPECT_THAT(shut.candidates, IsEmpty());
    EXPECT_NEAR(shut.shortfalls[0].need - shut.shortfalls[0].have, 3 * in, 1e-9) << "collar, damper, tee, radius: 15";
    EXPECT_THAT(shut.shortfalls[0].remedy, HasSubstr("single vents"));
}

TEST(Racks, TwoSidedStandsHalfOnEachSideAndCanBeWalkedRound) {
    // back to back: 2 x (9 + 13) in, 30 in to work on each side, 36 in past one end
    const double deep = (2 * 22 + 2 * 30) * in, lengthwise = four_long - 42 * in + 36 * in;
    const auto s = preferring(rectangle(lengthwise, deep), ArrangementPreference::rack_two_sided);
    const auto found = fit(s, 3);
    ASSERT_THAT(found.candidates, Not(IsEmpty()));
    const auto& bank = found.candidates.front().banks.front();
    EXPECT_EQ(std::count_if(bank.stands.begin(), bank.stands.end(), [](auto& x) { return x.side == 0; }), 2);
    EXPECT_NEAR(bank.back_plane, 9 * in, 1e-12);
    EXPECT_NEAR(bank.depth_front, 22 * in, 1e-9);
    for (double less : {1.0, 0.0}) {
        const auto tight = preferring(rectangle(lengthwise - less * in, deep - (1 - less) * in),
                                      ArrangementPreference::rack_two_sided);
        const auto none = fit(tight, 4);
        EXPECT_THAT(none.candidates, IsEmpty());
        ASSERT_THAT(none.shortfalls, Not(IsEmpty()));
        EXPECT_NEAR(none.shortfalls[0].need - none.shortfalls[0].have, 1 * in, 1e-9);
    }
}

TEST(Racks, TheShortfallIsTrueGivenThatMuchMoreItFits) {
    for (auto preference : {ArrangementPreference::rack_one_sided, ArrangementPreference::rack_two_sided})
        for (double x : {70.0, 100.0, 150.0})
            for (double y : {60.0, 90.0, 100.0})
                for (int count : {3, 6}) {
                    const auto found = fit(preferring(rectangle(x * in, y * in), preference), count);
                    if (!found.candidates.empty()) continue;
                    ASSERT_THAT(found.shortfalls, Not(IsEmpty()));
                    double along = 0, across = 0;
                    for (const auto& f : found.shortfalls)
                        (f.what.find(" long;") != std::string::npos ? along : across) += f.need - f.have;
                    const bool fits = !fit(preferring(rectangle(x * in + along, y * in + across), preference), count)
                                           .candidates.empty() ||
                                      !fit(preferring(rectangle(x * in + across, y * in + along), preference), count)
                                           .candidates.empty();
                    EXPECT_TRUE(fits) << x << " " << y << " " << count << " " << found.shortfalls[0].what;
                }
}

TEST(Banks, PastEightInALineThePlantIsSplit) {
    const auto found = fit(rectangle(40 * ft, 30 * ft), 13);
    ASSERT_THAT(found.candidates, Not(IsEmpty()));
    for (const auto& c : found.candidates) {
        ASSERT_EQ(c.banks.size(), 2u) << c.id;
        EXPECT_EQ(c.banks[0].stands.size() + c.banks[1].stands.size(), 13u);
        EXPECT_LE(c.banks[0].stands.size(), 8u);
    }
    std::set<std::string> families;
    for (const auto& c : found.candidates) families.insert(c.family);
    for (const char* id :
         {"wall-1-1", "wall-1-2", "rack-one-sided-1-rows-2", "rack-two-sided-1-line-2", "rack-two-sided-1-rows-2"})
        EXPECT_THAT(families, Contains(id));
    const auto* in_line = find(found, "wall-1-1");
    EXPECT_TRUE(in_line->banks[0].mirrored) << "two in line are fed from between them";
    EXPECT_FALSE(in_line->banks[1].mirrored);
}

TEST(Banks, PastSixteenThereAreMoreAssemblies) {
    const auto found = fit(rectangle(60 * ft, 40 * ft), 20);
    ASSERT_THAT(found.candidates, Not(IsEmpty()));
    for (const auto& c : found.candidates) {
        EXPECT_EQ(c.banks.back().assembly, 2);
        EXPECT_THAT(Judge(rectangle(60 * ft, 40 * ft), heater(), 20).faults(c), IsEmpty());
    }
    EXPECT_THAT(fit(rectangle(12 * ft, 10 * ft), 20).candidates, IsEmpty());
    EXPECT_THAT(fit(rectangle(12 * ft, 10 * ft), 20).shortfalls, Not(IsEmpty()));
}

TEST(Banks, TheFeedEndIsTheOneNearerTheConnections) {
    auto s = preferring(rectangle(20 * ft, 8 * ft), ArrangementPreference::wall);
    s.room.gas = connection({20 * ft, 4 * ft, 2 * ft}, {-1, 0, 0});
    const auto right = fit(s, 3);
    s.room.gas = connection({0, 4 * ft, 2 * ft}, {1, 0, 0});
    const auto left = fit(s, 3);
    EXPECT_TRUE(find(right, "wall-1")->banks.front().mirrored);
    EXPECT_FALSE(find(left, "wall-1")->banks.front().mirrored);
    EXPECT_TRUE(std::any_of(right.candidates.begin(), right.candidates.end(), [](const auto& c) {
        return !c.banks.front().mirrored;
    })) << "the other end stays on offer";
}

TEST(Banks, OneLineMayStandRoundACornerFacingOrFedFromTheMiddle) {
    const auto found = fit(preferring(rectangle(24 * ft, 12 * ft), ArrangementPreference::wall), 6);
    for (const char* family : {"wall-1", "wall-1-2", "wall-1-3"}) EXPECT_NE(find(found, family), nullptr) << family;
    EXPECT_TRUE(std::ranges::any_of(found.candidates, [](const auto& c) {
        return c.family == "wall-1-1" && c.banks.size() == 2 && c.banks[0].mirrored && !c.banks[1].mirrored;
    })) << "two halves in line, fed from between them";
}

TEST(Banks, TwoShortWallsCarryWhatNoLongOneDoes) {
    const auto found = fit(preferring(rectangle(12 * ft, 12 * ft), ArrangementPreference::wall), 8);
    EXPECT_EQ(find(found, "wall-1"), nullptr);
    EXPECT_NE(find(found, "wall-1-3"), nullptr);
}

TEST(Places, EveryCandidateIsFoundAgainByItsName) {
    std::mt19937 rng(77);
    int asked = 0;
    for (int k = 0; k < 40; ++k) {
        auto s = random_room(rng);
        const int count = std::uniform_int_distribution<int>(2, 12)(rng);
        for (const auto& c : fit(s, count).candidates) {
            const auto one = layout::candidates(s, heater(), count, 24, c.id);
            ASSERT_EQ(one.candidates.size(), 1u) << c.id;
            EXPECT_EQ(one.candidates[0].id, c.id);
            EXPECT_EQ(one.candidates[0].says, c.says);
            s.preferences.place = c.id;
            EXPECT_EQ(fit(s, count).candidates.size(), 1u) << "as the survey's preference";
            s.preferences.place.reset();
            ++asked;
        }
    }
    EXPECT_GT(asked, 300);
}

TEST(Places, AFamilyAskedForGivesThatFamily) {
    const auto found = layout::candidates(rectangle(30 * ft, 20 * ft), heater(), 5, 24, "wall-3");
    ASSERT_THAT(found.candidates, Not(IsEmpty()));
    for (const auto& c : found.candidates) EXPECT_EQ(c.family, "wall-3");
}

TEST(Places, AnyPlaceAlongAWallMayBeAskedForWhereItIsFree) {
    auto s = rectangle(30 * ft, 20 * ft);
    const auto found = layout::candidates(s, heater(), 4, 24, "wall-1-at-37.0625");
    ASSERT_EQ(found.candidates.size(), 1u);
    EXPECT_NEAR(found.candidates[0].banks[0].place.origin.x, 37.0625 * in, 1e-9);
    s.room.obstacles.push_back({"column", {{100 * in, 0, 0}, {110 * in, 10 * in, 9 * ft}}});
    const auto shut = layout::candidates(s, heater(), 4, 24, "wall-1-at-37.0625");
    EXPECT_THAT(shut.candidates, IsEmpty());
    ASSERT_EQ(shut.shortfalls.size(), 1u);
    EXPECT_THAT(shut.shortfalls[0].what, HasSubstr("wall 1"));
    EXPECT_THAT(shut.shortfalls[0].remedy, HasSubstr("wall-1-at-2.5"));
    EXPECT_THAT(layout::candidates(s, heater(), 4, 24, "wall-1-at-2.5").candidates, Not(IsEmpty()));
}

TEST(Places, ANameOfNothingListsThoseThatFit) {
    for (const char* name : {"wall-9", "the corner", "wall-1-at-", "wall-1-at-x", "wall-1-at-5-fed-0", "rack"}) {
        const auto found = layout::candidates(rectangle(30 * ft, 20 * ft), heater(), 4, 24, name);
        EXPECT_THAT(found.candidates, IsEmpty()) << name;
        ASSERT_EQ(found.shortfalls.size(), 1u) << name;
        EXPECT_THAT(found.shortfalls[0].what, HasSubstr(name));
        EXPECT_THAT(found.shortfalls[0].remedy, HasSubstr("wall-1,"));
    }
}

TEST(Preferences, OnlyTheArrangementAskedForIsOffered) {
    for (auto [preference, kind] : {std::pair{ArrangementPreference::wall, Arrangement::wall},
                                    std::pair{ArrangementPreference::rack_one_sided, Arrangement::rack_one_sided},
                                    std::pair{ArrangementPreference::rack_two_sided, Arrangement::rack_two_sided}}) {
        const auto found = fit(preferring(rectangle(24 * ft, 20 * ft), preference), 4);
        ASSERT_THAT(found.candidates, Not(IsEmpty()));
        for (const auto& c : found.candidates) EXPECT_EQ(c.arrangement, kind);
    }
}

TEST(Completeness, AWallWhereAnyPlaceHoldsTheBankIsOffered) {
    std::mt19937 rng(31);
    int offered = 0;
    for (int k = 0; k < 150; ++k) {
        const auto s = preferring(random_room(rng), ArrangementPreference::wall);
        const int count = std::uniform_int_distribution<int>(1, 8)(rng);
        if (s.room.ceiling->value() < 108 * in) continue;
        const auto found = fit(s, count);
        const double bottom = 50 * in;
        const double whole = (16 + 21 * (count - 1) + 18.5) * in;
        for (int wall = 0; wall < static_cast<int>(s.room.plan.size()); ++wall) {
            const auto a = s.room.plan[static_cast<std::size_t>(wall)];
            const auto b = s.room.plan[static_cast<std::size_t>(wall + 1) % s.room.plan.size()];
            if (a.x != b.x && a.y != b.y) continue;
            const int turns = a.y == b.y ? (b.x > a.x ? 0 : 2) : (b.y > a.y ? 1 : 3);
            const double along = std::abs(b.x - a.x) + std::abs(b.y - a.y);
            bool somewhere = false;
            for (double u = 0; u <= along - whole && !somewhere; u += 3 * in) {
                plant::Bank bank;
                bank.place = {turns,
                              {a.x + (b.x > a.x   ? u
                                      : b.x < a.x ? -u
                                                  : 0),
                               a.y + (b.y > a.y   ? u
                                      : b.y < a.y ? -u
                                                  : 0),
                               0}};
                bank.wall = wall;
                bank.length = whole;
                bank.depth_front = 13 * in;
                bank.bottom = bottom;
                // fed from either end
                const auto good = [&](double first) {
                    bank.stands.clear();
                    bank.mirrored = first < 12 * in;
                    for (int i = 0; i < count; ++i) bank.stands.push_back({i + 1, 0, first + 21 * i * in});
                    plant::Layout layout;
                    layout.banks = {bank};
                    layout.working_space = {{}};
                    return Judge(s, heater(), count).faults(layout).empty();
                };
                if (!good(12 * in) || !good(4 * in)) continue;
                // what the judge does not look at: points of connection and the panel
                const shape::Vec p = bank.place({0, 0, 0}), q = bank.place({whole, 13 * in, 0});
                const auto near = [&](const survey::Connection& c, double reach) {
                    return c.at.x > std::min(p.x, q.x) - reach && c.at.x < std::max(p.x, q.x) + reach &&
                           c.at.y > std::min(p.y, q.y) - reach && c.at.y < std::max(p.y, q.y) + reach;
                };
                somewhere = !near(s.room.gas, 12 * in) && !near(s.room.cold, 12 * in) && !near(s.room.panel, 36 * in);
            }
            const std::string id = "wall-" + std::to_string(wall + 1);
            if (somewhere) {
                EXPECT_NE(find(found, id), nullptr) << "room " << k << " " << id;
                ++offered;
            }
        }
    }
    EXPECT_GT(offered, 60);
}

TEST(Judges, FindPlantedFaults) {
    auto s = rectangle(20 * ft, 12 * ft);
    const auto found = fit(s, 4);
    plant::Layout layout = *find(found, "wall-1");
    EXPECT_THAT(Judge(s, heater(), 4).faults(layout), IsEmpty());
    auto moved = layout;
    moved.banks[0].place.origin.x -= 20 * ft;
    EXPECT_THAT(Judge(s, heater(), 4).faults(moved), Not(IsEmpty()));
    auto twice = layout;
    twice.banks[0].stands[1].u = twice.banks[0].stands[0].u + 20 * in;
    EXPECT_THAT(Judge(s, heater(), 4).faults(twice), Contains(HasSubstr("too near")));
    auto blocked = s;
    blocked.room.obstacles = {{"tank", {{0, 40 * in, 0}, {20 * ft, 60 * in, 3 * ft}}}};
    EXPECT_THAT(Judge(blocked, heater(), 4).faults(layout), Contains(HasSubstr("obstacle")));
    add_door(s, 0, 10 * ft, 3 * ft, true);
    layout.banks[0].place.origin.x = 8 * ft;
    EXPECT_THAT(Judge(s, heater(), 4).faults(layout), Contains(HasSubstr("door")));
}
