// SPDX-License-Identifier: MIT
#pragma once
// The gas pieces from the point of connection to the heaters as one flow network, and the pressure at every heater.

#include <vector>

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "flow/network.h"
#include "plant/plant.h"
#include "survey/survey.h"
#include "units/error.h"

namespace bw::network {

/// What feeds the network and what a heater burns.
struct GasFeed {
    text::Gas kind{};
    units::Ratio specific_gravity = 0;
    units::Pressure delivery{};    ///< gauge, at site.gas
    units::Pressure atmosphere{};  ///< absolute
    units::VolumeFlow each{};      ///< at 60 degF and one atmosphere, one heater at full fire
};

/// At the input and heating value left at this altitude. Fails where the altitude lies outside the air's method.
[[nodiscard]] Result<GasFeed> gas_feed(const survey::Survey& survey, const demand::Capacity& capacity);

/// Potentials are squared absolute pressures in Pa2, flows kg/s. A link is a segment: pieces of one bore without
/// branches; a regulator is a link of its own. The gas's own weight is left out: it changes the gauge pressure by at
/// most some 6 Pa a metre of height.
struct GasNetwork {
    flow::Network network;
    std::vector<std::vector<int>> pieces;  ///< by link, in the order of the flow
    std::vector<plant::PortRef> at;        ///< by node: the port it stands at
    std::vector<int> heater;               ///< by number - 1: the node at its port, or -1 where it is not reached
};

/// Fails where the tree cannot be read, no heater is reached, or a piece has no bore or outlet pressure of its own.
[[nodiscard]] Result<GasNetwork> gas_network(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                             const GasFeed& feed);

struct GasSplit {
    std::vector<units::Pressure> heater;     ///< by number - 1, gauge while firing as asked; nothing where not reached
    std::vector<units::Pressure> pressure;   ///< by node, gauge
    std::vector<units::VolumeFlow> through;  ///< by link, at 60 degF and one atmosphere
    int lowest = 0;                          ///< number of the heater with the least pressure
};

struct GasFlows {
    Result<GasSplit> all;                 ///< every heater firing
    std::vector<Result<GasSplit>> alone;  ///< by the one heater that fires
};

/// A solution that is refused names the piece whose pressure would fall below nothing.
[[nodiscard]] Result<GasFlows> gas_flows(const GasNetwork& network, const GasFeed& feed);

}  // namespace bw::network
