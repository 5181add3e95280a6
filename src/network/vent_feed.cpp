// SPDX-License-Identifier: MIT
// The gases in the vents: how much, how heavy, how warm.
#include <algorithm>
#include <cmath>

#include "flow/pipes.h"
#include "matter/air.h"
#include "matter/combustion.h"
#include "matter/water.h"
#include "network/vent_network.h"
#include "units/constants.h"

namespace bw::network {
namespace {

using namespace bw::units;  // NOLINT: quantity names

constexpr double gas_constant = 8.314462618;
constexpr double mass_c = 12.011e-3, mass_h = 1.008e-3, mass_air = 28.9644e-3;  // kg/mol
constexpr double standard_pressure = units::atmosphere_pascal, standard_temperature = (60 + 459.67) / 1.8;
constexpr double warm_day = 308.15, cold_day = 253.15;  // 35 and -20 degC: common practice, no source

/// Of air; flue gas lies within some 5 % of it. U.S. Standard Atmosphere 1976, Sutherland's formula, from memory.
Viscosity viscosity_at(double kelvin) {
    return Viscosity::from_value(1.458e-6 * std::pow(kelvin, 1.5) / (kelvin + 110.4));
}

/// The warmest water that comes back to a heater: the loop's return, or the supply where nothing is brought back.
Temperature loop_return(const survey::Survey& survey, const demand::Demand& demand) {
    if (!*survey.recirculation.present) return demand.cold;
    return std::max(demand.cold, demand.hot - *survey.recirculation.drop);
}

/// At full fire no warmer than the heater's greatest flow lets it leave at the hot water's temperature.
Temperature return_at_full_fire(Temperature loop, const catalogue::Heater& heater, const demand::Demand& demand,
                                const demand::Capacity& capacity) {
    const auto efficiency = catalogue::efficiency(heater, loop);  // the least: it falls with the return's warmth
    const auto water = matter::water(loop);
    if (!efficiency || !water) return loop;
    const auto rise = capacity.each.input * *efficiency /
                      (water->density * water->heat_capacity * std::max(heater.flow_greatest, capacity.each.flow));
    return std::max(demand.cold, std::min(loop, demand.hot - rise));
}

VentGas gas_of(double molar_mass, double each_mole, double moles, double least_share, double kelvin,
               Pressure atmosphere) {
    VentGas gas;
    gas.full = MassFlow::from_value(moles * each_mole);
    gas.least = least_share * gas.full;
    gas.density = Density::from_value(flow::gas_density(atmosphere.value(), gas_constant / molar_mass, kelvin));
    gas.viscosity = viscosity_at(kelvin);
    return gas;
}

}  // namespace

Result<VentFeed> vent_feed(const survey::Survey& survey, const catalogue::Heater& heater, const demand::Demand& demand,
                           const demand::Capacity& capacity) {
    const auto atmosphere = matter::atmosphere(*survey.altitude);
    if (!atmosphere) return tl::unexpected(atmosphere.error());
    const auto kind = *survey.gas.kind;
    const auto burnt = matter::combustion(kind, heater.excess_air, *atmosphere);
    if (!burnt) return tl::unexpected(burnt.error());
    const auto light = matter::air_density(Temperature::from_value(warm_day), *atmosphere);
    if (!light) return tl::unexpected(light.error());
    const auto heavy = matter::air_density(Temperature::from_value(cold_day), *atmosphere);
    if (!heavy) return tl::unexpected(heavy.error());
    const auto& each = capacity.each;
    const double moles =
        (each.input / *survey.gas.heating_value).value() * standard_pressure / (gas_constant * standard_temperature);
    const auto& fuel = matter::fuel(kind);
    const double air = burnt->air * mass_air;
    const double flue = air + fuel.carbon * mass_c + fuel.hydrogen * mass_h;
    const double least = std::min(1.0, (heater.input_least * each.altitude_factor / each.input).value());
    VentFeed feed;
    feed.atmosphere = *atmosphere;
    const auto loop = loop_return(survey, demand);
    feed.warmest = loop + heater.flue_over_return;
    feed.flue_temperature = return_at_full_fire(loop, heater, demand, capacity) + heater.flue_over_return;
    feed.light_air = *light;
    feed.heavy_air = *heavy;
    feed.flue = gas_of(flue / burnt->flue_gas, flue, moles, least, si_value(feed.flue_temperature), *atmosphere);
    feed.air = gas_of(mass_air, air, moles, least, warm_day, *atmosphere);
    return feed;
}

}  // namespace bw::network
