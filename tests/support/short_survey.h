// SPDX-License-Identifier: MIT
#pragma once
// What the shortest surveys that read have in common.

namespace bw::test {

inline constexpr const char* gas_and_room = R"([gas]
kind = "natural"
[room]
plan = [["0 ft", "0 ft"], ["16 ft", "0 ft"], ["16 ft", "10 ft"], ["0 ft", "10 ft"]]
ceiling = "9 ft"
[[room.door]]
wall = 4
offset = "3 ft"
width = "36 in"
)";

}  // namespace bw::test
