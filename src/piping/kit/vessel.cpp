// SPDX-License-Identifier: MIT
#include "piping/kit/vessel.h"

#include "matter/water.h"

namespace bw::piping {
namespace {

/// Times the plant's own water: the building's pipe is not surveyed and is taken to hold twice as much as the plant's
/// (common practice, no source), to be confirmed.
constexpr double building = 3;

/// m3 that the water swells by.
double swelling(const WaterDensities& swell, double held) { return building * held * (swell.cold / swell.hot - 1); }

}  // namespace

std::optional<WaterDensities> swell_of(const demand::Demand& demand) {
    const auto cold = matter::water(demand.cold), hot = matter::water(demand.hot);
    if (!cold || !hot) return std::nullopt;
    return WaterDensities{cold->density, hot->density};
}

const catalogue::Item* vessel_for(const catalogue::Catalogue& catalogue, const WaterDensities& swell, double held) {
    const double wanted = swelling(swell, held);
    const catalogue::Item* best = nullptr;
    for (const auto* row : catalogue.of(text::Part::expansion_vessel)) {
        if (row->number("acceptance").value_or(0) < wanted) continue;
        if (!best || row->number("volume").value_or(0) < best->number("volume").value_or(0)) best = row;
    }
    return best;
}

Sizing vessel_sizing(const Vessel& vessel, const WaterDensities& swell) {
    using units::amount;
    const auto volume = [](double m3) { return units::Amount{m3, units::Kind::volume}; };
    Sizing sizing;
    sizing.what = "expansion vessel";
    sizing.service = text::Service::cold;
    sizing.material = vessel.material;
    sizing.size = vessel.size;
    sizing.derivation = {{"Water in the plant, three times over for the building's own pipe, which is not surveyed.",
                          "V = 3 V_plant",
                          {{"V_plant", "water in the plant", volume(vessel.held)}},
                          {{"V", "water that warms", volume(building * vessel.held)}}},
                         {"What it swells by from the coldest supply to the distribution temperature.",
                          "dV = V (rho_cold / rho_hot - 1)",
                          {{"V", "water that warms", volume(building * vessel.held)},
                           {"rho_cold", "density", amount(swell.cold)},
                           {"rho_hot", "density", amount(swell.hot)}},
                          {{"dV", "expansion", volume(swelling(swell, vessel.held))}}},
                         {"The smallest vessel whose acceptance takes it.",
                          "",
                          {},
                          {{"", "acceptance", volume(vessel.item->number("acceptance").value_or(0))}}}};
    sizing.sources = matter::water_sources();
    sizing.sources.push_back({"", "", "", reason::Standing::common_practice});
    return sizing;
}

}  // namespace bw::piping
