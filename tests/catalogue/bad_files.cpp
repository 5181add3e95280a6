// SPDX-License-Identifier: MIT
// Each wrong file with what is said of it: the place, what is wrong, what was expected.

#include <gmock/gmock.h>

#include "files.h"

namespace bw::catalogue {
namespace {

using testing::AllOf;
using testing::HasSubstr;
using testing::StartsWith;

struct Bad {
    std::string name, from, to, at, says;  ///< at: passage on the line to be named; empty for the table's own line
};
void PrintTo(const Bad& bad, std::ostream* out) { *out << bad.name; }

/// A documented example, spoilt, is refused with the place of what is wrong; `table` is its own heading.
void expect_refused(const Bad& bad, const std::string& example, const std::string& table) {
    const std::string text = with(example, bad.from, bad.to);
    EXPECT_THAT(refusal(text), AllOf(StartsWith(line_of(text, bad.at.empty() ? table : bad.at)), HasSubstr(bad.says)));
}

class BadHeater : public testing::TestWithParam<Bad> {};
TEST_P(BadHeater, IsRefusedWithItsPlace) { expect_refused(GetParam(), documented(0), "[[heater]]"); }

INSTANTIATE_TEST_SUITE_P(
    Heaters, BadHeater,
    testing::Values(
        Bad{"Format", "catalogue-1", "catalogue-9", "format", "'bankwright-catalogue-9'"},
        Bad{"UnknownKey", "gap-side =", "gap-sides = \"1 in\"\ngap-side =", "gap-sides", "gap-side"},
        Bad{"MissingKey", "fan = \"0.9 inH2O\"", "", "", "missing key 'fan'"},
        Bad{"WrongUnit", "150 kBtu/h", "150 gpm", "input-greatest", "input-greatest: "},
        Bad{"NoUnit", "\"70 lb\"", "70", "mass =", "mass: "},
        Bad{"Negative", "\"0.9 inH2O\"", "\"-0.9 inH2O\"", "fan", "out of range"},
        Bad{"Absurd", "\"18 in\"", "\"18 ft\"", "width", "out of range"},
        Bad{"UnknownSource", "sources = [\"manual\"]", "sources = [\"book\"]", "sources", "no source 'book'"},
        Bad{"NoSource", "sources = [\"manual\"]", "sources = []", "sources", "names no source"},
        Bad{"Standing", "standing = \"maker\"", "standing = \"sure\"", "standing = ", "'sure' is no standing"},
        Bad{"Undocumented", "document = \"Installation manual\", ", "", "manual =", "names no document"},
        Bad{"Key", "\"own-150\"", "\"Own 150\"", "", "heater key 'Own 150'"},
        Bad{"InputTurnedRound", "\"15 kBtu/h\"", "\"151 kBtu/h\"", "", "input-least is not below input-greatest"},
        Bad{"FlowTurnedRound", "flow-least = \"0.5 gpm\"", "flow-least = \"9.5 gpm\"", "", "flow-least is not below"},
        Bad{"GasTurnedRound", "least = \"4 inH2O\"", "least = \"14 inH2O\"", "",
            "gas natural: least is not below greatest"},
        Bad{"GasTwice", "kind = \"propane\"", "kind = \"natural\"", "", "gas natural stands twice"},
        Bad{"GasUnknown", "kind = \"propane\"", "kind = \"butane\"", "kind = \"butane\"", "butane"},
        Bad{"EfficiencyTooGood", "\"97.5 %\"", "\"104 %\"", "", "efficiency 104.0 %"},
        Bad{"EfficiencyTooPoor", "\"87 %\"", "\"47 %\"", "", "efficiency 47.0 %"},
        Bad{"EfficiencyOrder", "[\"100 degF\"", "[\"30 degF\"", "", "efficiency point 2 is no warmer"},
        Bad{"EfficiencyPoint", "[\"100 degF\", \"94.5 %\"]", "[\"100 degF\"]", "[\"100 degF\"]",
            "efficiency: not a point"},
        Bad{"DropFromSomething", "[\"0 gpm\", \"0 psi\"]", "[\"0 gpm\", \"1 psi\"]", "", "does not start at nothing"},
        Bad{"DropFalls", "\"8.5 psi\"", "\"1.5 psi\"", "", "pressure-drop point 3 does not rise"},
        Bad{"DropStopsShort", "[\"9 gpm\"", "[\"8 gpm\"", "", "stops short of flow-greatest"},
        Bad{"PortMissing",
            "    { name = \"intake\", at = [\"12-1/2 in\", \"6 in\", \"27-1/2 in\"], facing = \"up\", size = \"2\" "
            "},\n",
            "", "", "port 'intake' is missing"},
        Bad{"PortTwice", "name = \"link-out\"", "name = \"link-in\"", "", "port 'link-in' stands 2 times"},
        Bad{"PortUnknown", "name = \"link-out\"", "name = \"chimney\"", "chimney", "'chimney' is no port"},
        Bad{"PortWay", "\"0 in\"], facing = \"down\", size = \"1/2\"",
            "\"0 in\"], facing = \"sideways\", size = \"1/2\"", "sideways", "'sideways' is no direction"},
        Bad{"PortUp", "\"0 in\"], facing = \"down\", size = \"1/2\"", "\"0 in\"], facing = \"up\", size = \"1/2\"", "",
            "port condensate faces up"},
        Bad{"PortUnsized", "facing = \"down\", size = \"1/2\"", "facing = \"down\"", "name = \"condensate\"",
            "port condensate has no size"},
        Bad{"PortSized", "facing = \"back\"", "facing = \"back\", size = \"2\"", "name = \"mount\"",
            "port mount has none"},
        Bad{"PortFarOff", "[\"3 in\", \"7-1/2 in\"", "[\"30 in\", \"7-1/2 in\"", "",
            "port gas lies outside the casing"},
        Bad{"PortSize", "facing = \"down\", size = \"1/2\"", "facing = \"down\", size = \"1/3\"", "1/3", "size: "},
        Bad{"VentMaterial", "\"vent-cpvc\"", "\"copper-l\"", "", "copper-l is no vent material"},
        Bad{"VentMaterialWord", "\"vent-cpvc\"", "\"vent-tin\"", "vent-tin", "vent-materials: "},
        Bad{"VentOrder", "{ size = \"3\", longest", "{ size = \"2\", longest", "", "vents are not in rising sizes"},
        Bad{"CommonWithoutListing", "common-vent-listing = \"common venting with damper kit, listing on page 9\"", "",
            "", "common-vents without a common-vent-listing"},
        Bad{"CommonOrder", "most = 7", "most = 2", "", "common-vents do not rise"},
        Bad{"HalfAnAltitudeRule", "derate-above = \"2000 ft\"", "", "derate-per-1000-ft",
            "half of the maker's altitude rule"},
        Bad{"Setpoint", "setpoint-greatest = \"180 degF\"", "setpoint-greatest = \"190 degF\"", "",
            "setpoint-greatest is above water-greatest"},
        Bad{"Pressures", "water-pressure-least = \"20 psi\"", "water-pressure-least = \"200 psi\"", "",
            "water-pressure-least is not below"},
        Bad{"Flag", "closes-when-idle = true", "closes-when-idle = \"yes\"", "closes-when-idle", "closes-when-idle: "},
        Bad{"Whole", "greatest-group = 12", "greatest-group = 1.5", "greatest-group", "greatest-group: "},
        Bad{"NotToml", "price = 1900", "price = ", "price = ", "not TOML"}),
    [](const auto& of) { return of.param.name; });

const std::string valve_row = "    1   1-1/2         2.1  0.07     1.3     27           7";

class BadItem : public testing::TestWithParam<Bad> {};
TEST_P(BadItem, IsRefusedWithItsPlace) { expect_refused(GetParam(), documented(1), "[[item]]"); }

INSTANTIATE_TEST_SUITE_P(
    Items, BadItem,
    testing::Values(
        Bad{"Part", "\"ball-valve\"", "\"bal-valve\"", "part =", "ball-valve"},
        Bad{"PartOfItsOwnSection", "\"ball-valve\"", "\"heater\"", "part =", "heater is no item"},
        Bad{"Service", "\"hot\", ", "\"warm\", ", "services", "services: "},
        Bad{"Material", "services =", "materials = [\"copper\"]\nservices =", "materials", "materials: "},
        Bad{"Column", "outside/in", "breadth/in", " size", "unknown column 'breadth'"},
        Bad{"ColumnNear", "  price  labour", "  prise  labour", " size", "'price'?"},
        Bad{"ColumnTwice", "labour/min", "mass/lb", " size", "two columns 'mass/lb'"},
        Bad{"ColumnUnit", "mass/lb", "mass/ft", " size",
            "the heading 'mass/ft' lacks a unit of its kind, expected mass/unit, a mass (lb"},
        Bad{"ColumnNoUnit", "run/in", "run", " size", "the heading 'run' lacks a unit of its kind"},
        Bad{"ColumnMissing", "run/in", "stem/in", "  3/4   1-1/4", "ball-valve/3/4: 'run' is missing"},
        Bad{"HeadAndTable", "table =", "mass = \"1 lb\"\ntable =", " size",
            "'mass' stands in the head and in the table"},
        Bad{"ShortRow", valve_row, "    1   1-1/2         2.1  0.07     1.3     27", "    1   1-1/2",
            "a row of 6 cells under 7 headings"},
        Bad{"Cell", valve_row, "    1   1-1/2         2.1  0.07     1.3     2x7         7", "    1   1-1/2",
            "price: '2x7' is not a number"},
        Bad{"CellRange", valve_row, "    1   1-1/2         2.1  0.07     1.3     -27         7", "    1   1-1/2",
            "price: -27 is out of range"},
        Bad{"OffTheGrid", valve_row, "    1   1.51         2.1  0.07     1.3     27         7", "    1   1.51",
            "run 1.5100 in is off the grid, expected a multiple of 1/16 in"},
        Bad{"Size", valve_row, "  1/3   1-1/2         2.1  0.07     1.3     27         7", "  1/3 ", "size: "},
        Bad{"SizeMissing", valve_row, "    -   1-1/2         2.1  0.07     1.3     27         7", "    -   1-1/2",
            "a ball-valve without 'size'"},
        Bad{"Twice", valve_row, "  3/4   1-1/2         2.1  0.07     1.3     27         7", "  3/4   1-1/2",
            "the key 'ball-valve/3/4' stands twice"},
        Bad{"OtherPartsNumber", "table =", "lock-up = \"1 psi\"\ntable =", "lock-up", "lock-up"},
        Bad{"NoRows",
            "table = '''\n size  run/in  outside/in  loss  mass/lb  price  labour/min\n  3/4   1-1/4         1.7  0.07 "
            "    0.8     18           6\n    1   1-1/2         2.1  0.07     1.3     27           7\n'''",
            "table = '''\n'''", "table =", "a table without rows"},
        Bad{"TableWord", "table = '''", "table = 3\nnote = '''", "table = 3", "table: "},
        Bad{"Section", "[[item]]", "[item]", "[item]", "item is not an array of tables"},
        Bad{"SectionUnknown", "[[item]]", "[[itme]]", "[[itme]]", "item"}),
    [](const auto& of) { return of.param.name; });

TEST(BadFile, ACellIsNamedByItsColumn) {
    const std::string text =
        with(documented(1), valve_row, "    1   1-1/2         2.1  0.07     1.3     oops        7");
    const auto line = line_of(text, "    1   1-1/2");
    EXPECT_THAT(refusal(text), StartsWith(line + "45: "));
}

std::string one_item(const std::string& part, const std::string& rest) {
    return "format = \"bankwright-catalogue-1\"\n[source]\nd = { standing = \"invented\" }\n[[item]]\npart = \"" +
           part +
           "\"\ntitle = \"t\"\nsources = [\"d\"]\noutside = \"2 in\"\nmass = \"1 lb\"\nprice = 1\nlabour = \"1 "
           "min\"\nsize = \"2\"\n" +
           rest;
}

TEST(BadFile, PartsAreHeldToTheirOwnLaws) {
    const std::string run = "run = \"1 in\"\n";
    EXPECT_EQ(refusal(one_item("coupling", run)), "");
    EXPECT_THAT(refusal(one_item("reducer", run)), HasSubstr("a reducer without 'branch'"));
    EXPECT_THAT(refusal(one_item("reducer", run + "branch = \"2\"\n")), HasSubstr("the small end is not smaller"));
    EXPECT_THAT(refusal(one_item("tee", run + "stem = \"2 in\"\nbranch = \"3\"\n")),
                HasSubstr("the branch is larger than the run"));
    EXPECT_THAT(refusal(one_item("tee", run + "branch = \"1\"\n")), HasSubstr("'stem' is missing"));
    EXPECT_THAT(refusal(one_item("relief-valve", run + "stem = \"1 in\"\nset-pressure = \"150 psi\"\n")),
                HasSubstr("'capacity' is missing"));
    const std::string of_no_gas = run + "capacity = \"500 ft3/h\"\ninlet-greatest = \"5 psi\"\n",
                      regulator = of_no_gas + "gas = \"propane\"\n",
                      outlet = "outlet = \"7 inH2O\"\nlock-up = \"9 inH2O\"\n";
    EXPECT_THAT(refusal(one_item("regulator", of_no_gas + outlet)), HasSubstr("'gas' is missing"));
    EXPECT_EQ(refusal(one_item("regulator", of_no_gas + outlet + "variant = \"natural\"\n")), "");
    EXPECT_EQ(refusal(one_item("regulator", regulator + outlet)), "");
    EXPECT_THAT(refusal(one_item("regulator", regulator + "outlet = \"9 inH2O\"\nlock-up = \"9 inH2O\"\n")),
                HasSubstr("lock-up is not above the outlet"));
    EXPECT_THAT(refusal(one_item("regulator", regulator + "outlet = \"7 inH2O\"\nlock-up = \"6 psi\"\n")),
                HasSubstr("lock-up is not below the greatest inlet"));
    const std::string pump = run + "rating = \"1 A\"\nflow-1 = \"0 gpm\"\nhead-1 = \"10 ft\"\nflow-2 = \"5 gpm\"\n";
    EXPECT_EQ(refusal(one_item("pump", pump + "head-2 = \"8 ft\"\n")), "");
    EXPECT_THAT(refusal(one_item("pump", pump + "head-2 = \"12 ft\"\n")), HasSubstr("point 2 of the curve"));
    EXPECT_THAT(refusal(one_item("pump", pump + "head-2 = \"8 ft\"\nflow-3 = \"9 gpm\"\n")),
                HasSubstr("flow-3 and head-3 come together"));
    EXPECT_THAT(
        refusal(one_item(
            "expansion-vessel",
            "volume = \"2 gal\"\nacceptance = \"3 gal\"\npressure-greatest = \"150 psi\"\nheight = \"9 in\"\n")),
        HasSubstr("accepts more than it holds"));
}

std::string one_pipe(const std::string& rows, const std::string& head = "") {
    return "format = \"bankwright-catalogue-1\"\n[source]\nd = { standing = \"invented\" }\n[[pipe]]\nmaterial = "
           "\"copper-l\"\nsources = [\"d\"]\n"
           "roughness = \"0.0015 mm\"\nstock = \"20 ft\"\ngreatest = \"250 degF\"\n" +
           head +
           "table = '''\n"
           "size outside/in inside/in mass/lb/ft price/ft labour/min/ft\n" +
           rows + "'''\n";
}

TEST(BadFile, PipesAreHeldToTheirOwnLaws) {
    const auto sound = load({file_of(one_pipe("5 5.125 4.9 7.6 80 9\n"))});
    ASSERT_TRUE(sound) << describe(sound.error());
    const Pipe* pipe = sound->pipe("pipe/copper-l/5");
    ASSERT_NE(pipe, nullptr);
    EXPECT_NEAR(pipe->price_per_metre, 80 / 0.3048, 1e-9);
    EXPECT_NEAR(pipe->labour_per_metre.value(), 9 * 60 / 0.3048, 1e-9);
    EXPECT_NEAR(pipe->mass / pound_per_foot, 7.6, 1e-9);
    EXPECT_THAT(refusal(one_pipe("5 4.9 4.9 7.6 80 9\n")),
                AllOf(StartsWith("own.toml:12:1: "), HasSubstr("inside < outside")));
    EXPECT_THAT(refusal(one_pipe("- 5.125 4.9 7.6 80 9\n")), HasSubstr("a pipe without 'size'"));
    EXPECT_THAT(refusal(one_pipe("5 5.125 - 7.6 80 9\n")), HasSubstr("5: 'inside' is missing"));
    EXPECT_THAT(refusal(one_pipe("5 5.125 4.9 7.6 80 9\n", "price = 3\n")), HasSubstr("price: is by length"));
}

}  // namespace
}  // namespace bw::catalogue
