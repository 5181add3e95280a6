// SPDX-License-Identifier: MIT
// A survey that states everything: every field of the struct is set by the file and differs from its default.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "survey/fields.h"
#include "survey/survey.h"
#include "text/toml.h"

namespace bw::survey {
namespace {

const char* const everything = R"([job]
title = "Everything"
prepared-by = "Someone"
revision = "C"
date = "2026-01-31"
[building]
kind = "school"
care = true
chemistry-in-air = true
percentile = "98 %"
method = "fixture-probability"
busy.shower-public = "40 %"
[building.fixtures]
shower-public = 4
[[building.block]]
name = "fill"
count = 2
flow = "4 gpm"
temperature = "110 degF"
shower-heads = 1
runs = "06:00-07:30, 23:00-01:00"
[[building.occupancy]]
kind = "school-secondary"
count = 300
[supply]
pressure = "71 psi"
hardness = "88 mg/L"
coldest = "51 degF"
mean-air = "55 degF"
air-swing = "40 degF"
southern = true
closed = false
[gas]
kind = "propane"
heating-value = "2480 Btu/ft3"
specific-gravity = 1.52
delivery-pressure = "12 inH2O"
allowed-drop = "0.7 inH2O"
meter = "900 ft3/h"
low-sulphide = true
[[gas.other]]
name = "range"
input = "90 kBtu/h"
[site]
altitude = "1234 ft"
seismic-sds = 0.77
seismic-importance = 1.5
seismic-height-ratio = 0.25
[water]
distribution = "141 degF"
use = "108 degF"
[recirculation]
present = true
flow = "5 gpm"
loss = "21 kBtu/h"
drop = "9 degF"
head = "7 ft"
[[recirculation.branch]]
name = "east"
length = "120 ft"
size = "1"
return-length = "110 ft"
return-size = "1/2"
material = "cpvc"
insulation = "0.75 in"
fittings = "40 %"
[room]
plan = [["0 ft", "0 ft"], ["16 ft", "0 ft"], ["16 ft", "10 ft"], ["0 ft", "10 ft"]]
ceiling = "9 ft"
ceiling-slope = { wall = 4, low = "8 ft 10 in" }
air-changes = 0.7
freezing = true
terminal-clear = true
[[room.wall]]
number = 1
build = "glass"
combustible = false
outside = true
rated = false
[[room.door]]
wall = 4
offset = "3 ft"
width = "36 in"
height = "7 ft"
swings-in = false
hinge-far = true
[room.way-in]
corridor = "50 in"
corridor-after-turn = "44 in"
ceiling = "8 ft"
[[room.obstacle]]
name = "column"
from = ["12 ft", "8 ft", "0 ft"]
to = ["11 ft", "9 ft", "9 ft"]
[connections.gas]
at = ["16 ft", "5 ft", "2 ft"]
size = "1-1/2"
facing = "up"
[connections.cold]
at = ["16 ft", "4 ft", "2 ft"]
[connections.hot]
at = ["16 ft", "3 ft", "7 ft"]
[connections.recirculation]
at = ["16 ft", "2 ft", "2 ft"]
[connections.drain]
at = ["14 ft", "5 ft", "0 ft"]
[connections.exhaust]
at = ["16 ft", "9 ft", "8 ft"]
[connections.intake]
at = ["3 ft", "0 ft", "8 ft"]
[connections.panel]
at = ["0 ft", "2 ft", "5 ft"]
[[codes]]
document = "IFGC"
edition = "2018"
amendments = "county ordinance 7"
[safety]
emergency-stop-required = false
co-alarm-required = false
[preferences]
gas-pipe = "copper-k"
water-pipe = "cpvc"
vent-pipe = "vent-pvc"
arrangement = "rack-two-sided"
vent = "single"
room-air = true
spare = "share"
spare-share = "30 %"
scale-allowance = "5 %"
tank = "300 gal"
heater = "demo-160"
place = "wall-2-at-30"
labour-rate = 77
markup = "22 %"
most-in-line = 6
most-in-assembly = 12
header-serves = 3
gas-by-engineering = true
[preferences.prices]
"pipe/copper-l/2" = "20 USD/ft"
"demo-160" = "2500 USD"
)";

/// Paths of all keys in a document; entries of a list share one path.
void collect(const text::Node& node, const std::string& path, std::vector<std::string>& out) {
    out.push_back(path);
    for (const auto& [key, child] : node.entries()) collect(child, path.empty() ? key : path + "." + key, out);
    for (const auto& item : node.items()) collect(item, path, out);
}

TEST(EveryField, StandsInTheFullSurvey) {
    const auto document = text::Document::parse(everything, "all.toml");
    ASSERT_TRUE(document);
    std::vector<std::string> paths;
    collect(document->root(), "", paths);
    for (auto& path : paths)
        if (path.starts_with("connections.gas"))
            path = "connections" + path.substr(std::string("connections.gas").size());
    for (const auto& field : fields()) EXPECT_THAT(paths, testing::Contains(std::string(field.path)));
    for (const auto& section : sections()) EXPECT_THAT(paths, testing::Contains(std::string(section.path)));
}

class Everything : public testing::Test {
protected:
    void SetUp() override {
        auto read = parse(everything, "all.toml");
        ASSERT_TRUE(read) << describe(read.error());
        survey = *read;
    }
    Survey survey;
};

TEST_F(Everything, JobAndBuilding) {
    EXPECT_EQ(survey.file, "all.toml");
    EXPECT_EQ(survey.job, "Everything");
    EXPECT_EQ(survey.prepared_by, "Someone");
    EXPECT_EQ(survey.revision, "C");
    EXPECT_EQ(survey.date, "2026-01-31");
    EXPECT_EQ(survey.use.building.value, Building::school);
    EXPECT_FALSE(survey.use.building.assumed);
    EXPECT_TRUE(survey.use.care && survey.use.chemistry_in_air);
    EXPECT_EQ(survey.use.fixtures, (std::map<Fixture, int>{{Fixture::shower_public, 4}}));
    ASSERT_EQ(survey.use.blocks.size(), 1u);
    const auto& block = survey.use.blocks[0];
    EXPECT_EQ(block.name, "fill");
    EXPECT_EQ(block.count, 2);
    EXPECT_NEAR(block.flow / gallon_per_minute, 4, 1e-9);
    EXPECT_NEAR(block.temperature.value(), fahrenheit(110).value(), 1e-9);
    EXPECT_EQ(block.shower_heads, 1);
    ASSERT_EQ(survey.use.occupancies.size(), 1u);
    EXPECT_EQ(survey.use.occupancies[0].kind, "school-secondary");
    EXPECT_EQ(survey.use.occupancies[0].count, 300);
}

TEST_F(Everything, TheLoop) {
    const auto& loop = survey.recirculation;
    ASSERT_TRUE(loop.head);
    EXPECT_NEAR(*loop.head / foot, 7, 1e-9);
    ASSERT_EQ(loop.branches.size(), 1u);
    const auto& branch = loop.branches[0];
    EXPECT_EQ(branch.name, "east");
    EXPECT_NEAR(branch.length / foot, 120, 1e-9);
    EXPECT_EQ(branch.size, Nominal{8});
    EXPECT_NEAR(*branch.return_length / foot, 110, 1e-9);
    EXPECT_EQ(*branch.return_size, Nominal{4});
    EXPECT_EQ(*branch.material, Material::cpvc);
    EXPECT_NEAR(*branch.insulation / inch, 0.75, 1e-9);
    EXPECT_NEAR(*branch.fittings, 0.4, 1e-9);
    EXPECT_FALSE(survey.depends_on_fields("recirculation.branch"));
}

TEST_F(Everything, Services) {
    EXPECT_NEAR(survey.supply.pressure.value / psi, 71, 1e-9);
    EXPECT_NEAR(survey.supply.hardness.value, 88, 1e-9);
    EXPECT_NEAR(survey.supply.coldest.value.value(), fahrenheit(51).value(), 1e-9);
    EXPECT_FALSE(survey.supply.closed.value || survey.supply.closed.assumed);
    EXPECT_EQ(survey.gas.kind.value, Gas::propane);
    EXPECT_NEAR(survey.gas.heating_value.value / btu_per_cubic_foot, 2480, 1e-6);
    EXPECT_EQ(survey.gas.specific_gravity.value, 1.52);
    EXPECT_NEAR(survey.gas.delivery_pressure.value / inch_water, 12, 1e-9);
    EXPECT_NEAR(survey.gas.allowed_drop.value / inch_water, 0.7, 1e-9);
    EXPECT_NEAR(survey.gas.meter.value / cubic_foot_per_hour, 900, 1e-9);
    EXPECT_TRUE(survey.gas.low_sulphide.value);
    ASSERT_EQ(survey.gas.other.size(), 1u);
    EXPECT_EQ(survey.gas.other[0].name, "range");
    EXPECT_NEAR(survey.gas.other[0].input / kbtu_per_hour, 90, 1e-9);
    EXPECT_NEAR(survey.altitude.value / foot, 1234, 1e-9);
    EXPECT_EQ(survey.seismic.sds, 0.77);
    EXPECT_EQ(survey.seismic.importance, 1.5);
    EXPECT_EQ(survey.seismic.height_ratio, 0.25);
    EXPECT_NEAR(survey.temperatures.distribution.value.value(), fahrenheit(141).value(), 1e-9);
    EXPECT_NEAR(survey.temperatures.use.value.value(), fahrenheit(108).value(), 1e-9);
    EXPECT_TRUE(survey.recirculation.present.value);
    EXPECT_NEAR(survey.recirculation.flow.value / gallon_per_minute, 5, 1e-9);
    EXPECT_NEAR(survey.recirculation.loss.value / kbtu_per_hour, 21, 1e-9);
    EXPECT_NEAR(survey.recirculation.drop.value / degF_difference, 9, 1e-9);
}

TEST_F(Everything, Room) {
    const auto& room = survey.room;
    EXPECT_EQ(room.plan.size(), 4u);
    EXPECT_NEAR(room.plan[2].x, 16 * 0.3048, 1e-12);
    EXPECT_NEAR(room.ceiling.value / foot, 9, 1e-9);
    ASSERT_TRUE(room.slope);
    EXPECT_EQ(room.slope->wall, 3);
    EXPECT_NEAR(room.slope->low / foot, 8 + 10 / 12.0, 1e-9);
    EXPECT_EQ(room.air_changes.value, 0.7);
    EXPECT_TRUE(room.freezing.value && room.terminal_clear.value);
    const auto& wall = room.walls[0];
    EXPECT_EQ(wall.number, 1);
    EXPECT_EQ(wall.build.value, WallBuild::glass);
    EXPECT_FALSE(wall.build.assumed || wall.combustible.assumed || wall.outside.assumed || wall.rated.assumed);
    EXPECT_TRUE(wall.outside.value);
    EXPECT_FALSE(wall.combustible.value || wall.rated.value);
    ASSERT_EQ(room.doors.size(), 1u);
    const auto& door = room.doors[0];
    EXPECT_EQ(door.wall, 3);
    EXPECT_NEAR(door.offset / foot, 3, 1e-9);
    EXPECT_NEAR(door.width / inch, 36, 1e-9);
    EXPECT_NEAR(door.height / foot, 7, 1e-9);
    EXPECT_TRUE(!door.swings_in.value && door.hinge_far.value);
    EXPECT_NEAR(room.way_in.corridor.value / inch, 50, 1e-9);
    EXPECT_NEAR(room.way_in.corridor_after_turn.value / inch, 44, 1e-9);
    EXPECT_NEAR(room.way_in.ceiling.value / foot, 8, 1e-9);
    ASSERT_EQ(room.obstacles.size(), 1u);
    EXPECT_EQ(room.obstacles[0].name, "column");
    EXPECT_NEAR(room.obstacles[0].box.min.x, 11 * 0.3048, 1e-9);
    EXPECT_NEAR(room.obstacles[0].box.max.z, 9 * 0.3048, 1e-9);
}

TEST_F(Everything, Connections) {
    const auto& room = survey.room;
    EXPECT_NEAR(room.gas.at.y, 5 * 0.3048, 1e-9);
    EXPECT_EQ(room.gas.size, (Nominal{12}));
    EXPECT_EQ(room.gas.facing, shape::up) << "as stated, not as derived";
    EXPECT_EQ(room.cold.facing, (shape::Vec{-1, 0, 0}));
    EXPECT_EQ(room.intake.facing, (shape::Vec{0, 1, 0}));
    EXPECT_EQ(room.drain.facing, shape::up);
    for (const auto* c :
         {&room.gas, &room.cold, &room.hot, &room.recirculation, &room.drain, &room.exhaust, &room.intake, &room.panel})
        EXPECT_TRUE(c->given && !c->assumed_place);
    EXPECT_FALSE(room.cold.size);
}

TEST_F(Everything, RulesAndPreferences) {
    ASSERT_EQ(survey.codes.size(), 1u);
    EXPECT_EQ(survey.codes[0].document, "IFGC");
    EXPECT_EQ(survey.codes[0].edition, "2018");
    EXPECT_EQ(survey.codes[0].amendments, "county ordinance 7");
    EXPECT_FALSE(survey.emergency_stop_required.value || survey.co_alarm_required.value);
    const auto& preferences = survey.preferences;
    EXPECT_EQ(preferences.gas_pipe.value, Material::copper_k);
    EXPECT_EQ(preferences.water_pipe.value, Material::cpvc);
    EXPECT_EQ(preferences.vent_pipe.value, Material::vent_pvc);
    EXPECT_EQ(preferences.arrangement.value, ArrangementPreference::rack_two_sided);
    EXPECT_EQ(preferences.vent.value, VentPreference::single);
    EXPECT_TRUE(preferences.room_air.value);
    EXPECT_TRUE(preferences.engineered_gas.value);
    EXPECT_EQ(preferences.spare.value, SparePolicy::share);
    EXPECT_NEAR(preferences.spare_share.value, 0.30, 1e-12);
    EXPECT_NEAR(preferences.scale_allowance.value, 0.05, 1e-12);
    ASSERT_TRUE(preferences.tank);
    EXPECT_NEAR(*preferences.tank / gallon, 300, 1e-9);
    EXPECT_EQ(preferences.heater, "demo-160");
    EXPECT_EQ(survey.preferences.place, "wall-2-at-30");
    EXPECT_GT(preferences.heater_place.line, 0);
    EXPECT_EQ(preferences.labour_rate.value, 77);
    EXPECT_NEAR(preferences.markup.value, 0.22, 1e-12);
    EXPECT_EQ(preferences.most_in_line.value, 6);
    EXPECT_EQ(preferences.most_in_assembly.value, 12);
    EXPECT_EQ(preferences.header_serves.value, 3);
    EXPECT_NEAR(preferences.prices.at("pipe/copper-l/2"), 20 / 0.3048, 1e-9);
    EXPECT_EQ(preferences.prices.at("demo-160"), 2500);
    EXPECT_GT(preferences.price_places.at("demo-160").line, 0);
}

TEST_F(Everything, WhatDemandIsAsked) {
    EXPECT_NEAR(survey.use.percentile.value, 0.98, 1e-12);
    EXPECT_EQ(survey.use.method.value, MethodPreference::fixture_probability);
    EXPECT_NEAR(survey.use.busy.at(Fixture::shower_public), 0.40, 1e-12);
    const auto& runs = survey.use.blocks.front().runs;
    ASSERT_EQ(runs.size(), 2u);
    EXPECT_EQ(runs[0].from, 360);
    EXPECT_EQ(runs[0].to, 450);
    EXPECT_EQ(runs[1].from, 23 * 60);
    EXPECT_EQ(runs[1].to, 25 * 60) << "over midnight";
    ASSERT_TRUE(survey.supply.mean_air && survey.supply.air_swing);
    EXPECT_NEAR(survey.supply.mean_air->value(), fahrenheit(55).value(), 1e-9);
    EXPECT_NEAR(*survey.supply.air_swing / degF_difference, 40, 1e-9);
    EXPECT_TRUE(survey.supply.southern);
}

TEST_F(Everything, OnlyWallsNotDescribedAreAssumed) {
    for (const auto& a : survey.assumed) EXPECT_TRUE(a.field.starts_with("room.wall.")) << a.field;
    EXPECT_EQ(survey.assumed.size(), 12u);
}

}  // namespace
}  // namespace bw::survey
