// SPDX-License-Identifier: MIT
#pragma once
// Quantity types of the whole house. Values are SI inside; a unit is itself a quantity, so
// `3.5 * inch` makes a Length and `length / inch` gives the number of inches.

#include <boost/units/absolute.hpp>
#include <boost/units/cmath.hpp>
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si.hpp>
#include <csignal>

#undef si_value  // a macro of POSIX <signal.h>, which test frameworks include

namespace bw::units {

namespace bu = boost::units;
namespace si = boost::units::si;

template <class Unit> using Quantity = bu::quantity<Unit, double>;

using Ratio = double;  ///< a pure number
using Length = Quantity<si::length>;
using Area = Quantity<si::area>;
using Volume = Quantity<si::volume>;
using Mass = Quantity<si::mass>;
using Time = Quantity<si::time>;
using Velocity = Quantity<si::velocity>;
using Force = Quantity<si::force>;
using Pressure = Quantity<si::pressure>;
using Energy = Quantity<si::energy>;
using Power = Quantity<si::power>;
using Density = Quantity<si::mass_density>;
using Viscosity = Quantity<si::dynamic_viscosity>;
using Current = Quantity<si::current>;
using Voltage = Quantity<si::electric_potential>;
using Angle = Quantity<si::plane_angle>;
using Temperature = Quantity<bu::absolute<si::temperature>>;  ///< a point on the scale
using TemperatureDifference = Quantity<si::temperature>;

using VolumeFlow = decltype(Volume() / Time());
using MassFlow = decltype(Mass() / Time());
using SpecificHeat = decltype(Energy() / Mass() / TemperatureDifference());
using HeatingValue = decltype(Energy() / Volume());  ///< same dimension as a pressure
using MassPerLength = decltype(Mass() / Length());
using Conductivity = decltype(Power() / Length() / TemperatureDifference());

/// The SI number inside a quantity.
template <class Unit> [[nodiscard]] constexpr double si_value(const bu::quantity<Unit, double>& q) { return q.value(); }
[[nodiscard]] constexpr double si_value(double q) { return q; }


inline constexpr Length metre = Length::from_value(1.0);
inline constexpr Length millimetre = Length::from_value(1e-3);
inline constexpr Length inch = Length::from_value(0.0254);
inline constexpr Length foot = Length::from_value(0.3048);
inline constexpr Area square_metre = Area::from_value(1.0);
inline constexpr Area square_inch = Area::from_value(0.0254 * 0.0254);
inline constexpr Area square_foot = Area::from_value(0.3048 * 0.3048);
inline constexpr Volume cubic_metre = Volume::from_value(1.0);
inline constexpr Volume litre = Volume::from_value(1e-3);
inline constexpr Volume gallon = Volume::from_value(231 * 0.0254 * 0.0254 * 0.0254);
inline constexpr Volume cubic_foot = Volume::from_value(0.3048 * 0.3048 * 0.3048);
inline constexpr Mass kilogram = Mass::from_value(1.0);
inline constexpr Mass pound = Mass::from_value(0.45359237);
inline constexpr Time second = Time::from_value(1.0);
inline constexpr Time minute = Time::from_value(60.0);
inline constexpr Time hour = Time::from_value(3600.0);
inline constexpr Velocity metre_per_second = Velocity::from_value(1.0);
inline constexpr Velocity foot_per_second = Velocity::from_value(0.3048);
inline constexpr Force newton = Force::from_value(1.0);
inline constexpr Force pound_force = Force::from_value(0.45359237 * 9.80665);
inline constexpr Pressure pascal = Pressure::from_value(1.0);
inline constexpr Pressure kilopascal = Pressure::from_value(1e3);
inline constexpr Pressure bar = Pressure::from_value(1e5);
inline constexpr Pressure psi = Pressure::from_value(0.45359237 * 9.80665 / (0.0254 * 0.0254));
inline constexpr Pressure inch_water = Pressure::from_value(249.08891);  ///< column of water at 4 degC
inline constexpr Energy joule = Energy::from_value(1.0);
inline constexpr Energy btu = Energy::from_value(1055.05585262);  ///< International Table
inline constexpr Power watt = Power::from_value(1.0);
inline constexpr Power kilowatt = Power::from_value(1e3);
inline constexpr Power btu_per_hour = Power::from_value(1055.05585262 / 3600.0);
inline constexpr Power kbtu_per_hour = Power::from_value(1055.05585262 / 3.6);
inline constexpr Density kilogram_per_cubic_metre = Density::from_value(1.0);
inline constexpr Viscosity pascal_second = Viscosity::from_value(1.0);
inline constexpr Current ampere = Current::from_value(1.0);
inline constexpr Voltage volt = Voltage::from_value(1.0);
inline constexpr TemperatureDifference kelvin_difference = TemperatureDifference::from_value(1.0);
inline constexpr TemperatureDifference degF_difference = TemperatureDifference::from_value(1.0 / 1.8);
inline constexpr VolumeFlow cubic_metre_per_second = VolumeFlow::from_value(1.0);
inline constexpr VolumeFlow litre_per_second = VolumeFlow::from_value(1e-3);
inline constexpr VolumeFlow gallon_per_minute = VolumeFlow::from_value(231 * 0.0254 * 0.0254 * 0.0254 / 60.0);
inline constexpr VolumeFlow gallon_per_hour = VolumeFlow::from_value(231 * 0.0254 * 0.0254 * 0.0254 / 3600.0);
inline constexpr VolumeFlow cubic_foot_per_minute = VolumeFlow::from_value(0.3048 * 0.3048 * 0.3048 / 60.0);
inline constexpr VolumeFlow cubic_foot_per_hour = VolumeFlow::from_value(0.3048 * 0.3048 * 0.3048 / 3600.0);
inline constexpr MassFlow kilogram_per_second = MassFlow::from_value(1.0);
inline constexpr HeatingValue btu_per_cubic_foot = HeatingValue::from_value(1055.05585262 / (0.3048 * 0.3048 * 0.3048));
inline constexpr SpecificHeat joule_per_kilogram_kelvin = SpecificHeat::from_value(1.0);
inline constexpr MassPerLength kilogram_per_metre = MassPerLength::from_value(1.0);
inline constexpr MassPerLength pound_per_foot = MassPerLength::from_value(0.45359237 / 0.3048);

[[nodiscard]] inline Temperature kelvin(double t) { return Temperature::from_value(t); }
[[nodiscard]] inline Temperature celsius(double t) { return kelvin(t + 273.15); }
[[nodiscard]] inline Temperature fahrenheit(double t) { return kelvin((t + 459.67) / 1.8); }
}
