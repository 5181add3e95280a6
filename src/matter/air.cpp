// SPDX-License-Identifier: MIT
#include "matter/air.h"

#include <fmt/format.h>

#include <cmath>

#include "units/amount.h"
#include "units/constants.h"

namespace bw::matter {

namespace {

constexpr double gas_constant = 8.314462618, molar_mass = 0.0289644;

}  // namespace

Result<Pressure> atmosphere(Length altitude) {
    const double h = si_value(altitude);
    if (!(h >= -500 && h <= 5000))
        return fail(
            fmt::format("an altitude of {} is outside the method", print(amount(altitude, Kind::altitude), System::us)),
            "-1,640 to 16,404 ft (-500 to 5,000 m)");
    return Pressure::from_value(units::atmosphere_pascal * std::pow(1 - 0.0065 * h / 288.15, 5.25588));
}

Result<Density> air_density(Temperature temperature, Pressure absolute) {
    const double t = si_value(temperature);
    if (!(t >= 233.15 && t <= 573.15))
        return fail(fmt::format("air at {} is outside the method", print(amount(temperature), System::us)),
                    "-40 to 300 degC (-40 to 572 degF)");
    if (!(si_value(absolute) > 0 && si_value(absolute) <= 2e5))
        return fail("an air pressure outside the method", "above 0, up to 200 kPa absolute");
    return Density::from_value(si_value(absolute) * molar_mass / (gas_constant * t));
}

}  // namespace bw::matter
