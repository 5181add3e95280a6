// SPDX-License-Identifier: MIT
#pragma once
// The plant's services read off its pieces as networks and solved once: what every check, drawing and document reads.

#include "network/gas_network.h"
#include "network/vent_network.h"
#include "network/water_network.h"

namespace bw::network {

struct GasSolution {
    GasFeed feed;
    GasNetwork network;
    GasFlows flows;
};

struct WaterSolution {
    WaterFeed feed;
    WaterNetwork network;
    WaterFlows flows;
};

/// One passage to outdoors.
struct VentSolution {
    VentNetwork network;
    Result<VentFlows> flows;
};

struct VentSolutions {
    VentFeed feed;
    Result<std::vector<VentSolution>> exhaust, intake;
};

/// Each service solved, or the reason why it has no solution. Indices are those of the plant it was solved from.
struct Hydraulics {
    Result<GasSolution> gas;
    Result<WaterSolution> water;
    Result<VentSolutions> vents;
};

/// What is asked of the plant, beside its pieces.
struct Duty {
    const survey::Survey& survey;
    const catalogue::Heater& heater;
    const demand::Demand& demand;
    const demand::Capacity& capacity;
};

/// The stage between the plant and everything that reads it: gas with every heater firing and each alone, water at the
/// peak, at half of it and with each heater shut, vents at full fire and in each case about one heater. The loop's own
/// flow is not among them: it is chosen by the check of its pump. The same with any
/// number of threads.
[[nodiscard]] Hydraulics solve(const plant::Plant& plant, const catalogue::Catalogue& catalogue, const Duty& duty,
                               int threads = 1);

}  // namespace bw::network
