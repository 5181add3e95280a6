// SPDX-License-Identifier: MIT
#include "code/movement.h"

#include <cmath>

#include "text/material.h"

namespace bw::code {
namespace {

constexpr double per_degF = 1.8;  ///< 1/degF to 1/K

Result<Clause<Movement>> of(Material material, double modulus_psi, double bending_psi, const std::string& name,
                            Source source) {
    const std::optional<double> per_fahrenheit = text::row_of(material).growth;
    if (!per_fahrenheit) return fail("no expansion is known for " + name, "copper, steel, stainless or cpvc");
    return Clause<Movement>{
        {per_degF * *per_fahrenheit, modulus_psi * psi, bending_psi * psi},
        fmt::format("{} grows {:.3g} in an inch a degree F; E = {:.3g} psi, bent to {:.4g} psi at most", name,
                    *per_fahrenheit, modulus_psi, bending_psi),
        std::move(source)};
}

}  // namespace

Result<Clause<Movement>> movement(Material material) {
    const Source piping{"ASME B31.9", "", "expansion and flexibility", Standing::memory};
    switch (text::family(material)) {
        case text::Family::copper:
            return of(material, 17e6, 6000, "copper",
                      {"Copper Tube Handbook", "", "expansion loops and offsets", Standing::memory});
        case text::Family::steel: return of(material, 29e6, 15000, "steel", piping);
        case text::Family::stainless: return of(material, 28e6, 15000, "stainless steel", piping);
        case text::Family::cpvc:
            return of(material, 323000, 1000, "CPVC",
                      {"ASTM D696, and pipe makers' tables at 140 degF", "", "expansion offsets", Standing::memory});
        default:
            return fail("no table of expansion for " + std::string(text::name(material)),
                        "copper, steel, stainless or cpvc");
    }
}

Length growth(const Movement& pipe, Length length, TemperatureDifference rise) {
    return pipe.expansion * rise.value() * length;
}

Length cantilever_leg(const Movement& pipe, Length outside, Length taken) {
    return std::sqrt(3 * pipe.modulus.value() * outside.value() * taken.value() / pipe.bending.value()) * metre;
}

Length cantilever_takes(const Movement& pipe, Length outside, Length leg) {
    return pipe.bending.value() * leg.value() * leg.value() / (3 * pipe.modulus.value() * outside.value()) * metre;
}

}  // namespace bw::code
