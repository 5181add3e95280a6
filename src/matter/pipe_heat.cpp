// SPDX-License-Identifier: MIT
#include "matter/pipe_heat.h"
#include "text/material.h"
#include "units/constants.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace bw::matter {

namespace {

using text::Material;

using units::pi;
constexpr double gravity = units::standard_gravity, stefan_boltzmann = 5.670374419e-8;
constexpr double k_unit = 0.14422789;  // 1 Btu in/(h ft2 degF) in W/(m K)

struct Air {
    double conductivity, kinematic, prandtl;
};

/// Dry air at one atmosphere: Sutherland's law for viscosity and conductivity (White, Viscous Fluid Flow, from memory),
/// ideal gas, cp 1,006 J/(kg K).
Air air_at(double kelvins) {
    const double viscosity = 1.716e-5 * std::pow(kelvins / 273.15, 1.5) * (273.15 + 110.4) / (kelvins + 110.4);
    const double k = 0.0241 * std::pow(kelvins / 273.15, 1.5) * (273.15 + 194) / (kelvins + 194);
    const double density = units::atmosphere_pascal / (287.055 * kelvins);
    return {k, viscosity / density, viscosity * 1006 / k};
}

/// Churchill and Chu 1975, a long horizontal cylinder; Rayleigh number up to 1e12. W/(m2 K).
double convection(double diameter, double surface, double air) {
    const double film = (surface + air) / 2;
    const auto at = air_at(film);
    const double rayleigh =
        gravity / film * std::fabs(surface - air) * std::pow(diameter, 3) / (at.kinematic * at.kinematic) * at.prandtl;
    const double bracket = std::pow(1 + std::pow(0.559 / at.prandtl, 9.0 / 16), 8.0 / 27);
    const double nusselt = std::pow(0.60 + 0.387 * std::pow(rayleigh, 1.0 / 6) / bracket, 2);
    return nusselt * at.conductivity / diameter;
}

double radiation(double emissivity, double surface, double air) {
    return emissivity * stefan_boltzmann * (surface * surface + air * air) * (surface + air);
}

Result<void> fits(const Pipework& pipe, Temperature fluid, Temperature air, Length length) {
    if (!(pipe.inside.value() > 0) || !(pipe.outside >= pipe.inside) || !(length.value() >= 0))
        return fail("a pipe without a bore or a length", "inside and outside diameters, and a length of 0 or more");
    if ((pipe.insulation == Insulation::none) != (pipe.thickness.value() <= 0))
        return fail(fmt::format("insulation of {} with a thickness of {:.3g} mm", name(pipe.insulation),
                                pipe.thickness / millimetre),
                    "a thickness for insulation, none for a bare pipe");
    if (pipe.thickness > 0.15 * metre) return fail("insulation thicker than 150 mm", "up to 150 mm");
    if (!(fluid >= celsius(0) && fluid <= celsius(200))) return fail("the fluid is out of range", "0 to 200 degC");
    if (!(air >= celsius(-20) && air <= celsius(60))) return fail("the air is out of range", "-20 to 60 degC");
    if (!(fluid > air)) return fail("the fluid is not warmer than the air", "fluid above air");
    return {};
}

}  // namespace

const char* name(Insulation insulation) {
    switch (insulation) {
        case Insulation::none: return "none";
        case Insulation::mineral_fibre: return "mineral-fibre";
        case Insulation::elastomeric: return "elastomeric";
    }
    return "";
}

Result<double> conductivity(Insulation insulation, Temperature mean) {
    const double degrees = mean.value() * 1.8 - 459.67;
    switch (insulation) {
        case Insulation::mineral_fibre: return k_unit * (0.23 + 0.06 * (degrees - 75) / 125);
        case Insulation::elastomeric: return k_unit * (0.25 + 0.03 * (degrees - 75) / 75);
        case Insulation::none: break;
    }
    return fail("no insulation, no conductivity", "mineral-fibre or elastomeric");
}

double wall_conductivity(Material material) { return text::row_of(material).conductivity; }

Ratio emissivity(Material material, Insulation insulation) {
    return insulation == Insulation::none ? text::row_of(material).emissivity.value : 0.9;
}

Result<PipeHeat> pipe_heat(const Pipework& pipe, Temperature fluid, Temperature air, Length length) {
    if (const auto fit = fits(pipe, fluid, air, length); !fit) return tl::unexpected(fit.error());
    const double r0 = pipe.inside.value() / 2, r1 = pipe.outside.value() / 2, r2 = r1 + pipe.thickness.value();
    const double inner = fluid.value(), room = air.value();
    const double wall = std::log(r1 / r0) / (2 * pi * wall_conductivity(pipe.material));
    PipeHeat out;
    const auto outwards = [&](double surface) {
        out.convection = convection(2 * r2, surface, room);
        out.radiation = radiation(pipe.emissivity, surface, room);
        return (out.convection + out.radiation) * 2 * pi * r2 * (surface - room);
    };
    const auto through = [&](double surface) {
        double resistance = wall;
        if (pipe.insulation != Insulation::none) {
            out.conductivity = *conductivity(pipe.insulation, kelvin((inner + surface) / 2));
            resistance += std::log(r2 / r1) / (2 * pi * out.conductivity);
        }
        return (inner - surface) / resistance;
    };
    double low = room, high = inner;  // what goes outwards rises with the surface, what comes through falls
    for (int i = 0; i < 100 && high - low > 1e-10; ++i) {
        const double middle = (low + high) / 2;
        (outwards(middle) < through(middle) ? low : high) = middle;
    }
    out.surface = kelvin((low + high) / 2);
    out.per_metre = outwards(out.surface.value());
    out.loss = out.per_metre * (length / metre) * watt;
    return out;
}

reason::Sources pipe_heat_sources() {
    using reason::Standing;
    return {{"Churchill and Chu", "1975", "natural convection from a horizontal cylinder", Standing::memory},
            {"ASTM C680", "", "heat balance of insulated pipe", Standing::memory}};
}

}  // namespace bw::matter
