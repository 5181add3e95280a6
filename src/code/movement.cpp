// SPDX-License-Identifier: MIT
#include "code/movement.h"

#include <cmath>

namespace bw::code {
namespace {

constexpr double per_degF = 1.8;  ///< 1/degF to 1/K

Clause<Movement> of(double per_fahrenheit, double modulus_psi, double bending_psi, const std::string& name,
                    Source source) {
    return {{per_degF * per_fahrenheit, modulus_psi * psi, bending_psi * psi},
            fmt::format("{} grows {:.3g} in an inch a degree F; E = {:.3g} psi, bent to {:.4g} psi at most", name,
                        per_fahrenheit, modulus_psi, bending_psi),
            std::move(source)};
}

}  // namespace

Result<Clause<Movement>> movement(Material material) {
    switch (material) {
        case Material::copper_k:
        case Material::copper_l:
        case Material::copper_m:
            return of(9.4e-6, 17e6, 6000, "copper",
                      {"Copper Tube Handbook", "", "expansion loops and offsets", Standing::memory});
        case Material::steel_40:
        case Material::steel_80:
            return of(6.5e-6, 29e6, 15000, "steel", {"ASME B31.9", "", "expansion and flexibility", Standing::memory});
        case Material::stainless_10s:
            return of(9.2e-6, 28e6, 15000, "stainless steel",
                      {"ASME B31.9", "", "expansion and flexibility", Standing::memory});
        case Material::cpvc:
            return of(3.4e-5, 323000, 1000, "CPVC",
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
