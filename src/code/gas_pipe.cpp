// SPDX-License-Identifier: MIT
#include "code/gas_pipe.h"

#include <cmath>

#include "code/sources.h"
#include "matter/fuel.h"

namespace bw::code {

namespace {

using units::amount;
using units::Kind;

// The code takes an atmosphere as 14.7 psi.
constexpr double atmosphere_psi = 14.7;
constexpr double low_constant = 19.17, high_constant = 18.93;
constexpr double flow_power = 0.381, drop_power = 0.206;
constexpr double equation_boundary_psi = 1.5;

/// The bracket of either equation: (dH/(Cr L)) or ((P1^2 - P2^2) Y/(Cr L)), in the code's units.
double drive(GasEquation equation, const GasConstants& gas, Pressure inlet, Pressure drop, Length length) {
    double feet = length / foot;
    if (equation == GasEquation::low_pressure) return (drop / inch_water) / (gas.cr * feet);
    double before = inlet / psi + atmosphere_psi;
    double after = before - drop / psi;
    return (before * before - after * after) * gas.y / (gas.cr * feet);
}

double constant_of(GasEquation equation) {
    return equation == GasEquation::low_pressure ? low_constant : high_constant;
}

const char* formula_of(GasEquation equation) {
    return equation == GasEquation::low_pressure ? "D = Q^0.381 / (19.17 (dH / (Cr L))^0.206)"
                                                 : "D = Q^0.381 / (18.93 ((P1^2 - P2^2) Y / (Cr L))^0.206)";
}

std::string heading(GasEquation equation) {
    return equation == GasEquation::low_pressure
               ? "Low-pressure equation, inlet below 1.5 psi; Q in ft3/h, D in inches, dH in inches of water, L in feet"
               : "High-pressure equation, inlet of 1.5 psi or more; Q in ft3/h, D in inches, P in psi absolute (gauge "
                 "+ "
                 "14.7), L in feet";
}

Source source_of(GasEquation equation) {
    return ifgc(equation == GasEquation::low_pressure ? "402.4.1, equation 4-1" : "402.4.2, equation 4-2",
                Standing::memory);
}

void put_pressures(std::vector<reason::Term>& given, GasEquation equation, const GasConstants& gas, Pressure inlet,
                   Pressure drop) {
    if (equation == GasEquation::low_pressure) {
        given.push_back({"dH", "allowed drop", amount(drop, Kind::gas_pressure)});
    } else {
        given.push_back({"P1", "inlet pressure, gauge", amount(inlet, Kind::pressure)});
        given.push_back({"P2", "outlet pressure, gauge", amount(inlet - drop, Kind::pressure)});
        given.push_back({"Y", "compressibility factor", units::number(gas.y)});
    }
    given.push_back({"Cr", "gas constant of the equation", units::number(gas.cr)});
}

std::string say(Length q) { return print(amount(q, Kind::long_length), System::us); }
std::string say(Pressure q) { return print(amount(q, Kind::gas_pressure), System::us); }
std::string say(VolumeFlow q) { return print(amount(q, Kind::gas_flow), System::us); }

template <class Quantity>
Result<void> positive(Quantity q, const char* what) {
    if (std::isfinite(q.value()) && q.value() > 0) return {};
    return fail(std::string(what) + " of gas pipe is " + say(q), "a value above zero");
}

Result<void> judge(const GasFeed& feed, Pressure drop, Length length) {
    if (auto ok = positive(length, "length"); !ok) return ok;
    if (auto ok = positive(feed.inlet, "inlet pressure"); !ok) return ok;
    if (auto ok = positive(drop, "allowed drop"); !ok) return ok;
    if (drop >= feed.inlet)
        return fail("allowed drop " + say(drop) + " is not below the inlet pressure " + say(feed.inlet),
                    "a drop smaller than the gauge pressure at the inlet");
    return {};
}

/// Says how the specific gravity was allowed for, where it is not the code's own.
void put_gravity(Derivation& derivation, Sources& sources, const Ruled<Ratio>& multiplier) {
    if (multiplier.value == 1) return;
    derivation.insert(derivation.end(), multiplier.derivation.begin(), multiplier.derivation.end());
    sources.insert(sources.end(), multiplier.sources.begin(), multiplier.sources.end());
}

}  // namespace

GasConstants gas_constants(Gas gas) {
    const auto& fuel = matter::fuel(gas);
    return {fuel.specific_gravity, fuel.cr, fuel.y, ifgc("402.4, values of Cr and Y", Standing::published)};
}

GasEquation gas_equation(Pressure inlet) {
    return inlet / psi < equation_boundary_psi * (1 - 1e-12) ? GasEquation::low_pressure : GasEquation::high_pressure;
}

Result<Ruled<Ratio>> specific_gravity_multiplier(Gas gas, Ratio specific_gravity) {
    if (!(specific_gravity >= 0.35 && specific_gravity <= 2.10))
        return fail(fmt::format("specific gravity {:.4g} is outside the code's list", specific_gravity),
                    "0.35 to 2.10 (air is 1)");
    double own = gas_constants(gas).specific_gravity;
    Ruled<Ratio> out;
    out.value = specific_gravity == own ? 1.0 : std::sqrt(own / specific_gravity);
    out.derivation.push_back({"Capacity corrected from the code's specific gravity to the gas at hand",
                              "F = sqrt(S0 / S)",
                              {{"S0", "specific gravity the equation is set for", units::number(own)},
                               {"S", "specific gravity of the gas", units::number(specific_gravity)}},
                              reason::Term{"F", "capacity multiplier", units::number(out.value)}});
    out.sources = {ifgc("Table A.2.4", Standing::published)};
    return out;
}

Result<Ruled<VolumeFlow>> gas_capacity(const GasFeed& feed, Pressure drop, Length inside, Length length) {
    if (auto ok = judge(feed, drop, length); !ok) return tl::unexpected(ok.error());
    if (auto ok = positive(inside, "inside diameter"); !ok) return tl::unexpected(ok.error());
    auto multiplier = specific_gravity_multiplier(feed.gas, feed.specific_gravity);
    if (!multiplier) return tl::unexpected(multiplier.error());
    auto equation = gas_equation(feed.inlet);
    auto gas = gas_constants(feed.gas);
    double root =
        (inside / inch) * constant_of(equation) * std::pow(drive(equation, gas, feed.inlet, drop, length), drop_power);
    Ruled<VolumeFlow> out;
    out.value = std::pow(root, 1 / flow_power) * multiplier->value * cubic_foot_per_hour;
    reason::Step step{heading(equation), formula_of(equation)};
    step.given = {{"D", "inside diameter", amount(inside, Kind::small_length)},
                  {"L", "length", amount(length, Kind::long_length)}};
    put_pressures(step.given, equation, gas, feed.inlet, drop);
    step.result = reason::Term{"Q", "capacity by the equation",
                               amount(VolumeFlow(out.value / multiplier->value), Kind::gas_flow)};
    out.derivation.push_back(std::move(step));
    out.sources = {source_of(equation), gas.source};
    put_gravity(out.derivation, out.sources, *multiplier);
    return out;
}

Result<Ruled<Length>> gas_diameter(const GasFeed& feed, Pressure drop, VolumeFlow load, Length length) {
    if (auto ok = judge(feed, drop, length); !ok) return tl::unexpected(ok.error());
    if (auto ok = positive(load, "load"); !ok) return tl::unexpected(ok.error());
    auto multiplier = specific_gravity_multiplier(feed.gas, feed.specific_gravity);
    if (!multiplier) return tl::unexpected(multiplier.error());
    auto equation = gas_equation(feed.inlet);
    auto gas = gas_constants(feed.gas);
    double flow = (load / cubic_foot_per_hour) / multiplier->value;
    Ruled<Length> out;
    out.value = std::pow(flow, flow_power) /
                (constant_of(equation) * std::pow(drive(equation, gas, feed.inlet, drop, length), drop_power)) * inch;
    put_gravity(out.derivation, out.sources, *multiplier);
    reason::Step step{heading(equation), formula_of(equation)};
    step.given = {{"Q", "load, as gas of the code's specific gravity",
                   amount(VolumeFlow(flow * cubic_foot_per_hour), Kind::gas_flow)},
                  {"L", "length", amount(length, Kind::long_length)}};
    put_pressures(step.given, equation, gas, feed.inlet, drop);
    step.result = reason::Term{"D", "least inside diameter", amount(out.value, Kind::small_length)};
    out.derivation.push_back(std::move(step));
    out.sources.insert(out.sources.begin(), {source_of(equation), gas.source});
    return out;
}

Result<Pressure> gas_drop_by(GasEquation equation, const GasFeed& feed, Length inside, Length length, VolumeFlow flow) {
    if (auto ok = positive(inside, "inside diameter"); !ok) return tl::unexpected(ok.error());
    if (auto ok = positive(feed.inlet, "inlet pressure"); !ok) return tl::unexpected(ok.error());
    if (length.value() < 0 || flow.value() < 0)
        return fail("length " + say(length) + " or flow " + say(flow) + " of gas pipe is negative", "zero or more");
    if (length.value() == 0 || flow.value() == 0) return Pressure();
    auto multiplier = specific_gravity_multiplier(feed.gas, feed.specific_gravity);
    if (!multiplier) return tl::unexpected(multiplier.error());
    auto gas = gas_constants(feed.gas);
    double q = (flow / cubic_foot_per_hour) / multiplier->value;
    double bracket = std::pow(std::pow(q, flow_power) / (constant_of(equation) * (inside / inch)), 1 / drop_power) *
                     gas.cr * (length / foot);
    Pressure drop;
    if (equation == GasEquation::low_pressure) {
        drop = bracket * inch_water;
    } else {
        double before = feed.inlet / psi + atmosphere_psi;
        double squared = before * before - bracket / gas.y;
        if (squared > 0)
            drop = (before - std::sqrt(squared)) * psi;
        else
            drop = feed.inlet;
    }
    if (drop >= feed.inlet)
        return fail("a flow of " + say(flow) + " through " + print(amount(inside, Kind::small_length), System::us) +
                        " over " + say(length) + " uses up the inlet pressure " + say(feed.inlet),
                    "a larger pipe, a shorter run or more pressure");
    return drop;
}

Result<Ruled<Pressure>> gas_drop(const GasFeed& feed, Length inside, Length length, VolumeFlow flow) {
    auto equation = gas_equation(feed.inlet);
    auto drop = gas_drop_by(equation, feed, inside, length, flow);
    if (!drop) return tl::unexpected(drop.error());
    auto gas = gas_constants(feed.gas);
    bool low = equation == GasEquation::low_pressure;
    reason::Step step{heading(equation), low ? "dH = Cr L (Q^0.381 / (19.17 D))^(1/0.206)"
                                             : "P1^2 - P2^2 = (Cr L / Y) (Q^0.381 / (18.93 D))^(1/0.206)"};
    step.given = {{"Q", "flow", amount(flow, Kind::gas_flow)},
                  {"D", "inside diameter", amount(inside, Kind::small_length)},
                  {"L", "length", amount(length, Kind::long_length)},
                  {"Cr", "gas constant of the equation", units::number(gas.cr)}};
    if (!low) {
        step.given.push_back({"P1", "inlet pressure, gauge", amount(feed.inlet, Kind::pressure)});
        step.given.push_back({"Y", "compressibility factor", units::number(gas.y)});
    }
    step.result = reason::Term{low ? "dH" : "P1 - P2", "drop", amount(*drop, Kind::gas_pressure)};
    Ruled<Pressure> out{*drop, {}, {source_of(equation), gas.source}};
    if (auto multiplier = specific_gravity_multiplier(feed.gas, feed.specific_gravity))
        put_gravity(out.derivation, out.sources, *multiplier);
    out.derivation.push_back(std::move(step));
    return out;
}

}  // namespace bw::code
