// SPDX-License-Identifier: MIT
#include "flow/pipes.h"
#include "units/constants.h"

#include <cmath>

namespace bw::flow {

namespace {

using units::pi;
constexpr double gravity = units::standard_gravity;

/// Half the square of the velocity at a flow of 1 m3/s.
double half_square(double bore) { return 8 / (pi * pi * std::pow(bore, 4)); }

Pipe pipe(const Stretch& run, double scale, double reynolds, Friction form = Friction::colebrook) {
    return {scale * run.length / run.bore, scale * run.local, reynolds, run.roughness / run.bore, form};
}

Power local(double resistance, double reynolds) { return {resistance, 2, 1 / reynolds}; }

double reynolds_by_volume(double bore, double kinematic) { return 4 / (pi * bore * kinematic); }
double reynolds_by_mass(double bore, double viscosity) { return 4 / (pi * bore * viscosity); }

}  // namespace

Pipe by_head(const Stretch& run, double viscosity, Friction form) {
    return pipe(run, half_square(run.bore) / gravity, reynolds_by_volume(run.bore, viscosity), form);
}

Pipe by_pressure(const Stretch& run, double density, double viscosity) {
    return pipe(run, half_square(run.bore) * density, reynolds_by_volume(run.bore, viscosity / density));
}

Pipe by_mass(const Stretch& run, double density, double viscosity) {
    return pipe(run, half_square(run.bore) / density, reynolds_by_mass(run.bore, viscosity));
}

Pipe by_squared_pressure(const Stretch& run, double zrt, double viscosity) {
    return pipe(run, 2 * half_square(run.bore) * zrt, reynolds_by_mass(run.bore, viscosity));
}

Power local_by_head(double bore, double k, double viscosity) {
    return local(k * half_square(bore) / gravity, reynolds_by_volume(bore, viscosity));
}

Power local_by_pressure(double bore, double k, double density, double viscosity) {
    return local(k * half_square(bore) * density, reynolds_by_volume(bore, viscosity / density));
}

Power local_by_mass(double bore, double k, double density, double viscosity) {
    return local(k * half_square(bore) / density, reynolds_by_mass(bore, viscosity));
}

Power local_by_squared_pressure(double bore, double k, double zrt, double viscosity) {
    return local(k * 2 * half_square(bore) * zrt, reynolds_by_mass(bore, viscosity));
}

Power hazen_williams(double length, double bore, double c) {
    const double slow = 1e-5 * pi / 4 * bore * bore;
    return {10.667 * length * std::pow(c, -1.852) * std::pow(bore, -4.871), 1.852, slow};
}

double buoyancy(double outside, double inside, double rise) { return (outside - inside) * gravity * rise; }

double gas_density(double pressure, double gas_constant, double temperature) {
    return pressure / (gas_constant * temperature);
}

}  // namespace bw::flow
