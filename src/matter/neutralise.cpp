// SPDX-License-Identifier: MIT
#include "matter/neutralise.h"
#include "units/constants.h"

#include <fmt/format.h>

#include <cmath>

namespace bw::matter {
namespace {

// 25 degC: pK of CO2 into water (mol/kg atm), of its first and second acid, of calcite's solubility product
constexpr double henry = 1.468, first = 6.352, second = 10.329, calcite = 8.480;
constexpr double calcite_molar_mass = 0.10009;  // kg/mol

/// log10 of an ion's activity coefficient.
double davies(double strength, int charge) {
    const double root = std::sqrt(strength);
    return -0.509 * charge * charge * (root / (1 + root) - 0.3 * strength);
}

struct Balance {
    double calcium = 0, bicarbonate = 0, strength = 0;  ///< mol/L
};

/// Charge: 2 Ca + H = HCO3 + A, and what the constants hold together: Ca HCO3^2 = Ks K1 Kh p / K2.
Balance balance(double strong, double atmospheres) {
    const double held = std::pow(10, -calcite - first - henry + second) * atmospheres;
    Balance out{0, 0, 0.01};
    for (int turn = 0; turn < 60; ++turn) {
        const double one = std::pow(10, davies(out.strength, 1)), two = std::pow(10, davies(out.strength, 2));
        const double product = held / (two * one * one);
        double low = strong / 2, high = strong / 2 + 1;
        for (int halving = 0; halving < 200; ++halving) {
            const double middle = (low + high) / 2, bicarbonate = 2 * middle - strong;
            (middle * bicarbonate * bicarbonate < product ? low : high) = middle;
        }
        out.calcium = (low + high) / 2;
        out.bicarbonate = 2 * out.calcium - strong;
        out.strength = 0.5 * (4 * out.calcium + out.bicarbonate + strong);
    }
    return out;
}

}  // namespace

Result<Neutralised> neutralise_by_marble(double acidity, Pressure carbon_dioxide) {
    const double atmospheres = carbon_dioxide.value() / units::atmosphere_pascal;
    if (!(acidity >= 2 && acidity <= 7))
        return fail(fmt::format("a pH of {:.3g} is outside the method", acidity), "2 to 7");
    if (!(atmospheres >= 1e-5 && atmospheres <= 1))
        return fail(fmt::format("{:.3g} atmospheres of carbon dioxide are outside the method", atmospheres),
                    "1e-5 to 1");
    const double strong = std::pow(10, -acidity);
    const auto found = balance(strong, atmospheres);
    Neutralised out;
    const double bicarbonate = std::log10(found.bicarbonate) + davies(found.strength, 1);
    out.acidity = first + henry - std::log10(atmospheres) + bicarbonate;
    out.dissolved = 1000 * found.calcium * calcite_molar_mass;
    out.least = 1000 * strong / 2 * calcite_molar_mass;
    out.derivation = {{"Water, calcite and carbon dioxide in balance at 25 degC, activities by Davies: an estimate",
                       "2 [Ca] = [HCO3] + [A], {Ca}{HCO3}^2 = Ks K1 Kh p / K2",
                       {{"pHa", "acid that comes in", {acidity, Kind::acidity}},
                        {"p", "carbon dioxide", amount(carbon_dioxide)},
                        {"Ca", "calcium, mol/L", number(found.calcium)}},
                       reason::Term{"pHb", "in balance", {out.acidity, Kind::acidity}}}};
    out.sources = {
        {"Plummer and Busenberg", "1982", "equilibria of calcite, water and carbon dioxide", reason::Standing::memory},
        {"Davies", "1962", "activity coefficients", reason::Standing::memory}};
    return out;
}

}  // namespace bw::matter
