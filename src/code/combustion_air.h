// SPDX-License-Identifier: MIT
#pragma once
// Air for combustion, ventilation and dilution. Source: IFGC 2018 304 (NFPA 54 2018 9.3).

#include <optional>

#include "code/clause.h"

namespace bw::code {

enum class Draft { fan_assisted, natural };

/// Room volume of the standard method: 50 ft3 per 1,000 Btu/h. 304.5.1.
[[nodiscard]] Ruled<Volume> indoor_air_volume(Power input);
/// Room volume where the infiltration rate is known: 15/ACH (fan) or 21/ACH (other) ft3 per 1,000 Btu/h. Fails on a
/// rate that is not positive; a rate above 0.60 is taken as 0.60. 304.5.2.
[[nodiscard]] Result<Ruled<Volume>> indoor_air_volume(Power input, double air_changes, Draft draft);

enum class Openings {
    indoors_same_storey,      ///< two, each 1 in2 per 1,000 Btu/h and at least 100 in2
    indoors_other_storey,     ///< one or more, 2 in2 per 1,000 Btu/h in all
    outdoors_two_direct,      ///< each 1 in2 per 4,000 Btu/h, also vertical ducts
    outdoors_two_horizontal,  ///< by horizontal ducts, each 1 in2 per 2,000 Btu/h
    outdoors_one,             ///< 1 in2 per 3,000 Btu/h, and not less than the vents' areas together
};
struct AirOpening {
    int number = 0;
    Area each{};  ///< free area
};
[[nodiscard]] Ruled<AirOpening> air_opening(Power input, Openings method);
/// Gross area of a louver for a free area. `free_share` is the louver's own, else metal 0.75 or wood 0.25. Fails
/// outside (0, 1]. 304.10.
[[nodiscard]] Result<Ruled<Area>> louver_area(Area free, std::optional<Ratio> free_share = {}, bool wood = false);
/// Least side of an opening or duct: 3 in. 304.5.3, 304.6.
[[nodiscard]] Clause<Length> air_opening_least_side();
/// Top and bottom openings start within this of ceiling and floor: 12 in.
[[nodiscard]] Clause<Length> air_opening_reach();
/// Mechanical supply: 0.35 cfm per 1,000 Btu/h; interlocked with the burners. 304.9.
[[nodiscard]] Ruled<VolumeFlow> mechanical_air(Power input);
/// Air must come from outdoors free of laundry, pool or salon chemistry. 304.11, 303.5 (contaminants).
[[nodiscard]] Clause<bool> clean_air();

}  // namespace bw::code
