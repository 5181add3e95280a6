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
/// Use of `count` served by the row named; a count the row is not for is said so. Fails on a count below one or above a
/// million.
[[nodiscard]] Result<Ruled<OccupancyUse>> occupancy_use(Occupancy occupancy, double count);
/// The same with motels and apartments read between the rows for smaller and larger ones, as the handbook's note to the
/// table has it (from memory); whichever row of the family is named.
[[nodiscard]] Result<Ruled<OccupancyUse>> occupancy_use_between(Occupancy occupancy, double count);

}  // namespace bw::code

namespace bw::text {
template <>
Words words_of<code::Occupancy>();
}  // namespace bw::text
