// SPDX-License-Identifier: MIT
#include "job.h"

namespace bw::bench {
namespace {

/// Sixteen heaters in a roomy cellar; invented for the benchmark.
constexpr const char* sixteen_heaters = R"(
[job]
title = "Sixteen heaters, invented for the benchmark"

[building]
kind = "gymnasium"

[building.fixtures]
basin-public = 2

[[building.block]]
name = "gang showers"
count = 34
flow = "2 gpm"
temperature = "120 degF"
shower-heads = 34

[supply]
pressure = "65 psi"
coldest = "45 degF"
closed = true

[gas]
kind = "natural"
heating-value = "1030 Btu/ft3"
specific-gravity = 0.60
delivery-pressure = "2 psi"
allowed-drop = "1 psi"
meter = "6000 ft3/h"

[site]
altitude = "0 ft"

[water]
distribution = "120 degF"

[room]
plan = [["0 ft", "0 ft"], ["50 ft", "0 ft"], ["50 ft", "30 ft"], ["0 ft", "30 ft"]]
ceiling = "12 ft"

[[room.wall]]
number = 1
build = "concrete"
combustible = false
outside = true
rated = false

[[room.wall]]
number = 2
build = "concrete"
combustible = false
outside = true
rated = false

[[room.wall]]
number = 3
build = "concrete"
combustible = false
outside = false
rated = false

[[room.wall]]
number = 4
build = "concrete"
combustible = false
outside = true
rated = false

[[room.door]]
wall = 3
offset = "20 ft"
width = "36 in"
height = "6 ft 8 in"
swings-in = false

[connections.gas]
at = ["0 ft", "14 ft", "1 ft 6 in"]
size = "3"

[connections.cold]
at = ["0 ft", "13 ft", "2 ft 6 in"]
size = "3"

[connections.hot]
at = ["0 ft", "12 ft", "7 ft"]
size = "3"

[connections.drain]
at = ["2 ft", "10 ft", "0 ft"]

[connections.exhaust]
at = ["50 ft", "20 ft", "10 ft"]

[connections.intake]
at = ["50 ft", "5 ft", "10 ft"]

[connections.panel]
at = ["20 ft", "30 ft", "5 ft"]

[[codes]]
document = "IFGC"
edition = "2018"

[[codes]]
document = "IPC"
edition = "2018"

[preferences]
heater = "demo-199"
spare = "one"
)";

}  // namespace

Result<Job> sixteen() {
    auto survey = survey::parse(sixteen_heaters, "sixteen.toml");
    if (!survey) return tl::unexpected(survey.error());
    auto catalogue = catalogue::load();
    if (!catalogue) return tl::unexpected(catalogue.error());
    return Job{std::move(*survey), std::move(*catalogue)};
}

}  // namespace bw::bench
