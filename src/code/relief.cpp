// SPDX-License-Identifier: MIT
#include "code/relief.h"

#include <algorithm>

#include "code/sources.h"

namespace bw::code {

namespace {

Clause<bool> discharge(const char* says) { return {true, says, ipc("504.6", Standing::memory)}; }

}  // namespace

Ruled<Pressure> relief_set_limit(Pressure weakest_part) {
    Ruled<Pressure> out;
    out.value = std::min(150.0 * psi, weakest_part);
    out.derivation.push_back({"A relief valve is set at or below 150 psi and the rating of the weakest part",
                              "ps <= min(150 psi, pw)",
                              {{"pw", "rating of the weakest part", amount(weakest_part)}},
                              reason::Term{"ps", "greatest set pressure", amount(out.value)}});
    out.sources = {ipc("504.4.1, 504.5", Standing::memory)};
    return out;
}

Ruled<Power> relief_capacity(Power heater_input) {
    Ruled<Power> out;
    out.value = heater_input;
    out.derivation.push_back({"The relief valve's rated capacity is not less than the heater's full input",
                              "C >= I",
                              {{"I", "input of the heater", amount(heater_input)}},
                              reason::Term{"C", "least capacity", amount(out.value)}});
    out.sources = {ipc("504.5", Standing::memory)};
    return out;
}

Clause<Temperature> relief_temperature_limit() {
    return {fahrenheit(210), "the temperature setting of a relief valve is at most 210 degF",
            ipc("504.4.1", Standing::memory)};
}

std::vector<Clause<bool>> relief_discharge_rules() {
    return {
        discharge("the discharge pipe is not smaller than the valve's outlet, full size to its end"),
        discharge("each relief valve has a discharge pipe of its own"),
        discharge("it falls by gravity, without traps, to a safe place where people see it and nothing is harmed"),
        discharge(
            "it ends through an air gap, in the heater's room, over a floor drain, pan or waste receptor, or outdoors"),
        discharge("its end has no thread and no valve"),
        discharge("it ends at most 6 in and at least two pipe diameters above the floor or flood rim"),
        discharge("it is of a material listed for the heat: 605.4 or as the valve's standard allows"),
    };
}

Clause<bool> relief_no_valve() {
    return {true, "no shut-off valve stands between a heater and its relief valve or in the discharge",
            ipc("504.6, 606.5.9", Standing::memory)};
}

Clause<Length> relief_discharge_height() {
    return {6.0 * inch, "the discharge ends at most 6 in above the floor or receptor", ipc("504.6", Standing::memory)};
}

}  // namespace bw::code
