// SPDX-License-Identifier: MIT
// The IFC file as web-ifc reads it: lawful by the schema, and the plant it was made from.
#include <algorithm>
#include <map>
#include <regex>
#include <set>

#include "kit.h"
#include "model/guid.h"
#include "model/part21.h"

namespace bw::test {
namespace {

using text::Part;
using text::Service;

/// One example's file, read once and looked at from every side.
struct Seen {
    const design::Result& result;
    const plant::Plant& plant;
    const Json read;

    [[nodiscard]] double number(const std::string& piece, const char* set, const char* name) const {
        const auto& value = read["elements"][piece]["sets"][set][name];
        EXPECT_TRUE(value.is_string()) << piece << " has no " << set << "." << name;
        return value.is_string() ? std::stod(value.get<std::string>()) : 0;
    }

    void keeps_the_schema() const;
    void has_every_piece_as_one_element() const;
    void stands_where_the_pieces_do() const;
    void is_joined_as_the_plant_is() const;
    void flows_from_port_to_port() const;
    void holds_systems() const;
    void weighs_what_the_parts_list_weighs() const;
    void adds_up_flows() const;
};

void Seen::keeps_the_schema() const {
    EXPECT_EQ(read["schema"], "IFC4");
    EXPECT_EQ(read["broken"], Json::array());
    EXPECT_EQ(read["said"], Json::array());
}

void Seen::has_every_piece_as_one_element() const {
    const std::map<Part, std::string> classes{
        {Part::heater, "IfcBoiler WATER"},
        {Part::pipe, "IfcPipeSegment RIGIDSEGMENT"},
        {Part::flexible_gas, "IfcPipeSegment FLEXIBLESEGMENT"},
        {Part::elbow, "IfcPipeFitting BEND"},
        {Part::tee, "IfcPipeFitting JUNCTION"},
        {Part::union_joint, "IfcPipeFitting CONNECTOR"},
        {Part::gas_valve, "IfcValve GASCOCK"},
        {Part::service_valve_cold, "IfcValve ISOLATING"},
        {Part::relief_valve, "IfcValve PRESSURERELIEF"},
        {Part::regulator, "IfcValve PRESSUREREDUCING"},
        {Part::vent_pipe, "IfcDuctSegment RIGIDSEGMENT"},
        {Part::pump, "IfcPump CIRCULATOR"},
        {Part::cable, "IfcCableSegment CABLESEGMENT"},
        {Part::frame_post, "IfcMember POST"},
        {Part::anchor, "IfcMechanicalFastener ANCHORBOLT"},
    };
    const auto own = own_pieces(plant);
    EXPECT_EQ(read["elements"].size(), own.size());
    std::map<std::string, int> expected;
    for (const auto* piece : own) {
        ASSERT_TRUE(read["elements"].contains(piece->id)) << piece->id;
        const auto& element = read["elements"][piece->id];
        EXPECT_EQ(element["tag"], piece->item) << piece->id;
        EXPECT_EQ(element["type"], piece->item) << piece->id;
        EXPECT_EQ(element["within"], "IfcSpace") << piece->id;
        const auto known = classes.find(piece->part);
        if (known == classes.end()) continue;
        EXPECT_EQ(element["class"].get<std::string>() + " " + element["kind"].get<std::string>(), known->second)
            << piece->id;
        ++expected[known->second.substr(0, known->second.find(' '))];
    }
    EXPECT_EQ(read["counts"]["IfcBoiler"], expected["IfcBoiler"]);
    EXPECT_EQ(read["counts"]["IfcBoiler"], result.capacity.installed);
    EXPECT_GE(read["counts"]["IfcPipeSegment"], expected["IfcPipeSegment"]);
    EXPECT_GE(read["counts"]["IfcValve"], expected["IfcValve"]);
    for (const auto* one : {"IfcProject", "IfcSite", "IfcBuilding", "IfcBuildingStorey", "IfcSpace"})
        EXPECT_EQ(read["counts"][one], 1) << one;
}

void Seen::stands_where_the_pieces_do() const {
    const auto& room = result.survey.room;
    EXPECT_NEAR(read["space"]["volume"].get<double>(), shape::signed_area(room.plan) * room.ceiling->value(), 1e-4);
    for (const auto* piece : own_pieces(plant)) {
        const auto& element = read["elements"][piece->id];
        ASSERT_EQ(element.contains("volume"), !piece->solids.empty()) << piece->id;
        if (piece->solids.empty()) continue;
        expect_same_bounds(element, *piece, 5e-3);  // the reader makes twelve-sided circles of its own
        EXPECT_NEAR(element["volume"].get<double>(), volume_of(*piece), 0.06 * volume_of(*piece)) << piece->id;
    }
}

void Seen::is_joined_as_the_plant_is() const {
    std::set<std::set<std::string>> expected, joined;
    std::set<std::string> loose;  // what meets the building
    const auto own = [&](plant::PortRef r) {
        return plant.pieces[static_cast<std::size_t>(r.piece)].part != Part::connection;
    };
    const auto port_name = [&](plant::PortRef r) {
        return plant.pieces[static_cast<std::size_t>(r.piece)].id + "." + plant.at(r).name;
    };
    std::size_t held = 0;
    for (const auto& joint : plant.joints) {
        const bool flows = plant.at(joint.a).service != Service::structure;
        if (own(joint.a) && own(joint.b)) {
            flows ? void(expected.insert({port_name(joint.a), port_name(joint.b)})) : void(++held);
        } else if (flows && (own(joint.a) || own(joint.b))) {
            loose.insert(port_name(own(joint.a) ? joint.a : joint.b));
        }
    }
    for (const auto& pair : read["joined"]) joined.insert({pair[0].get<std::string>(), pair[1].get<std::string>()});
    EXPECT_EQ(joined, expected);
    EXPECT_EQ(read["joined"].size(), expected.size());
    EXPECT_EQ(read["held"].size(), held);
    EXPECT_EQ(read["ports"].size(), 2 * expected.size() + loose.size()) << "every port is joined or meets the building";
    for (const auto& [name, port] : read["ports"].items()) {
        EXPECT_EQ(port["meets"].is_string(), loose.contains(name)) << name;
        EXPECT_TRUE(name.starts_with(port["owner"].get<std::string>() + ".")) << name;
    }
}

void Seen::flows_from_port_to_port() const {
    int told = 0;
    for (const auto& pair : read["joined"]) {
        const auto a = read["ports"][pair[0].get<std::string>()]["flow"].get<std::string>(),
                   b = read["ports"][pair[1].get<std::string>()]["flow"].get<std::string>();
        const bool opposite = (a == "SOURCE" && b == "SINK") || (a == "SINK" && b == "SOURCE");
        EXPECT_TRUE(opposite || a == b) << pair << " " << a << " " << b;
        EXPECT_FALSE(a == b && (a == "SOURCE" || a == "SINK")) << pair;
        told += opposite;
    }
    EXPECT_GT(told, 0.9 * static_cast<double>(read["joined"].size())) << "all but the heaters' link has a direction";
    for (const auto* piece : own_pieces(plant)) {
        if (piece->part != Part::heater) continue;
        const auto flow = [&](const char* port) { return read["ports"][piece->id + "." + port]["flow"]; };
        for (const auto* in : {"gas", "cold", "power"}) EXPECT_EQ(flow(in), "SINK") << piece->id << "." << in;
        for (const auto* out : {"hot", "exhaust"}) EXPECT_EQ(flow(out), "SOURCE") << piece->id << "." << out;
    }
}

void Seen::holds_systems() const {
    const std::map<std::string, std::string> kinds{
        {"gas", "GAS"},         {"cold", "DOMESTICCOLDWATER"}, {"hot", "DOMESTICHOTWATER"},
        {"exhaust", "EXHAUST"}, {"condensate", "DRAINAGE"},    {"power", "ELECTRICAL"}};
    for (const auto& [name, kind] : kinds) EXPECT_EQ(read["systems"][name]["kind"], kind);
    EXPECT_FALSE(read["systems"].contains("structure"));
    for (const auto* piece : own_pieces(plant)) {
        const auto systems = read["elements"][piece->id]["systems"].get<std::vector<std::string>>();
        if (piece->part == Part::heater)
            EXPECT_GE(systems.size(), 6u) << piece->id;
        else if (piece->service == Service::structure)
            EXPECT_TRUE(systems.empty()) << piece->id;
        else
            EXPECT_EQ(systems, std::vector{std::string(text::name(piece->service))}) << piece->id;
    }
}

void Seen::weighs_what_the_parts_list_weighs() const {
    std::map<std::string, double> by_item;
    for (const auto& [id, element] : read["elements"].items()) {
        const auto set = "Qto_" + element["class"].get<std::string>().substr(3) + "BaseQuantities";
        by_item[element["tag"]] += number(id, set.c_str(), "GrossWeight");
    }
    const auto& estimate = result.chosen->estimate;
    double whole = 0, listed = 0;
    std::map<std::string, double> lines;
    for (const auto& line : estimate.lines) lines[line.item] += line.mass, listed += line.mass;
    for (const auto& [item, mass] : by_item) {
        EXPECT_NEAR(mass, lines[item], 1e-6 * mass + 1e-9) << item;
        whole += mass;
    }
    EXPECT_NEAR(whole, listed, 1e-6 * listed);
}

void Seen::adds_up_flows() const {
    double water = 0, gas = 0;
    for (int n = 1; n <= result.capacity.installed; ++n) {
        const auto heater = "heater-" + std::to_string(n);
        water += number(heater, "Bankwright_Flow", "WaterFlowRate");
        gas += number(heater, "Bankwright_Flow", "GasFlowRate");
        EXPECT_GT(number(heater, "Bankwright_Flow", "ColdPressure"), number(heater, "Bankwright_Flow", "HotPressure"));
        EXPECT_GT(number(heater, "Bankwright_Flow", "GasPressure"), 0);
        EXPECT_LT(number(heater, "Bankwright_Flow", "GasPressure"), result.survey.gas.delivery_pressure->value());
    }
    const auto next_to = [&](const char* site) {
        return plant.pieces[static_cast<std::size_t>(plant.mate({plant.find(site), 0}).piece)].id;
    };
    EXPECT_NEAR(number(next_to("site.gas"), "Bankwright_Flow", "FlowRate"), gas, 1e-6 * gas);
    EXPECT_NEAR(number(next_to("site.cold"), "Bankwright_Flow", "FlowRate"), water, 1e-6 * water);
    EXPECT_LE(number(next_to("site.cold"), "Bankwright_Flow", "PressureAtRunStart"),
              result.survey.supply.pressure->value() * (1 + 1e-9));
    EXPECT_NEAR(gas,
                result.capacity.installed * (result.capacity.each.input / *result.survey.gas.heating_value).value(),
                1e-6 * gas);
}

class Ifc : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, Ifc, ::testing::ValuesIn(example_names));

TEST_P(Ifc, ReadsAsThePlant) {
    const auto& result = designed(GetParam());
    const Seen seen{result, result.chosen->built.plant,
                    read_by("ifc", model::ifc(result, demo_catalogue()).value(), "plant.ifc")};
    seen.keeps_the_schema();
    seen.has_every_piece_as_one_element();
    seen.stands_where_the_pieces_do();
    seen.is_joined_as_the_plant_is();
    seen.flows_from_port_to_port();
    seen.holds_systems();
    seen.weighs_what_the_parts_list_weighs();
    seen.adds_up_flows();
}

/// GUIDs of what has a name, by class and name.
std::map<std::string, std::string> guids(const design::Result& result) {
    const std::regex named("=(IFC[A-Z0-9]+)\\('([0-3][0-9A-Za-z_$]{21})',[$],('[^']*')");
    const auto text = model::ifc(result, demo_catalogue()).value();
    std::map<std::string, std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), named), end; at != end; ++at)
        found[(*at)[1].str() + (*at)[3].str()] = (*at)[2];
    return found;
}

TEST(IfcText, IdentifiersStayWhileThePieceStaysAndTheJobIsTheSame) {
    const auto& result = designed("wash-house");
    const auto before = guids(result);
    EXPECT_GT(before.size(), 1000u);
    auto later = result;
    later.survey.date = "2030-01-01";
    auto& pieces = later.chosen->built.plant.pieces;
    pieces.front().mass_dry += 1;
    pieces.back().solids.clear();
    EXPECT_EQ(guids(later), before);
    EXPECT_NE(model::ifc(later, demo_catalogue()).value(), model::ifc(result, demo_catalogue()).value());
    later.survey.job += ", another";
    for (const auto& [name, guid] : guids(later))
        if (before.contains(name)) {
            EXPECT_NE(before.at(name), guid) << name;
        }
}

TEST(IfcReader, SeesPlantedFaults) {
    const auto good = model::ifc(designed("wash-house"), demo_catalogue()).value();
    const std::vector<std::pair<std::regex, std::string>> faults{
        {std::regex("\\.SINK\\."), ".SUNK."},                                        // no such word
        {std::regex("(IFCVALVE\\('[^']*',\\$,'[^']*',\\$,'[^']*',)#\\d+"), "$1#5"},  // placed by a context
        {std::regex("IFCPOWERMEASURE\\("), "IFCPOINT("},                             // not a value
        {std::regex("(IFCBOILER\\([^;]*),\\.WATER\\."), "$1"},                       // an attribute short
        {std::regex("(IFCDISTRIBUTIONSYSTEM\\()'[^']*'"), "$1'40000000000000000000000'"},
    };
    auto bad = good;
    for (const auto& [what, with] : faults) {
        const auto before = bad;
        bad = std::regex_replace(bad, what, with, std::regex_constants::format_first_only);
        ASSERT_TRUE(bad != before) << with;
    }
    const auto broken = read_by("ifc", bad, "bad.ifc")["broken"];
    EXPECT_EQ(broken.size(), faults.size()) << broken;
}

TEST(IfcText, IsTheSameTwice) {
    EXPECT_TRUE(model::ifc(designed("hostel"), demo_catalogue()).value() ==
                model::ifc(designed("hostel"), demo_catalogue()).value());
}

/// 20 by 13 ft, 10 ft high, falling to 8 ft at wall 3, which runs along y = 13 ft.
TEST(IfcSpace, EndsAtASlopingCeiling) {
    constexpr double cubic_foot = 0.3048 * 0.3048 * 0.3048;
    auto result = designed("sports-hall");
    result.survey.room.slope = survey::CeilingSlope{2, 8.0 * units::foot};
    const auto read = read_by("ifc", model::ifc(result, demo_catalogue()).value(), "sloping.ifc");
    EXPECT_EQ(read["broken"], Json::array());
    EXPECT_EQ(read["said"], Json::array());
    EXPECT_NEAR(read["space"]["volume"].get<double>(), 20 * 13 * 9 * cubic_foot, 1e-4);
    EXPECT_NEAR(read["space"]["high"][2].get<double>(), 10 * 0.3048, 1e-6);
}

TEST(Guid, IsBase64OfIfcsOwn) {
    std::array<unsigned char, 16> bytes{};
    EXPECT_EQ(model::compressed(bytes), "0000000000000000000000");
    bytes.fill(0xFF);
    EXPECT_EQ(model::compressed(bytes), "3$$$$$$$$$$$$$$$$$$$$$");
    bytes = {};
    bytes[15] = 0x3F;  // the last digit's six bits
    EXPECT_EQ(model::compressed(bytes), "000000000000000000000$");
    bytes = {0x40};  // the first digit's two bits
    EXPECT_EQ(model::compressed(bytes), "1000000000000000000000");
    bytes = {};
    bytes[1] = 0x01;
    EXPECT_EQ(model::compressed(bytes), "000G000000000000000000") << "bytes 2 to 4 are digits 3 to 6";
}

TEST(Guid, FollowsProjectKindAndName) {
    const model::Guids one("one"), same("one"), two("two");
    EXPECT_EQ(one("piece", "heater-1"), same("piece", "heater-1"));
    EXPECT_NE(one("piece", "heater-1"), two("piece", "heater-1"));
    EXPECT_NE(one("piece", "heater-1"), one("port", "heater-1"));
    EXPECT_EQ(one("piece", "heater-1").size(), 22u);
}

TEST(Part21, StringsAndReals) {
    EXPECT_EQ(model::quoted21("it's a \\"), "'it''s a \\\\'");
    EXPECT_EQ(model::quoted21("caf\xC3\xA9"), "'caf\\X2\\00E9\\X0\\'");
    EXPECT_EQ(model::quoted21("\xF0\x9F\x9A\xBF!"), "'\\X4\\0001F6BF\\X0\\!'");
    EXPECT_EQ(model::quoted21("a\xFF z"), "'a? z'");
    EXPECT_EQ(model::ascii21("#1=A('caf\xC3\xA9 it''s \\\\',\n'two\nlines');\n"),
              "#1=A('caf\\X2\\00E9\\X0\\ it''s \\\\',\n'twolines');\n");
    EXPECT_EQ(model::ascii21("\t#1=A('a\x1B]0;b\x07\x7F\xC2\x9B\xFF');\n"),
              "\t#1=A('a\\X2\\001B\\X0\\]0;b\\X2\\0007\\X0\\\\X2\\007F\\X0\\\\X2\\009B\\X0\\?');\n");
    EXPECT_EQ(model::time_stamp("2026-03-02"), "2026-03-02T00:00:00");
    EXPECT_EQ(model::time_stamp("March 2026"), "");
    EXPECT_EQ(model::real(3), "3.");
    EXPECT_EQ(model::real(-0.0254), "-0.0254");
    EXPECT_EQ(model::real(0), "0.");
    EXPECT_EQ(model::real(2.5e-7), "2.5E-07");
    EXPECT_EQ(model::real(1e15), "1.E+15");
}

TEST(IfcText, TitlesOfAnyKindStayReadable) {
    auto result = designed("hostel");
    result.survey.job = "O'Neil's \\ \"bath\", caf\xC3\xA9";
    const auto read = read_by("ifc", model::ifc(result, demo_catalogue()).value(), "odd.ifc");
    EXPECT_EQ(read["broken"], Json::array());
    EXPECT_EQ(read["said"], Json::array());
    EXPECT_EQ(read["project"], result.survey.job);
}

}  // namespace
}  // namespace bw::test
