// SPDX-License-Identifier: MIT
#include "matter/water.h"

#include <fmt/format.h>

#include <cmath>

#include "matter/if97.h"

namespace bw::matter {

namespace {

constexpr double coldest = 273.15, hottest = 373.15, greatest_pressure = 100e6;
constexpr double rounding = 1e-9;  // 32 degF is not quite 273.15 K in binary

Result<double> kelvins_in_range(Temperature temperature) {
    const double t = si_value(temperature);
    if (!(t >= coldest - rounding && t <= hottest + rounding))
        return fail(fmt::format("water at {} is outside the method", print(amount(temperature), System::us)),
                    "0 to 100 degC (32 to 212 degF)");
    return std::fmin(std::fmax(t, coldest), hottest);
}

}  // namespace

Result<Water> water(Temperature temperature, Pressure absolute) {
    const auto t = kelvins_in_range(temperature);
    if (!t) return tl::unexpected(t.error());
    const double vapour = if97::saturation_pressure(*t);
    if (!(si_value(absolute) >= 0 && si_value(absolute) <= greatest_pressure))
        return fail(fmt::format("a water pressure of {} is outside the method", print(amount(absolute), System::us)),
                    "0 to 100 MPa absolute");
    const auto state = if97::liquid(*t, std::fmax(si_value(absolute), vapour));
    Water out;
    out.density = Density::from_value(1 / state.specific_volume);
    out.heat_capacity = SpecificHeat::from_value(state.heat_capacity);
    out.viscosity = Viscosity::from_value(if97::viscosity(*t, 1 / state.specific_volume));
    out.vapour_pressure = Pressure::from_value(vapour);
    return out;
}

Result<Pressure> vapour_pressure(Temperature temperature) {
    return kelvins_in_range(temperature).map([](double t) {
        return Pressure::from_value(if97::saturation_pressure(t));
    });
}

Result<Temperature> condensing_temperature(Pressure partial) {
    const double p = si_value(partial);
    if (!(p >= if97::saturation_pressure(coldest) && p <= if97::saturation_pressure(hottest)))
        return fail(fmt::format("vapour at {} condenses outside the method", print(amount(partial), System::si)),
                    "a partial pressure between those at 0 and 100 degC (0.611 to 101.4 kPa)");
    return kelvin(if97::saturation_temperature(p));
}

Result<Power> heat_to_warm(VolumeFlow flow, Temperature cold, Temperature hot) {
    if (!(hot > cold))
        return fail(fmt::format("water cannot be warmed from {} to {}", print(amount(cold), System::us),
                                print(amount(hot), System::us)),
                    "a hot temperature above the cold one");
    const auto at_hot = water(hot);
    if (!at_hot) return tl::unexpected(at_hot.error());
    const auto mean = water(kelvin((si_value(cold) + si_value(hot)) / 2));
    const auto at_cold = water(cold);
    if (!at_cold) return tl::unexpected(at_cold.error());
    return flow * at_hot->density * mean->heat_capacity * (hot - cold);
}

reason::Sources water_sources() {
    return {{"IAPWS R7-97", "2012", "equations 7 and 30 (region 1, saturation)", reason::Standing::computed},
            {"IAPWS R12-08", "2008", "equations 11 and 12 (viscosity)", reason::Standing::computed}};
}

}  // namespace bw::matter
