// SPDX-License-Identifier: MIT
#include "survey/survey.h"

namespace bw::survey {

std::string starter() {
    return R"toml(# A survey of a hot-water job: what is needed, what comes in, the room, and what you would like.
# This one runs as it stands; put your own figures in. Place and figures are invented for the demo.
#
# Quantities are text with their unit: "6 ft 3-1/2 in", "60 psi", "7 inH2O", "120 degF", "2 gpm", "199 kBtu/h";
# metric units are read too: "1900 mm", "4 bar", "49 degC", "0.13 L/s", "58 kW".
# Lines that begin with "# " and hold a key show what is taken where you leave it out. Every default taken is listed
# in the report, to be confirmed on site; code checks that rest on one that bears on safety refer until it is.

[job]
title = "New job"
# prepared-by = ""
# revision = ""
# date = ""

# ---------------------------------------------------------------- who uses the water

[building]
kind = "club"                    # apartment, club, gymnasium, hospital, hotel, industrial, office, residence, school
# care = false                   # patients, elderly people or children
# chemistry-in-air = false       # laundry, pool or salon chemistry where the heaters would draw their air
# percentile = "99 %"            # of the busiest hour's moments, for the probability method
# busy.shower-public = "25 %"    # share of the busiest hour one of them runs, where you measured or judged it
# method = "automatic"           # fixture-units, fixture-units-nspc, fixture-probability: whose peak governs

[building.fixtures]              # how many of each that take hot water
shower-public = 8
basin-public = 6
kitchen-sink-commercial = 1
service-sink = 1
# others: bar-sink basin-private bath-shower bathtub bidet clothes-washer clothes-washer-public dishwasher foot-basin
# kitchen-sink laundry-tub pantry-sink shower urinal water-closet

# Loads that run together at full flow: gang showers, washers, filling. Once for each kind.
# [[building.block]]
# name = "gang showers"
# count = 10
# flow = "2 gpm"                 # each, as it is drawn
# temperature = "105 degF"       # as it is drawn, mixed
# shower-heads = 10              # among them, for the hourly method
# runs = "06:00-07:30, 18:00-19:00"  # every day; left out: in the busiest hour

# People or dwellings, for the methods that count them.
# [[building.occupancy]]
# kind = "dormitory-men"
# count = 40

# ---------------------------------------------------------------- what comes in from the street

[supply]
# pressure = "60 psi"            # static, gauge
# hardness = "120 mg/L"          # as CaCO3
# coldest = "40 degF"            # coldest water of the year, measured; or found from the two below
# mean-air = "52 degF"           # mean outdoor air of the year
# air-swing = "45 degF"          # warmest less coldest month's mean
# southern = false               # south of the equator
# closed = true                  # check valve, reducer or backflow preventer on the service

[gas]
kind = "natural"                 # natural, propane
# heating-value = "1000 Btu/ft3" # propane: "2500 Btu/ft3"
# specific-gravity = 0.60        # propane: 1.50
# delivery-pressure = "7 inH2O"  # where the plant's gas pipe begins; propane: "11 inH2O"
# allowed-drop = "0.5 inH2O"     # from there to a heater; 2 psi and more: half the delivery pressure
# meter = "2000 ft3/h"           # its capacity; left out, it is listed as not known
# low-sulphide = false           # utility's word for it, which copper gas pipe needs

# What else burns on the same meter; `other = []` in [gas] states that there is nothing.
# [[gas.other]]
# name = "kitchen range"
# input = "100 kBtu/h"

[site]
# altitude = "0 ft"
# seismic-sds = 0.8              # g, from the structural engineer; without it earthquake checks refer
# seismic-importance = 1.0
# seismic-height-ratio = 0.0     # of this floor: 0 at grade, 1 under the roof

[water]
# distribution = "125 degF"      # leaving the plant; as hot as the hottest block load where that is more
# use = "105 degF"               # mixed, at the taps

[recirculation]
# present = true                 # by the kind of building
# flow = "3 gpm"                 # left out, it is found from the loss and the drop
# loss = "8 kBtu/h"              # left out, guessed from the number of outlets
# drop = "10 degF"               # supply to return
# head = "6 ft"                  # what the building's loop takes at that flow, where its designer gives it

# [[recirculation.branch]]       # or each way of the building's loop, out and back
# name = "east risers"
# length = "120 ft"              # hot pipe from the plant to where the return begins
# size = "1"
# return-length = "120 ft"
# return-size = "3/4"
# material = "copper-l"
# insulation = "1 in"            # left out, the energy code's least; "0 in" where the pipe is bare
# fittings = "50 %"              # what they add to the loss of pressure

# ---------------------------------------------------------------- the room
# Corners from any origin, going round once. Wall 1 runs from the first corner to the second, and so on.

[room]
plan = [["0 ft", "0 ft"], ["18 ft", "0 ft"], ["18 ft", "12 ft"], ["0 ft", "12 ft"]]
ceiling = "9 ft 6 in"
# ceiling-slope = { wall = 4, low = "8 ft" } # where it slopes: from `ceiling`, falling evenly towards that wall
# air-changes = 0.2              # an hour, by leakage
# freezing = false               # the room or its drain can freeze
# terminal-clear = false         # the vent outlet's surroundings were surveyed and are clear by code

[[room.wall]]
number = 1
build = "masonry"                # concrete, masonry, wood-stud, steel-stud, glass
combustible = false
outside = false
rated = false                    # fire-rated: holes are firestopped

[[room.wall]]
number = 2
build = "masonry"
combustible = false
outside = true
rated = false

# Walls not given are taken as wood studs, combustible, inside and rated.

[[room.door]]
wall = 4
offset = "4 ft"                  # from the wall's first corner to the near jamb
width = "36 in"
# height = "6 ft 8 in"
swings-in = false
# hinge-far = false              # hinge on the jamb farther from the wall's first corner

[room.way-in]
# corridor = "36 in"             # clear width
# corridor-after-turn = "36 in"  # "0 in" where it does not turn
# ceiling = "7 ft"

# [[room.obstacle]]
# name = "old tank"
# from = ["8 ft", "5 ft", "0 ft"]     # two opposite corners: x, y, height above the floor
# to = ["9 ft", "6 ft", "7 ft"]

# ---------------------------------------------------------------- where the plant meets the building
# Left out, places are assumed. `facing` is square to the nearest wall, floor or ceiling unless you say +x, -x, +y, -y,
# up or down.

[connections.gas]
at = ["18 ft", "8 ft", "1 ft 6 in"]
# size = "2"                     # of the pipe that is there
# facing = "-x"

[connections.cold]
at = ["18 ft", "7 ft", "2 ft 6 in"]

[connections.hot]
at = ["18 ft", "6 ft", "7 ft"]

[connections.recirculation]
at = ["18 ft", "5 ft", "2 ft 6 in"]

[connections.drain]
at = ["16 ft", "6 ft", "0 ft"]

[connections.exhaust]
at = ["18 ft", "11 ft", "8 ft 6 in"]

[connections.intake]
at = ["18 ft", "1 ft", "8 ft 6 in"]

[connections.panel]
at = ["0 ft", "3 ft", "5 ft"]

# ---------------------------------------------------------------- by which rules
# Without the adopted codes and their editions no code check can pass: it refers.
# IFGC, NFPA 54, IPC, UPC, IMC, UMC, NEC, IBC, IFC, IECC, ASCE 7, ASHRAE 90.1

[[codes]]
document = "IFGC"
edition = "2018"
# amendments = ""

[[codes]]
document = "IPC"
edition = "2018"

[safety]
# emergency-stop-required = true # at the door
# co-alarm-required = true

# ---------------------------------------------------------------- how you would like it built

[preferences]
# gas-pipe = "steel-40"          # steel-40, steel-80, stainless-10s, copper-k, copper-l, csst
# water-pipe = "copper-l"        # copper-k, copper-l, copper-m, stainless-10s, cpvc
# vent-pipe = "vent-polypropylene"  # vent-polypropylene, vent-cpvc, vent-pvc
# arrangement = "any"            # any, wall, rack-one-sided, rack-two-sided
# vent = "any"                   # any, single, common
# room-air = false               # true: heaters burn the room's air
# spare = "none"                 # none, one, share, share-one-down; one where people are in care
# spare-share = "25 %"           # of the peak: more than it (share), or met with one down (share-one-down: "75 %")
# scale-allowance = "0 %"        # of a heater's output, given up to scale between cleanings
# tank = "500 gal"               # a store wished for, shown beside the heaters it would save
# heater = "demo-199"            # catalogue key; left out, the model of least cost that fits
# place = "wall-2-at-30"         # a layout that `bankwright compare` lists, or what its name begins with: "wall-2"
# labour-rate = 85               # USD an hour
# markup = "15 %"                # on parts
# most-in-line = 8               # heaters in one line before the plant is split
# most-in-assembly = 16
# header-serves = 4              # heaters one header length serves
# gas-by-engineering = false     # true: gas pipe by the pressure solved at every heater, where that is accepted

[preferences.prices]             # catalogue key and your own price
# "pipe/copper-l/2" = "21.50 USD/ft"
# "demo-199" = "3100 USD"
)toml";
}

}  // namespace bw::survey
