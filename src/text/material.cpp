// SPDX-License-Identifier: MIT
#include "text/material.h"

#include <array>

#include "text/spoken.h"

namespace bw::text {
namespace {

using enum Material;
using enum Shortest::By;

constexpr Shortest nipple{close_nipple, 0}, soldered{two_sockets, 0.125}, cemented{two_sockets, 0.25};
constexpr Shortest vent{length, 4}, corrugated{length, 3}, any{length, 1};
constexpr std::optional<double> unknown = std::nullopt;

/// Walls of vents count as conducting like steel, on the cold side for what condenses in them.
constexpr double as_steel = 50;

constexpr std::array rows{
    MaterialRow{steel_40, "steel-40", "schedule 40 steel", Family::steel, Joining::threaded_then_welded, nipple,
                GasUse::steel, GasSizing::metallic_40, false, 50, 0.9, 6.5e-6},
    MaterialRow{steel_80, "steel-80", "schedule 80 steel", Family::steel, Joining::threaded_then_welded, nipple,
                GasUse::steel, GasSizing::none, false, 50, 0.9, 6.5e-6},
    MaterialRow{stainless_10s, "stainless-10s", "schedule 10S stainless steel", Family::stainless, Joining::pressed,
                cemented, GasUse::stainless, GasSizing::none, false, 15, 0.9, 9.2e-6},
    MaterialRow{copper_k, "copper-k", "type K copper", Family::copper, Joining::soldered, soldered,
                GasUse::low_sulphide, GasSizing::copper, true, 390, 0.6, 9.4e-6},
    MaterialRow{copper_l, "copper-l", "type L copper", Family::copper, Joining::soldered, soldered,
                GasUse::low_sulphide, GasSizing::copper, true, 390, 0.6, 9.4e-6},
    MaterialRow{copper_m, "copper-m", "type M copper", Family::copper, Joining::soldered, soldered, GasUse::refused,
                GasSizing::none, false, 390, 0.6, 9.4e-6},
    MaterialRow{cpvc, "cpvc", "CPVC", Family::cpvc, Joining::solvent, cemented, GasUse::refused, GasSizing::none, false,
                0.137, 0.9, 3.4e-5},
    MaterialRow{csst, "csst", "CSST", Family::corrugated, Joining::flare, corrugated, GasUse::listed_tubing,
                GasSizing::csst, false, as_steel, 0.9, unknown},
    MaterialRow{vent_polypropylene, "vent-polypropylene", "polypropylene vent", Family::vent, Joining::gasketed, vent,
                GasUse::refused, GasSizing::none, false, as_steel, 0.9, 8.3e-5},
    MaterialRow{vent_cpvc, "vent-cpvc", "CPVC vent", Family::vent, Joining::solvent, vent, GasUse::refused,
                GasSizing::none, false, as_steel, 0.9, 3.4e-5},
    MaterialRow{vent_pvc, "vent-pvc", "PVC vent", Family::vent, Joining::solvent, vent, GasUse::refused,
                GasSizing::none, false, as_steel, 0.9, 3.0e-5},
    MaterialRow{pvc_drain, "pvc-drain", "PVC drain", Family::drain, Joining::solvent, cemented, GasUse::refused,
                GasSizing::none, false, as_steel, 0.9, unknown},
    MaterialRow{cable, "cable", "cable", Family::cable, Joining::wired, any, GasUse::refused, GasSizing::none, false,
                as_steel, 0.9, unknown},
    MaterialRow{strut, "strut", "strut", Family::strut, Joining::bolted, any, GasUse::refused, GasSizing::none, false,
                as_steel, 0.9, unknown},
};
static_assert(one_row_each(rows, &MaterialRow::material, strut));

constexpr auto keys = [] {
    std::array<std::string_view, rows.size()> out;
    for (std::size_t i = 0; i < rows.size(); ++i) out[i] = rows[i].key;
    return out;
}();

}  // namespace

const MaterialRow& row_of(Material material) { return rows[static_cast<std::size_t>(material)]; }
std::string_view name(Material value) { return row_of(value).key; }
std::string_view spoken(Material value) { return row_of(value).spoken; }

template <>
Words words_of<Material>() {
    return {"material", keys};
}

}  // namespace bw::text
