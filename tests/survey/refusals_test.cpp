// SPDX-License-Identifier: MIT
// Every kind of bad survey ends in one line that says where, what and what was expected.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "../support/short_survey.h"
#include "survey/survey.h"

namespace bw::survey {
namespace {

using testing::HasSubstr;

/// A short survey that reads. Lines are counted from 1.
const std::string sound = std::string(R"([job]
title = "Trial"
[building]
kind = "club"
[building.fixtures]
shower-public = 6
)") + test::gas_and_room;

std::string with(std::string_view was, std::string_view becomes) {
    std::string text = sound;
    const auto at = text.find(was);
    EXPECT_NE(at, std::string::npos) << was;
    return text.replace(at, was.size(), becomes);
}
std::string plus(std::string_view more) { return sound + std::string(more); }

struct Bad {
    std::string_view name;
    std::string text;
    int line, column;
    std::string_view what, expected;
};
void PrintTo(const Bad& bad, std::ostream* out) { *out << bad.name; }

std::string called(const testing::TestParamInfo<Bad>& bad) { return std::string(bad.param.name); }

class Refused : public testing::TestWithParam<Bad> {};

TEST_P(Refused, SaysWhereAndWhat) {
    const auto& bad = GetParam();
    const auto survey = parse(bad.text, "trial.toml");
    ASSERT_FALSE(survey);
    const auto& error = survey.error();
    EXPECT_EQ(error.place, (Place{"trial.toml", bad.line, bad.column})) << describe(error);
    EXPECT_THAT(error.what, HasSubstr(bad.what));
    EXPECT_THAT(error.expected, HasSubstr(bad.expected));
    EXPECT_EQ(describe(error).find('\n'), std::string::npos);
}

INSTANTIATE_TEST_SUITE_P(
    Keys, Refused,
    testing::Values(
        Bad{"unknown", with("shower-public = 6\n", "shower-public = 6\n[building.extra]\n"), 7, 1,
            "unknown key 'extra'", ""},
        Bad{"misspelt", with("kind = \"club\"", "kinb = \"club\""), 4, 8, "unknown key 'kinb'", "'kind'"},
        Bad{"misspelt_required", with("ceiling", "ceeling"), 11, 11, "unknown key 'ceeling'", "'ceiling'"},
        Bad{"unknown_table", plus("[suply]\n"), 16, 1, "unknown key 'suply'", "'supply'"},
        Bad{"no_title", with("title = \"Trial\"\n", ""), 1, 1, "missing key 'title'", ""},
        Bad{"empty_title", with("Trial", " "), 2, 9, "title: is empty", ""},
        Bad{"title_that_steers", with("Trial", "\\u001B]0;x\\u0007"), 2, 9, "title: holds the control character U+001B",
            "without control characters"},
        Bad{"title_of_two_lines", with("Trial", "one\\ntwo"), 2, 9, "title: holds the control character U+000A", ""},
        Bad{"title_turned_round", with("Trial", "\u202eTrial"), 2, 9, "title: holds the control character U+202E", ""},
        Bad{"name_that_steers",
            plus("[[room.obstacle]]\nname = \"\u009bm\"\nfrom = [\"1 ft\", \"1 ft\", \"0 ft\"]\nto = [\"2 ft\", "
                 "\"2 ft\", \"3 ft\"]\n"),
            17, 8, "name: holds the control character U+009B", ""},
        Bad{"no_gas_kind", with("kind = \"natural\"\n", ""), 7, 1, "missing key 'kind'", ""},
        Bad{"no_gas", with("[gas]\nkind = \"natural\"\n", ""), 1, 1, "missing key 'gas'", "[gas]"},
        Bad{"no_plan",
            with(
                "plan = [[\"0 ft\", \"0 ft\"], [\"16 ft\", \"0 ft\"], [\"16 ft\", \"10 ft\"], [\"0 ft\", \"10 ft\"]]\n",
                ""),
            9, 1, "missing key 'plan'", "corners"},
        Bad{"no_ceiling", with("ceiling = \"9 ft\"\n", ""), 9, 1, "missing key 'ceiling'", ""},
        Bad{"no_door", with("[[room.door]]\nwall = 4\noffset = \"3 ft\"\nwidth = \"36 in\"\n", ""), 9, 1, "no door",
            "[[room.door]]"},
        Bad{"empty_file", "", 1, 1, "missing key 'job'", "[job]"}),
    called);

INSTANTIATE_TEST_SUITE_P(
    Values, Refused,
    testing::Values(
        Bad{"wrong_unit", with("\"9 ft\"", "\"9 gpm\""), 11, 11, "ceiling", "ft"},
        Bad{"no_unit", with("\"9 ft\"", "\"9\""), 11, 11, "no unit", "ft"},
        Bad{"number_for_quantity", with("\"9 ft\"", "9"), 11, 11, "ceiling", "ft"},
        Bad{"low_ceiling", with("\"9 ft\"", "\"4 ft\""), 11, 11, "out of range", "5 ft to 100 ft"},
        Bad{"negative_count", with("= 6", "= -6"), 6, 17, "-6 is out of range", "0 to 200000"},
        Bad{"half_the_moments", with("kind = \"club\"", "kind = \"club\"\npercentile = \"50 %\""), 5, 14,
            "percentile: 50.0% is out of range", "50.1% to 99.9%"},
        Bad{"every_moment", with("kind = \"club\"", "kind = \"club\"\npercentile = \"100 %\""), 5, 14, "out of range",
            "50.1% to 99.9%"},
        Bad{"unknown_method", with("kind = \"club\"", "kind = \"club\"\nmethod = \"fixture-unit\""), 5, 10,
            "'fixture-unit'", "'fixture-units' perhaps"},
        Bad{"busier_than_ever", with("kind = \"club\"", "kind = \"club\"\nbusy.shower = \"101 %\""), 5, 15,
            "101 % is out of range", "0 % to 100 %"},
        Bad{"busy_what", with("kind = \"club\"", "kind = \"club\"\nbusy.showr = \"10 %\""), 5, 14, "showr",
            "'shower' perhaps"},
        Bad{"no_time_of_day",
            plus("[[building.block]]\nname = \"w\"\ncount = 1\nflow = \"3 gpm\"\ntemperature = \"110 degF\"\nruns = "
                 "\"06:00-25:00\"\n"),
            21, 8, "'06:00-25:00' is not a stretch of the day", "06:00-07:30"},
        Bad{"times_that_meet",
            plus("[[building.block]]\nname = \"w\"\ncount = 1\nflow = \"3 gpm\"\ntemperature = \"110 degF\"\nruns = "
                 "\"23:00-01:00, 00:30-02:00\"\n"),
            21, 8, "'00:30-02:00' meets another stretch", ""},
        Bad{"air_without_swing", plus("[supply]\nmean-air = \"50 degF\"\n"), 17, 12,
            "one of mean-air and air-swing is missing", "both"},
        Bad{"part_of_a_shower", with("= 6", "= 2.5"), 6, 17, "shower-public", "whole number"},
        Bad{"unknown_fixture", with("shower-public", "shower-pulbic"), 6, 17, "shower-pulbic", "shower-public"},
        Bad{"unknown_building", with("club", "clubb"), 4, 8, "'clubb'", "'club' perhaps"},
        Bad{"unknown_gas", with("natural", "hydrogen"), 8, 8, "'hydrogen'", "natural or propane"},
        Bad{"pressure", plus("[supply]\npressure = \"900 psi\"\n"), 17, 12, "out of range", "300"},
        Bad{"negative_pressure", plus("[supply]\npressure = \"-3 psi\"\n"), 17, 12, "out of range", "5"},
        Bad{"altitude", plus("[site]\naltitude = \"20000 ft\"\n"), 17, 12, "out of range", "12000 ft"},
        Bad{"boiling", plus("[water]\ndistribution = \"230 degF\"\n"), 17, 16, "out of range", "210.0 degF"},
        Bad{"colder_than_cold", plus("[supply]\ncoldest = \"85 degF\"\n[water]\ndistribution = \"82 degF\"\n"), 19, 16,
            "not above the coldest water", "supply.coldest"},
        Bad{"use_too_hot", plus("[water]\ndistribution = \"120 degF\"\nuse = \"130 degF\"\n"), 18, 7, "hotter",
            "water.distribution"},
        Bad{"block_too_hot",
            plus("[water]\ndistribution = \"120 degF\"\n[[building.block]]\nname = \"fill\"\ncount = 1\nflow = \"3 "
                 "gpm\"\ntemperature = \"140 degF\"\n"),
            22, 15, "hotter than the water leaving the plant", "water.distribution"},
        Bad{"empty_building", with("= 6", "= 0"), 3, 1, "draws no hot water", "at least one fixture"},
        Bad{"propane_value", with("\"natural\"", "\"propane\"\nheating-value = \"1030 Btu/ft3\""), 9, 17, "not propane",
            "2200"},
        Bad{"drop", with("\"natural\"", "\"natural\"\nallowed-drop = \"8 inH2O\""), 9, 16,
            "not below the delivery pressure", ""},
        Bad{"nan", plus("[room.way-in]\n[preferences]\nlabour-rate = nan\n"), 18, 15, "labour-rate", "finite"},
        Bad{"text_for_flag", plus("[supply]\nclosed = \"yes\"\n"), 17, 10, "closed", "true or false"},
        Bad{"edition", plus("[[codes]]\ndocument = \"IFGC\"\nedition = \"latest\"\n"), 18, 11, "'latest' is not a year",
            ""},
        Bad{"code_twice",
            plus("[[codes]]\ndocument = \"NEC\"\nedition = \"2017\"\n[[codes]]\ndocument = \"NFPA 70\"\nedition = "
                 "\"2017\"\n"),
            20, 12, "adopted twice", ""},
        Bad{"price", plus("[preferences.prices]\n\"pipe/copper-l/2\" = \"21 USD\"\n"), 17, 21, "not a price a length",
            "USD/ft"}),
    called);

INSTANTIATE_TEST_SUITE_P(Pipe, Refused,
                         testing::Values(Bad{"copper_m_gas", plus("[preferences]\ngas-pipe = \"copper-m\"\n"), 17, 12,
                                             "'copper-m'", "steel-40, steel-80"},
                                         Bad{"cpvc_gas", plus("[preferences]\ngas-pipe = \"cpvc\"\n"), 17, 12, "'cpvc'",
                                             "steel-40, steel-80"},
                                         Bad{"copper_gas", plus("[preferences]\ngas-pipe = \"copper-l\"\n"), 17, 12,
                                             "hydrogen sulphide", "low-sulphide"},
                                         Bad{"steel_water", plus("[preferences]\nwater-pipe = \"steel-40\"\n"), 17, 14,
                                             "'steel-40'", "copper-l"}),
                         called);

constexpr std::string_view plan = R"([["0 ft", "0 ft"], ["16 ft", "0 ft"], ["16 ft", "10 ft"], ["0 ft", "10 ft"]])";

INSTANTIATE_TEST_SUITE_P(
    Rooms, Refused,
    testing::Values(
        Bad{"crossing", with(plan, R"([["0 ft", "0 ft"], ["16 ft", "10 ft"], ["16 ft", "0 ft"], ["0 ft", "10 ft"]])"),
            10, 8, "crosses", "going round"},
        Bad{"two_corners", with(plan, R"([["0 ft", "0 ft"], ["16 ft", "0 ft"]])"), 10, 8, "2 corners", "3 to 64"},
        Bad{"long_side", with("[\"16 ft\", \"0 ft\"], [\"16 ft\"", "[\"400 ft\", \"0 ft\"], [\"16 ft\""), 10, 9,
            "400 ft", "300 ft"},
        Bad{"repeated", with("[\"16 ft\", \"0 ft\"]", "[\"0 ft\", \"0 ft\"]"), 10, 9, "side from here",
            "1 in to 300 ft"},
        Bad{"three_coordinates", with("[\"16 ft\", \"0 ft\"]", "[\"16 ft\", \"0 ft\", \"1 ft\"]"), 10, 27, "3 values",
            "[x, y]"},
        Bad{"wide_door", with("36 in", "12 ft"), 15, 9, "wall 4 is 10 ft", "no wider than its wall"},
        Bad{"door_off_its_end", with("\"3 ft\"", "\"8 ft\""), 14, 10, "wall 4 is 10 ft", "at most 7 ft"},
        Bad{"door_in_no_wall", with("wall = 4", "wall = 5"), 13, 8, "no wall 5", "1 to 4"},
        Bad{"door_too_high", plus("height = \"9 ft 6 in\"\n"), 16, 10, "9 ft 6 in high", ""},
        Bad{"two_doors_in_one_place", plus("[[room.door]]\nwall = 4\noffset = \"4 ft\"\nwidth = \"36 in\"\n"), 18, 10,
            "overlaps", ""},
        Bad{"wall_twice", plus("[[room.wall]]\nnumber = 2\n[[room.wall]]\nnumber = 2\n"), 19, 10, "given twice", ""},
        Bad{"wall_of_no_number", plus("[[room.wall]]\nbuild = \"glass\"\n"), 16, 1, "missing key 'number'", ""},
        Bad{"obstacle_outside",
            plus("[[room.obstacle]]\nname = \"duct\"\nfrom = [\"14 ft\", \"0 ft\", \"0 ft\"]\nto = [\"18 ft\", \"1 "
                 "ft\", \"9 ft\"]\n"),
            18, 8, "'duct' reaches outside", ""},
        Bad{"obstacle_over_all",
            plus("[[room.obstacle]]\nname = \"vat\"\nfrom = [\"0 ft\", \"0 ft\", \"0 ft\"]\nto = [\"16 ft\", \"10 "
                 "ft\", \"9 ft\"]\n"),
            18, 8, "'vat' covers", ""},
        Bad{"flat_obstacle",
            plus("[[room.obstacle]]\nname = \"duct\"\nfrom = [\"4 ft\", \"0 ft\", \"0 ft\"]\nto = [\"4 ft\", \"1 ft\", "
                 "\"9 ft\"]\n"),
            19, 6, "no solid", ""},
        Bad{"corridor", plus("[room.way-in]\ncorridor-after-turn = \"4 in\"\n"), 17, 23, "too narrow", "0 in"},
        Bad{"connection_outside", plus("[connections.gas]\nat = [\"17 ft\", \"5 ft\", \"2 ft\"]\n"), 17, 6,
            "gas connection is outside the room", ""},
        Bad{"connection_above", plus("[connections.hot]\nat = [\"8 ft\", \"5 ft\", \"10 ft\"]\n"), 17, 6,
            "hot connection is outside", ""},
        Bad{"connection_looks_out", plus("[connections.gas]\nat = [\"16 ft\", \"5 ft\", \"2 ft\"]\nfacing = \"+x\"\n"),
            18, 10, "look out of the room", ""},
        Bad{"connection_misspelt", plus("[connections.gass]\nat = [\"16 ft\", \"5 ft\", \"2 ft\"]\n"), 16, 1,
            "unknown key 'gass'", "'gas'"},
        Bad{"loop_denied",
            plus("[recirculation]\npresent = false\n[connections.recirculation]\nat = [\"16 ft\", \"5 ft\", \"2 "
                 "ft\"]\n"),
            18, 1, "recirculation.present is false", ""}),
    called);

std::string sloping(int wall, std::string_view low, std::string_view before = "") {
    return plus(std::string(before) + "[room.ceiling-slope]\nwall = " + std::to_string(wall) + "\nlow = \"" +
                std::string(low) + "\"\n");
}
std::string over_ell() {
    auto text = sloping(3, "7 ft");
    return text.replace(
        text.find(plan), plan.size(),
        R"([["0 ft", "0 ft"], ["16 ft", "0 ft"], ["16 ft", "5 ft"], ["8 ft", "5 ft"], ["8 ft", "10 ft"], ["0 ft", "10 ft"]])");
}
std::string high_and_steep() {
    auto text = sloping(3, "2 ft");
    return text.replace(text.find("\"9 ft\""), 6, "\"13 ft\"");
}

INSTANTIATE_TEST_SUITE_P(
    Slopes, Refused,
    testing::Values(
        Bad{"rising", sloping(3, "10 ft"), 18, 7, "falls to 10 ft, and is 9 ft high", "no more than room.ceiling"},
        Bad{"towards_no_wall", sloping(5, "7 ft"), 17, 8, "no wall 5", "1 to 4"},
        Bad{"half_given", plus("[room.ceiling-slope]\nwall = 3\n"), 16, 1, "missing key 'low'", ""},
        Bad{"misspelt_slope", plus("[room.ceiling-slop]\nwall = 3\n"), 16, 1, "unknown key 'ceiling-slop'",
            "'ceiling-slope'"},
        Bad{"past_its_wall", over_ell(), 17, 8, "the room reaches behind wall 3", "1, 2, 5, 6"},
        Bad{"steep", high_and_steep(), 18, 7, "falls 11 ft over 10 ft", "45 degrees"},
        Bad{"over_a_door", sloping(4, "6 ft", "height = \"6 ft 8 in\"\n"), 16, 10,
            "the door is 6 ft 8 in high, the ceiling over it 6 ft", "at its wall"},
        Bad{"through_an_obstacle",
            sloping(3, "5 ft") + "[[room.obstacle]]\nname = \"duct\"\nfrom = [\"4 ft\", \"6 ft\", \"0 ft\"]\nto = "
                                 "[\"6 ft\", \"8 ft\", \"8 ft\"]\n",
            22, 6, "'duct' reaches 2 ft 2-3/8 in through the sloping ceiling", "no higher than 5 ft 9-9/16 in"},
        Bad{"under_a_connection", sloping(3, "5 ft") + "[connections.hot]\nat = [\"8 ft\", \"9 ft\", \"8 ft\"]\n", 20,
            6, "outside the room, 2 ft 7-3/16 in above the ceiling of 5 ft 4-13/16 in there", ""}),
    called);

TEST(RefusedFile, UnreadablePath) {
    const auto survey = read("/nowhere/at/all.toml");
    ASSERT_FALSE(survey);
    EXPECT_EQ(survey.error().place.file, "/nowhere/at/all.toml");
    EXPECT_THAT(survey.error().what, HasSubstr("cannot be read"));
}

TEST(RefusedFile, FiftyMegabytes) {
    const auto path =
        (std::filesystem::temp_directory_path() / fmt::format("bw-survey-large-{}.toml", ::getpid())).string();
    std::ofstream(path) << std::string(50u << 20, '#');
    const auto survey = read(path);
    std::filesystem::remove(path);
    ASSERT_FALSE(survey);
    EXPECT_THAT(survey.error().what, HasSubstr("too large"));
    EXPECT_EQ(survey.error().place.file, path);
}

TEST(RefusedFile, InvalidUtf8) {
    const auto survey = parse(with("Trial",
                                   "Tri\xff"
                                   "al"),
                              "trial.toml");
    ASSERT_FALSE(survey);
    EXPECT_EQ(survey.error().place, (Place{"trial.toml", 2, 13})) << describe(survey.error());
}

TEST(RefusedFile, NotToml) {
    const auto survey = parse(with("[gas]", "[gas"), "trial.toml");
    ASSERT_FALSE(survey);
    EXPECT_EQ(survey.error().place.line, 7) << describe(survey.error());
}

TEST(Sound, Reads) {
    const auto survey = parse(sound, "trial.toml");
    ASSERT_TRUE(survey) << describe(survey.error());
}

}  // namespace
}  // namespace bw::survey
