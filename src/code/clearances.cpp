// SPDX-License-Identifier: MIT
#include "code/clearances.h"

#include "code/sources.h"
#include "reason/document.h"

namespace bw::code {

Clause<WorkingSpace> appliance_working_space() {
    return {{30.0 * inch, 30.0 * inch, Length()},
            "a level space of 30 by 30 in stands at the control side of each appliance",
            ifgc("306.2", Standing::memory)};
}

Clause<Length> appliance_passage_width() {
    return {24.0 * inch, "the way to an appliance is at least 24 in wide and passes the largest appliance",
            ifgc("306.2", Standing::memory)};
}

Clause<WorkingSpace> electrical_working_space() {
    return {electrical_space,
            "in front of electrical equipment at up to 150 V to ground: 36 in deep, 30 in wide, 78 in high",
            nec("110.26(A)")};
}

Clause<bool> combustible_clearance_by_listing() {
    return {true, "clearance to combustible construction is what the appliance's listing and instructions say",
            ifgc("305.8", Standing::memory)};
}

Ruled<HeaterClass> heater_class(Power input, Temperature setpoint, Volume water) {
    Ruled<HeaterClass> out;
    bool hot = setpoint > fahrenheit(210), big = input > 200.0 * kbtu_per_hour, deep = water > 120.0 * gallon;
    out.value.boiler_rules = hot || big || deep;
    out.value.says =
        out.value.boiler_rules
            ? "one heater is past 200,000 Btu/h, 210 degF or 120 gal: the pressure-vessel rules apply, and "
              "state law may ask for a permit"
            : "one heater is within 200,000 Btu/h, 210 degF and 120 gal: outside the pressure-vessel rules "
              "(state law may differ)";
    out.derivation.push_back({out.value.says,
                              "",
                              {{"I", "input of one heater", amount(input)},
                               {"t", "greatest setpoint", amount(setpoint)},
                               {"V", "water held", amount(water)}},
                              {}});
    out.sources = {reason::cite(reason::Document::asme_bpvc, "Section IV, HLW-101", Standing::memory)};
    return out;
}

Clause<Power> room_separation_input() {
    return {400.0 * kbtu_per_hour,
            "a room with one piece of fuel-burning equipment over 400,000 Btu/h is separated by one hour or has "
            "sprinklers; whether the plant counts as one piece is for the building official",
            ibc("Table 509", Standing::memory)};
}

}  // namespace bw::code
