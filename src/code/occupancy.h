// SPDX-License-Identifier: MIT
#pragma once
// The handbook's table of hot-water use by those served: largest hour, largest day, average day.

#include <optional>
#include <string_view>

#include "code/clause.h"

namespace bw::code {

enum class Occupancy {
    dormitory_men,
    dormitory_women,
    motel_20,
    motel_60,
    motel_100,
    nursing_home,
    office,
    restaurant_full,
    restaurant_quick,
    apartment_20,
    apartment_50,
    apartment_75,
    apartment_100,
    apartment_200,
    school_elementary,
    school_secondary,
};
/// "motel-20".
[[nodiscard]] std::string_view name(Occupancy occupancy);
/// What is counted: "apartments".
[[nodiscard]] std::string_view counted(Occupancy occupancy);

struct OccupancyUse {
    Volume max_hour{}, max_day{}, average_day{};  ///< of hot water, for the whole count
};
/// Use of `count` served. A row that holds for a number of rooms or dwellings (motel-20: up to 20) is read straight
/// between its neighbours by no rule of the handbook's, so the row named is used and a count far from it is said so.
/// Fails on a count below one or above a million.
[[nodiscard]] Result<Ruled<OccupancyUse>> occupancy_use(Occupancy occupancy, double count);

}  // namespace bw::code

namespace bw::text {
template <>
Words words_of<code::Occupancy>();
}  // namespace bw::text
