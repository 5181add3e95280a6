// SPDX-License-Identifier: MIT
#pragma once
// Room to work and room for heat.

#include "code/clause.h"

namespace bw::code {

struct WorkingSpace {
    Length depth{}, width{}, height{};
};
/// Level space at the control side of an appliance: 30 by 30 in. IFGC 2018 306.2.
[[nodiscard]] Clause<WorkingSpace> appliance_working_space();
/// Door or opening large enough for the largest appliance; passage 24 in wide at least. IFGC 2018 306.2.
[[nodiscard]] Clause<Length> appliance_passage_width();
/// In front of electrical equipment at 0 to 150 V to ground: 36 in deep (any condition), 30 in wide, 78 in high.
/// NEC 2017 110.26(A).
inline constexpr WorkingSpace electrical_space{36.0 * inch, 30.0 * inch, 78.0 * inch};
[[nodiscard]] Clause<WorkingSpace> electrical_working_space();
/// To combustible construction: the listing's own distance governs. IFGC 2018 305.8.
[[nodiscard]] Clause<bool> combustible_clearance_by_listing();

/// Rules that change with one heater's or the whole room's input.
/// Above 200 kBtu/h, 210 degF or 120 gal a water heater falls under the boiler rules of ASME BPVC IV. From memory.
struct HeaterClass {
    bool boiler_rules = false;
    std::string says;
};
[[nodiscard]] Ruled<HeaterClass> heater_class(Power input, Temperature setpoint, Volume water);
/// Sum of inputs in one room above which the building code separates the room: 400 kBtu/h for one piece of equipment;
/// IBC 2018 Table 509.
[[nodiscard]] Clause<Power> room_separation_input();

}  // namespace bw::code
