// SPDX-License-Identifier: MIT
#include "matter/pipe_flow.h"
#include "units/constants.h"

#include <fmt/format.h>

#include <cmath>

namespace bw::matter {

namespace {

constexpr double laminar_end = 2000, turbulent_start = 4000, greatest_reynolds = 1e8, greatest_roughness = 0.05;
using units::pi;

/// Colebrook for x = 1/sqrt(f): x + 2 log10(e/3.7 + 2.51 x/Re) = 0. Newton on a function that only bends one way, so
/// it cannot wander; it stops when the step is in the last digits.
double colebrook(double reynolds, double roughness) {
    const double a = roughness / 3.7, b = 2.51 / reynolds, ln10 = std::log(10.0);
    double x = -1.8 * std::log10(std::pow(a, 1.11) + 6.9 / reynolds);  // Haaland, a close first guess
    for (int i = 0; i < 50; ++i) {
        const double inside = a + b * x;
        const double step = (x + 2 * std::log10(inside)) / (1 + 2 * b / (inside * ln10));
        x -= step;
        if (std::fabs(step) < 1e-14 * std::fabs(x)) break;
    }
    return 1 / (x * x);
}

}  // namespace

const char* name(Regime regime) {
    switch (regime) {
        case Regime::laminar: return "laminar";
        case Regime::transition: return "transition";
        case Regime::turbulent: return "turbulent";
    }
    return "";
}

double reynolds(Density density, Velocity velocity, Length bore, Viscosity viscosity) {
    return std::fabs(si_value(density) * si_value(velocity) * si_value(bore) / si_value(viscosity));
}

Result<Friction> darcy_friction(double reynolds, Ratio relative_roughness) {
    if (!(reynolds > 0 && reynolds <= greatest_reynolds))
        return fail(fmt::format("a Reynolds number of {:.4g} is outside the method", reynolds), "above 0, up to 1e8");
    if (!(relative_roughness >= 0 && relative_roughness <= greatest_roughness))
        return fail(fmt::format("a relative roughness of {:.4g} is outside the method", relative_roughness),
                    "0 to 0.05");
    if (reynolds <= laminar_end) return Friction{64 / reynolds, Regime::laminar};
    if (reynolds >= turbulent_start) return Friction{colebrook(reynolds, relative_roughness), Regime::turbulent};
    const double from = 64 / laminar_end, to = colebrook(turbulent_start, relative_roughness);
    const double share = (reynolds - laminar_end) / (turbulent_start - laminar_end);
    return Friction{from + share * (to - from), Regime::transition};
}

Result<PipeDrop> pipe_drop(VolumeFlow flow, Length bore, Length roughness, Length length, Ratio fitting_loss,
                           Density density, Viscosity viscosity) {
    if (!(si_value(bore) > 0)) return fail("a pipe without a bore", "an inside diameter above 0");
    if (!(si_value(length) >= 0) || !(fitting_loss >= 0))
        return fail("a negative pipe length or fitting loss", "0 or more");
    if (!(si_value(density) > 0) || !(si_value(viscosity) > 0) || !std::isfinite(si_value(flow)))
        return fail("a liquid without density, viscosity or flow", "finite values, density and viscosity above 0");
    PipeDrop out;
    out.velocity = flow / (pi / 4 * bore * bore);
    out.reynolds = reynolds(density, out.velocity, bore, viscosity);
    out.sources = {{"Colebrook", "1939", "friction factor, by iteration", reason::Standing::computed},
                   {"Darcy-Weisbach", "", "pressure drop", reason::Standing::computed}};
    if (si_value(flow) == 0) return out;
    const auto friction = darcy_friction(out.reynolds, roughness / bore);
    if (!friction) return tl::unexpected(friction.error());
    out.friction = *friction;
    const Pressure head =
        Pressure::from_value(si_value(density) * si_value(out.velocity) * std::fabs(si_value(out.velocity)) / 2);
    out.pipe = friction->factor * (length / bore) * head;
    out.fittings = fitting_loss * head;
    out.drop = out.pipe + out.fittings;
    return out;
}

Result<PipeDrop> pipe_drop(VolumeFlow flow, Length bore, Length roughness, Length length, Ratio fitting_loss,
                           const Water& water) {
    return pipe_drop(flow, bore, roughness, length, fitting_loss, water.density, water.viscosity);
}

reason::Derivation derive(const PipeDrop& drop, VolumeFlow flow, Length bore, Length roughness, Length length,
                          Ratio fitting_loss, const Water& water) {
    const auto friction_formula = [&]() -> std::string {
        switch (drop.friction.regime) {
            case Regime::laminar: return "f = 64 / Re";
            case Regime::transition: return "f on the straight line from 64/2000 to Colebrook at Re = 4000";
            case Regime::turbulent: return "1/sqrt(f) = -2 log10(e/(3.7 D) + 2.51/(Re sqrt(f)))";
        }
        return {};
    };
    reason::Derivation steps{{"Velocity",
                              "v = 4 Q / (pi D^2)",
                              {{"Q", "flow", amount(flow)}, {"D", "inside diameter", amount(bore, Kind::small_length)}},
                              reason::Term{"v", "velocity", amount(drop.velocity)}},
                             {"Reynolds number",
                              "Re = rho v D / mu",
                              {{"rho", "density", amount(water.density)}, {"mu", "viscosity", amount(water.viscosity)}},
                              reason::Term{"Re", "Reynolds number", number(drop.reynolds)}}};
    if (si_value(flow) == 0) return steps;
    const bool transition = drop.friction.regime == Regime::transition;
    steps.push_back({transition ? "Friction factor, in the transition where no law holds: marked as such"
                                : fmt::format("Friction factor, {} flow", name(drop.friction.regime)),
                     friction_formula(),
                     {{"e", "roughness", amount(roughness, Kind::small_length)}},
                     reason::Term{"f", "Darcy friction factor", number(drop.friction.factor)}});
    steps.push_back(
        {"Pressure lost in the pipe and its fittings",
         "dp = (f L/D + K) rho v^2/2",
         {{"L", "length", amount(length, Kind::long_length)}, {"K", "fitting losses", number(fitting_loss)}},
         reason::Term{"dp", "pressure drop", amount(drop.drop)}});
    return steps;
}

}  // namespace bw::matter
