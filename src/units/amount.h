// SPDX-License-Identifier: MIT
#pragma once
// A quantity whose dimension is known only when the program runs: what derivations, checks and JSON carry.

#include <string>

#include "units/quantity.h"

namespace bw::units {

/// What is measured, which decides the unit it is read and printed in. Several kinds share a dimension on purpose:
/// gas pressure is read in inH2O where water pressure is read in psi.
enum class Kind {
    number,                  // 1
    count,                   // 1, printed whole
    percent,                 // held as a ratio; printed times 100
    length,                  // feet, inches, sixteenths | mm      JSON: in | mm
    long_length,             // ft | m
    small_length,            // decimal in | mm
    area,                    // in2 | mm2
    floor_area,              // ft2 | m2
    volume,                  // gal | L
    room_volume,             // ft3 | m3
    mass,                    // lb | kg
    mass_per_length,         // lb/ft | kg/m
    water_flow,              // gpm | L/s
    hourly_flow,             // gal/h | L/h
    gas_flow,                // ft3/h | m3/h
    air_flow,                // cfm | m3/h
    mass_flow,               // lb/h | kg/h
    pressure,                // psi | kPa, gauge unless named absolute
    gas_pressure,            // inH2O | Pa, gauge
    temperature,             // degF | degC
    temperature_difference,  // degF | K
    heat_rate,               // kBtu/h | kW
    electric_power,          // W
    energy,                  // Btu | kJ
    heating_value,           // Btu/ft3 | MJ/m3
    velocity,                // ft/s | m/s
    density,                 // lb/ft3 | kg/m3
    viscosity,               // lb/(ft*s) | mPa*s
    specific_heat,           // Btu/(lb*degF) | kJ/(kg*K)
    current,                 // A
    voltage,                 // V
    time,                    // h, min or s by size; JSON: s
    force,                   // lbf | N
    angle,                   // deg
    money,                   // USD
    acidity,                 // pH
    hardness,                // mg/L as CaCO3; held as mg/L
    altitude,                // ft | m
};

enum class System { us, si };

struct Amount {
    double si = 0;  ///< SI value; ratio for percent; kelvin for temperature; dollars for money; radian for angle;
                    ///< mg/L for hardness; plain number for acidity
    Kind kind = Kind::number;
    bool operator==(const Amount&) const = default;
};

[[nodiscard]] inline Amount number(double v) { return {v, Kind::number}; }
[[nodiscard]] inline Amount count(double v) { return {v, Kind::count}; }
[[nodiscard]] inline Amount percent(double ratio) { return {ratio, Kind::percent}; }
[[nodiscard]] inline Amount money(double dollars) { return {dollars, Kind::money}; }
/// Any quantity under the kind it is to be read as. The dimension is the caller's promise; see the typed overloads.
template <class Unit> [[nodiscard]] Amount amount(const bu::quantity<Unit, double>& q, Kind kind) { return {q.value(), kind}; }
[[nodiscard]] inline Amount amount(Length q) { return {q.value(), Kind::length}; }
[[nodiscard]] inline Amount amount(Area q) { return {q.value(), Kind::area}; }
[[nodiscard]] inline Amount amount(Volume q) { return {q.value(), Kind::volume}; }
[[nodiscard]] inline Amount amount(Mass q) { return {q.value(), Kind::mass}; }
[[nodiscard]] inline Amount amount(VolumeFlow q) { return {q.value(), Kind::water_flow}; }
[[nodiscard]] inline Amount amount(MassFlow q) { return {q.value(), Kind::mass_flow}; }
[[nodiscard]] inline Amount amount(Pressure q) { return {q.value(), Kind::pressure}; }
[[nodiscard]] inline Amount amount(Temperature q) { return {q.value(), Kind::temperature}; }
[[nodiscard]] inline Amount amount(TemperatureDifference q) { return {q.value(), Kind::temperature_difference}; }
[[nodiscard]] inline Amount amount(Power q) { return {q.value(), Kind::heat_rate}; }
[[nodiscard]] inline Amount amount(Velocity q) { return {q.value(), Kind::velocity}; }
[[nodiscard]] inline Amount amount(Density q) { return {q.value(), Kind::density}; }
[[nodiscard]] inline Amount amount(Viscosity q) { return {q.value(), Kind::viscosity}; }
[[nodiscard]] inline Amount amount(SpecificHeat q) { return {q.value(), Kind::specific_heat}; }
[[nodiscard]] inline Amount amount(Current q) { return {q.value(), Kind::current}; }
[[nodiscard]] inline Amount amount(Voltage q) { return {q.value(), Kind::voltage}; }
[[nodiscard]] inline Amount amount(Time q) { return {q.value(), Kind::time}; }
[[nodiscard]] inline Amount amount(Force q) { return {q.value(), Kind::force}; }

struct Spelled {
    double value = 0;
    std::string unit;  ///< "1" for pure numbers
};

/// The number and unit of an amount in one system, for JSON and tables.
[[nodiscard]] Spelled spell(const Amount& amount, System system);
/// As it is read on paper: `6 ft 3-1/2 in`, `42.0 degF`, `7.00 inH2O`, `43.2 gpm`. Locale-free.
[[nodiscard]] std::string print(const Amount& amount, System system);
/// Feet, inches and sixteenths, rounded to the nearest sixteenth: `6 ft 3-1/2 in`, `-0 ft 5/16 in` never occurs.
[[nodiscard]] std::string print_feet_inches(Length length);

}  // namespace bw::units
