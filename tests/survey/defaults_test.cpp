// SPDX-License-Identifier: MIT
// A short survey: every default taken is listed, and those that bear on safety are marked.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "../support/short_survey.h"
#include "shape/polygon.h"
#include "survey/fields.h"
#include "survey/survey.h"
#include "units/parse.h"

namespace bw::survey {
namespace {

std::string short_survey(std::string_view more = {}) {
    return fmt::format("[job]\ntitle = \"Short\"\n[building.fixtures]\nshower-public = 6\n{}{}", test::gas_and_room,
                       more);
}

Survey read_of(const std::string& text) {
    auto survey = parse(text, "short.toml");
    EXPECT_TRUE(survey) << describe(survey.error());
    return survey ? *survey : Survey{};
}

const Assumption* find(const Survey& survey, std::string_view field) {
    for (const auto& a : survey.assumed)
        if (a.field == field) return &a;
    return nullptr;
}

TEST(ShortSurvey, ListsEveryDefault) {
    const auto survey = read_of(short_survey());
    for (const auto& field : fields()) {
        if (field.fallback.empty() || field.path.starts_with("room.wall") || field.path.starts_with("room.door") ||
            field.path.starts_with("recirculation.branch"))
            continue;
        if (field.path == "preferences.spare-share") continue;  // no share is asked for
        const auto* taken = find(survey, field.path);
        ASSERT_NE(taken, nullptr) << field.path;
        EXPECT_EQ(taken->value, field.fallback);
        EXPECT_EQ(taken->safety, field.safety) << field.path;
    }
    for (const auto* name :
         {"building.chemistry-in-air", "gas.delivery-pressure", "gas.meter", "gas.other", "water.distribution",
          "room.wall.1.build", "room.wall.4.combustible", "room.wall.2.outside", "codes", "connections.gas",
          "connections.drain", "connections.exhaust", "connections.intake", "connections.panel"}) {
        ASSERT_NE(find(survey, name), nullptr) << name;
        EXPECT_TRUE(find(survey, name)->safety) << name;
        EXPECT_TRUE(survey.depends_on_fields(name)) << name;
    }
    EXPECT_TRUE(survey.depends_on_fields("room.wall"));
    EXPECT_FALSE(survey.depends_on_fields("room.wal"));
    EXPECT_FALSE(survey.depends_on_fields("room.ceiling"));
    EXPECT_TRUE(survey.gas.meter.assumed);
    EXPECT_EQ(survey.gas.meter.value.value(), 0) << "not known";
}

TEST(ShortSurvey, ABranchOfTheLoopListsItsDefaults) {
    const auto survey =
        read_of(short_survey("[[recirculation.branch]]\nname = \"east\"\nlength = \"90 ft\"\nsize = \"1\"\n"));
    ASSERT_EQ(survey.recirculation.branches.size(), 1u);
    const auto& branch = survey.recirculation.branches.front();
    EXPECT_NEAR(*branch.return_length / foot, 90, 1e-9);
    EXPECT_EQ(*branch.return_size, Nominal{6});
    EXPECT_EQ(*branch.material, Material::copper_l);
    EXPECT_TRUE(branch.insulation.assumed);
    EXPECT_NEAR(*branch.fittings, 0.5, 1e-9);
    for (const auto* key : {"return-length", "return-size", "material", "insulation", "fittings"})
        EXPECT_NE(find(survey, fmt::format("recirculation.branch.1.{}", key)), nullptr) << key;
}

TEST(ShortSurvey, StatedValuesAreNotAssumed) {
    const auto survey = read_of(short_survey("[supply]\npressure = \"60 psi\"\n"));
    EXPECT_FALSE(survey.depends_on_fields("supply.pressure"));
    EXPECT_FALSE(survey.supply.pressure.assumed);
    EXPECT_TRUE(survey.depends_on_fields("supply.coldest"));
}

TEST(ShortSurvey, AnEmptyListStatesThatThereIsNone) {
    auto text = short_survey();
    text.replace(text.find("kind = \"natural\""), 16, "kind = \"natural\"\nother = []");
    EXPECT_FALSE(read_of(text).depends_on_fields("gas.other"));
}

TEST(ShortSurvey, PlacesItsConnectionsOnWallsApartAndMarksThem) {
    const auto survey = read_of(short_survey());
    const auto& room = survey.room;
    const std::array all{&room.gas,   &room.cold,    &room.hot,    &room.recirculation,
                         &room.drain, &room.exhaust, &room.intake, &room.panel};
    for (const auto* a : all) {
        EXPECT_TRUE(a->given && a->assumed_place);
        for (const auto* b : all) EXPECT_TRUE(a == b || shape::distance(a->at, b->at) > 0.2);
    }
    EXPECT_NEAR(room.gas.at.x, 16 * 0.3048, 1e-9) << "the short wall without a door, so that long ones stay free";
    EXPECT_EQ(room.gas.facing, (shape::Vec{-1, 0, 0}));
    EXPECT_EQ(room.panel.at.x, 0) << "the door's wall";
    EXPECT_TRUE(room.walls[1].outside.value) << "the exhaust goes out through it";
    EXPECT_FALSE(room.walls[0].outside.value);
}

TEST(ShortSurvey, DefaultsFollowWhatIsKnown) {
    EXPECT_TRUE(read_of(short_survey("[building]\nkind = \"hospital\"\n")).recirculation.present.value);
    EXPECT_FALSE(read_of(short_survey("[building]\nkind = \"industrial\"\n")).recirculation.present.value);
    EXPECT_EQ(read_of(short_survey("[building]\ncare = true\n")).preferences.spare.value, SparePolicy::one);
    const auto hot = read_of(
        short_survey("[[building.block]]\nname = \"w\"\ncount = 1\nflow = \"3 gpm\"\ntemperature = \"150 degF\"\n"));
    EXPECT_NEAR(hot.temperatures.distribution.value.value(), fahrenheit(150).value(), 0.01);
    const auto stud = read_of(short_survey("[[room.wall]]\nnumber = 1\nbuild = \"concrete\"\n"));
    EXPECT_FALSE(stud.room.walls[0].combustible.value);
    EXPECT_TRUE(stud.depends_on_fields("room.wall.1.combustible"));
    EXPECT_TRUE(stud.room.walls[1].combustible.value);
}

TEST(ShortSurvey, ColdestWaterFollowsTheAirWhereItIsGiven) {
    const auto survey = read_of(short_survey("[supply]\nmean-air = \"50 degF\"\nair-swing = \"50 degF\"\n"));
    // 56 - (0.46 x 25) degF at the bottom of the sine
    EXPECT_NEAR(survey.supply.coldest.value.value(), fahrenheit(44.5).value(), 0.03);
    ASSERT_NE(find(survey, "supply.coldest"), nullptr);
    EXPECT_THAT(find(survey, "supply.coldest")->why, testing::HasSubstr("Burch and Christensen"));
    const auto measured =
        read_of(short_survey("[supply]\ncoldest = \"48 degF\"\nmean-air = \"50 degF\"\nair-swing = \"50 degF\"\n"));
    EXPECT_NEAR(measured.supply.coldest.value.value(), fahrenheit(48).value(), 1e-9) << "measured values go first";
}

TEST(ShortSurvey, AShareWithOneDownHasItsOwnDefault) {
    const auto survey = read_of(short_survey("[preferences]\nspare = \"share-one-down\"\n"));
    EXPECT_EQ(survey.preferences.spare.value, SparePolicy::share_one_down);
    EXPECT_NEAR(survey.preferences.spare_share.value, 0.75, 1e-12);
}

TEST(ShortSurvey, LoopFiguresAgree) {
    const auto survey = read_of(short_survey("[recirculation]\nflow = \"4 gpm\"\ndrop = \"10 degF\"\n"));
    EXPECT_NEAR(survey.recirculation.loss.value / kbtu_per_hour, 20, 1e-6) << "500 Btu/h a gpm and degF";
    EXPECT_TRUE(survey.depends_on_fields("recirculation.loss"));
}

TEST(Plan, ClockwiseIsTurnedAndWallNumbersKeepTheirMeaning) {
    auto text = short_survey("hinge-far = true\n[[room.wall]]\nnumber = 2\nbuild = \"glass\"\n");
    // the same room gone round the other way: wall 1 up the west side, wall 2 along the north
    const std::string_view plan = R"([["0 ft", "0 ft"], ["16 ft", "0 ft"], ["16 ft", "10 ft"], ["0 ft", "10 ft"]])";
    text.replace(text.find(plan), plan.size(),
                 R"([["0 ft", "0 ft"], ["0 ft", "10 ft"], ["16 ft", "10 ft"], ["16 ft", "0 ft"]])");
    const auto survey = read_of(text);
    const auto& room = survey.room;
    EXPECT_GT(shape::signed_area(room.plan), 0);
    ASSERT_EQ(room.walls.size(), 4u);
    const auto glass = std::find_if(room.walls.begin(), room.walls.end(), [](const Wall& w) { return w.number == 2; });
    EXPECT_EQ(glass->build.value, WallBuild::glass);
    const auto i = static_cast<std::size_t>(glass - room.walls.begin());
    EXPECT_NEAR(room.plan[i].y, 10 * 0.3048, 1e-9) << "the north wall";
    EXPECT_NEAR(room.plan[(i + 1) % 4].y, 10 * 0.3048, 1e-9);
    // wall 4 of the file runs from [16, 0] to [0, 0]; its door starts 3 ft from [16, 0] and is 3 ft wide
    const auto& door = room.doors[0];
    const auto wall = static_cast<std::size_t>(door.wall);
    EXPECT_EQ(room.walls[wall].number, 4);
    EXPECT_NEAR(room.plan[wall].x, 0, 1e-9);
    EXPECT_NEAR(room.plan[wall].y, 0, 1e-9);
    EXPECT_NEAR(door.offset / foot, 10, 1e-9) << "from [0, 0] now";
    EXPECT_FALSE(door.hinge_far.value) << "the same jamb, now the nearer one";
}

TEST(Plan, IsSnappedToTheGrid) {
    auto text = short_survey();
    text.replace(text.find("\"16 ft\", \"0 ft\""), 15, "\"4877 mm\", \"0 ft\"");
    const auto survey = read_of(text);
    EXPECT_NEAR(survey.room.plan[1].x / 0.0254 * 16, std::round(4.877 / 0.0254 * 16), 1e-9);
}

TEST(Plan, SlantedWallsLookSquarelyInward) {
    auto text = short_survey("[connections.gas]\nat = [\"18 ft\", \"5 ft\", \"2 ft\"]\n");
    text.replace(text.find("\"16 ft\", \"10 ft\""), 16, "\"20 ft\", \"10 ft\"");
    const auto facing = read_of(text).room.gas.facing;
    EXPECT_LT(facing.x, 0);
    EXPECT_GT(facing.y, 0);
    EXPECT_NEAR(facing.x * 4 + facing.y * 10, 0, 1e-9) << "square to the wall";
}

TEST(Connection, AnInchOutsideIsBroughtIn) {
    const auto survey = read_of(short_survey("[connections.gas]\nat = [\"16 ft 1 in\", \"5 ft\", \"2 ft\"]\n"));
    EXPECT_NEAR(survey.room.gas.at.x, 16 * 0.3048, 1e-9);
}

TEST(Codes, TwoNamesOfOneDocument) {
    const auto survey = read_of(short_survey("[[codes]]\ndocument = \"NEC\"\nedition = \"2017\"\n"));
    ASSERT_NE(survey.adopted("NFPA 70"), nullptr);
    EXPECT_EQ(survey.adopted("NFPA 70")->edition, "2017");
    EXPECT_EQ(survey.adopted("IFGC"), nullptr);
    EXPECT_FALSE(survey.depends_on_fields("codes"));
}

TEST(Starter, ShowsEveryKeyAndItsDefault) {
    const auto text = starter();
    for (const auto& field : fields()) {
        const auto key = std::string(field.path.substr(field.path.rfind('.') + 1));
        EXPECT_THAT(text, testing::HasSubstr(key + " = ")) << field.path;
    }
    for (const auto fixture : text::names<Fixture>()) EXPECT_THAT(text, testing::HasSubstr(std::string(fixture)));
}

TEST(Starter, RunsWithEveryCommentedKeyPutIn) {
    // "# key = value" and "# [[table]]" become live; prose does not begin like either
    std::string out;
    const auto text = starter();
    for (std::size_t at = 0; at < text.size();) {
        const auto end = text.find('\n', at);
        auto line = text.substr(at, end - at);
        const auto equals = line.find(" = ");
        const bool key = line.starts_with("# ") && equals != std::string::npos && line.find(' ', 2) == equals;
        if (key || line.starts_with("# [[")) line = line.substr(2);
        out += line + "\n";
        at = end + 1;
    }
    const auto survey = parse(out, "starter.toml");
    ASSERT_TRUE(survey) << describe(survey.error()) << "\n" << out;
    for (const auto& a : survey->assumed) EXPECT_TRUE(a.field.starts_with("room.wall.")) << a.field;
}

}  // namespace
}  // namespace bw::survey
