// SPDX-License-Identifier: MIT
// Whole plants under ceilings that slope: nothing reaches through, whatever the slope.
#include <gmock/gmock.h>

#include <cmath>
#include <numbers>

#include "../support/random_survey.h"
#include "laws.h"
#include "text/toml.h"

namespace bw::test {
namespace {

using reason::Status;
using ::testing::HasSubstr;

constexpr double inch = 0.0254;

const catalogue::Catalogue& catalogue() {
    static const auto loaded = catalogue::load();
    return *loaded;
}

/// The plane worked out anew: height by the share of the way from the low wall to the corner farthest from it.
double height(const survey::Room& room, double x, double y) {
    const auto n = room.plan.size();
    const auto &a = room.plan[static_cast<std::size_t>(room.slope->wall)],
               &b = room.plan[(static_cast<std::size_t>(room.slope->wall) + 1) % n];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    const auto off = [&](double px, double py) {
        return ((b.x - a.x) * (py - a.y) - (b.y - a.y) * (px - a.x)) / length;
    };
    double farthest = 0;
    for (const auto& p : room.plan) farthest = std::max(farthest, off(p.x, p.y));
    const double low = room.slope->low.value();
    return low + (room.ceiling->value() - low) * off(x, y) / farthest;
}

/// Corners of a box, places round both ends of a bar.
std::vector<shape::Vec> outermost(const shape::Solid& solid) {
    std::vector<shape::Vec> points;
    if (const auto* box = std::get_if<shape::Box>(&solid)) {
        for (int i = 0; i < 8; ++i)
            points.push_back(
                {i & 1 ? box->max.x : box->min.x, i & 2 ? box->max.y : box->min.y, i & 4 ? box->max.z : box->min.z});
        return points;
    }
    const auto& bar = std::get<shape::Cylinder>(solid);
    const auto way = bar.b - bar.a;
    const shape::Vec aside = std::abs(way.z) > 0.7 * shape::length(way) ? shape::Vec{1, 0, 0} : shape::up;
    const auto across = shape::cross(way, aside), third = shape::cross(way, across);
    for (const auto& end : {bar.a, bar.b})
        for (int i = 0; i < 24; ++i) {
            const double t = i * std::numbers::pi / 12;
            points.push_back(end + (bar.radius * std::cos(t) / shape::length(across)) * across +
                             (bar.radius * std::sin(t) / shape::length(third)) * third);
        }
    return points;
}

bool goes_through(const survey::Room& room, const plant::Piece& piece) {
    using text::Part;
    if (piece.part == Part::connection || piece.part == Part::anchor || piece.part == Part::firestop) return true;
    return std::ranges::any_of(piece.ports, [&](const plant::Port& p) {
        return p.service != text::Service::structure && std::abs(p.facing.z) > 0.5 &&
               p.at.z > height(room, p.at.x, p.at.y) - inch / 4;
    });
}

void expect_under_the_plane(const design::Result& result) {
    const auto& room = result.survey.room;
    for (const auto& piece : result.chosen->built.plant.pieces) {
        if (goes_through(room, piece)) continue;
        for (const auto& solid : piece.solids)
            for (const auto& p : outermost(solid)) {
                if (!shape::inside(room.plan, {p.x, p.y}, 1e-6)) continue;
                ASSERT_LE(p.z, height(room, p.x, p.y) + inch / 16) << piece.id;
            }
    }
}

std::string example(const std::string& name) {
    return *text::read_file(std::string(BANKWRIGHT_SOURCE) + "/examples/" + name + ".toml");
}

void put(std::string& text, std::string_view was, const std::string& becomes) {
    const auto at = text.find(was);
    ASSERT_NE(at, std::string::npos) << was;
    text.replace(at, was.size(), becomes);
}

survey::Survey sloping(std::string text, const std::string& ceiling, int wall, const std::string& low) {
    // a column and a rainwater pipe end at the old ceiling
    for (const auto* top : {"\"13 ft 6 in\", \"10 ft\"]", "\"14 ft\", \"10 ft\"]"})
        if (text.find(top) != std::string::npos) put(text, "\"10 ft\"]", "\"8 ft\"]");
    put(text, "ceiling = \"10 ft\"",
        "ceiling = \"" + ceiling + "\"\nceiling-slope = { wall = " + std::to_string(wall) + ", low = \"" + low +
            "\" }");
    auto survey = survey::parse(text, "sloping.toml");
    EXPECT_TRUE(survey) << units::describe(survey.error());
    return *survey;
}

const reason::Check* find(const design::Result& result, std::string_view id) {
    const auto at = std::ranges::find(result.checks, id, &reason::Check::id);
    return at == result.checks.end() ? nullptr : &*at;
}

struct Fall {
    const char *name, *example, *ceiling;
    int wall;
    const char* low;
};
void PrintTo(const Fall& fall, std::ostream* out) { *out << fall.name; }

class Slopes : public ::testing::TestWithParam<Fall> {};
INSTANTIATE_TEST_SUITE_P(Examples, Slopes,
                         ::testing::Values(Fall{"along_the_bank", "wash-house", "11 ft 6 in", 2, "10 ft"},
                                           Fall{"away_from_the_bank", "wash-house", "11 ft", 3, "9 ft 6 in"},
                                           Fall{"behind_the_bank", "wash-house", "12 ft", 1, "9 ft 6 in"},
                                           Fall{"across_facing_banks", "hostel", "11 ft 6 in", 4, "10 ft"},
                                           Fall{"over_one_bank_of_two", "hostel", "12 ft", 1, "9 ft 6 in"}),
                         [](const auto& fall) { return std::string(fall.param.name); });

TEST_P(Slopes, APlantStandsUnderTheWholePlane) {
    const auto& fall = GetParam();
    const auto survey = sloping(example(fall.example), fall.ceiling, fall.wall, fall.low);
    const auto result = design::run(survey, catalogue(), design::wide());
    ASSERT_TRUE(result) << units::describe(result.error());
    ASSERT_TRUE(result->chosen);
    expect_lawful(*result);
    expect_under_the_plane(*result);
    for (const auto& check : result->checks) EXPECT_NE(check.status, Status::fail) << check.id << ": " << check.says;
    ASSERT_NE(find(*result, "room.slope"), nullptr);
    EXPECT_EQ(find(*result, "room.slope")->status, Status::pass);
}

TEST(Slope, RodsEndBelowTheCeilingAtTheirOwnPlace) {
    const auto survey = sloping(example("wash-house"), "11 ft 6 in", 2, "10 ft");
    const auto result = design::run(survey, catalogue(), {.candidates = 1});
    ASSERT_TRUE(result && result->chosen);
    int rods = 0;
    for (const auto& piece : result->chosen->built.plant.pieces) {
        if (piece.part != text::Part::rod) continue;
        ++rods;
        const auto& head = piece.ports[1].at;
        const double gap = height(survey.room, head.x, head.y) - head.z;
        EXPECT_GE(gap, 0) << piece.id;
        EXPECT_LE(gap, inch / 4) << piece.id;
        EXPECT_NEAR(std::round(piece.cut / (inch / 16)) * (inch / 16), piece.cut, 1e-6) << piece.id;
        EXPECT_NEAR(head.z - piece.ports[0].at.z, piece.cut, 1e-6) << piece.id;
    }
    EXPECT_GT(rods, 3);
}

/// Falls of 1 to 4 ft in rooms nobody thought of.
TEST(Slope, RandomPlantsStandUnderTheirPlane) {
    int built = 0;
    for (std::uint64_t seed = 1; seed <= 24; ++seed) {
        SCOPED_TRACE("seed " + std::to_string(seed));
        auto survey = survey::parse(random_survey(seed), "random.toml");
        if (!survey) continue;
        auto& room = survey->room;
        Dice dice(seed);
        room.ceiling.value += 1.0 * dice.whole(6, 30) * units::inch;
        room.slope = survey::CeilingSlope{0, *room.ceiling - 1.0 * dice.whole(12, 48) * units::inch};
        const auto n = static_cast<int>(room.plan.size());
        const auto behind = [&](int wall) {
            room.slope->wall = wall;
            return std::ranges::any_of(room.plan, [&](const shape::Point& p) {
                return height(room, p.x, p.y) < room.slope->low.value() - 1e-9;
            });
        };
        int wall = dice.whole(0, n - 1);
        while (behind(wall)) wall = (wall + 1) % n;
        for (auto* c :
             {&room.gas, &room.cold, &room.hot, &room.recirculation, &room.exhaust, &room.intake, &room.panel})
            c->at.z = std::min(c->at.z, std::floor((height(room, c->at.x, c->at.y) - 10 * inch) / inch) * inch);
        for (auto& o : room.obstacles) o.box.max.z = std::min(o.box.max.z, room.overhead().lowest(o.box));
        const auto result = design::run(*survey, catalogue(), {.candidates = 1});
        if (!result || !result->chosen) continue;
        expect_lawful(*result);
        expect_under_the_plane(*result);
        const auto* slope = find(*result, "room.slope");
        ASSERT_NE(slope, nullptr);
        EXPECT_EQ(slope->status, Status::pass) << slope->says;
        ++built;
    }
    EXPECT_GE(built, 8);
}

}  // namespace
}  // namespace bw::test
