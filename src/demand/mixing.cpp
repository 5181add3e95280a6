// SPDX-License-Identifier: MIT
#include "demand/methods.h"

namespace bw::demand {

Result<Ratio> hot_share(Temperature cold, Temperature mixed, Temperature hot) {
    if (!(hot > cold))
        return fail("hot water of " + say(hot) + " is not above cold water of " + say(cold), "a hotter setpoint");
    // A thousandth of a kelvin is the rounding of a temperature converted twice.
    double over = (mixed - hot) / kelvin_difference;
    if (over > 1e-3)
        return fail("water drawn at " + say(mixed) + " is hotter than the distribution temperature " + say(hot),
                    "a draw at or below the distribution temperature, or hotter distribution");
    if (!(mixed > cold))
        return fail("water drawn at " + say(mixed) + " is not above the cold water at " + say(cold), "a warmer draw");
    return std::min(1.0, double((mixed - cold) / (hot - cold)));
}

Result<Ratio> gallons_for_140(const survey::Survey& survey) {
    auto cold = *survey.supply.coldest;
    auto hot = *survey.temperatures.distribution;
    if (!(hot > cold))
        return fail("hot water of " + say(hot) + " is not above cold water of " + say(cold), "a hotter setpoint");
    return double((fahrenheit(140) - cold) / (hot - cold));
}

std::string say(VolumeFlow flow) { return print(amount(flow), System::us); }
std::string say(Temperature temperature) { return print(amount(temperature), System::us); }
std::string say(Power power) { return print(amount(power), System::us); }

}  // namespace bw::demand
