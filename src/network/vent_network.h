// SPDX-License-Identifier: MIT
#pragma once
// The exhaust, or air, pieces between heaters and outdoors as flow networks, and the pressure at every heater's port.

#include <vector>

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "flow/network.h"
#include "plant/plant.h"
#include "units/error.h"

namespace bw::network {

/// A gas in a vent.
struct VentGas {
    units::MassFlow full{}, least{};  ///< of one heater at its greatest and at its least input
    units::Density density{};
    units::Viscosity viscosity{};
};

/// What goes through vents. Flue gas at its warmest and not cooled on the way, nothing of it condensed: the most volume
/// there can be. Excess air at least fire is taken as at full fire.
struct VentFeed {
    VentGas flue, air;
    units::Temperature flue_temperature{};    ///< at full fire
    units::Temperature warmest{};             ///< flue gas at the loop's return, at whatever fire
    units::Pressure atmosphere{};             ///< absolute
    units::Density light_air{}, heavy_air{};  ///< outdoors on a warm day, on a cold one
};

/// By stoichiometry at the input left at this altitude; flue gas as warm as the warmest water that comes back makes it.
/// Fails where combustion or air lies outside its method's range.
[[nodiscard]] Result<VentFeed> vent_feed(const survey::Survey& survey, const catalogue::Heater& heater,
                                         const demand::Demand& demand, const demand::Capacity& capacity);

/// One passage to outdoors. Potentials are gauge pressures in Pa, each over outdoor air at its own height; flows kg/s.
/// A link is a segment: pieces of one bore without branches. Pressures are total: at a collar without flow that is the
/// most the static pressure can be.
struct VentNetwork {
    struct Mouth {
        int number = 0;  ///< of the heater
        int node = -1;   ///< at its port
        int leak = -1;   ///< link from its port to the room, shut; for an idle heater whose damper failed open
    };
    text::Service service{};
    flow::Network network;
    std::vector<std::vector<int>> pieces;  ///< by link, in the order of the flow; empty for a leak
    std::vector<plant::PortRef> at;        ///< by node but the room's: the port it stands at
    std::vector<Mouth> mouths;             ///< by rising number
    int terminal = -1;                     ///< piece at the way out
};

/// One network for every point where a service, exhaust or intake, meets outdoors. A leak has no loss but its outlet's
/// velocity head: what a heater's own traversals hold back is not known, so more leaks here than would. Fails where a
/// tree cannot be read or a piece has no bore.
[[nodiscard]] Result<std::vector<VentNetwork>> vent_networks(const plant::Plant& plant,
                                                             const catalogue::Catalogue& catalogue,
                                                             text::Service service, const VentFeed& feed);

/// One solution. Along `mouths`: the pressure at each heater's port, above nothing for exhaust and below it for air.
struct VentSplit {
    std::vector<units::Pressure> port;
    std::vector<units::Pressure> pressure;  ///< by node, gauge
    std::vector<units::MassFlow> through;   ///< by link, along it
    units::MassFlow leak{};                 ///< into the room; below nothing where the room's air is drawn out
};

/// Cases along `mouths`, each about that heater while the others are at full fire; of exhaust alone.
struct VentFlows {
    Result<VentSplit> all;                 ///< every heater at full fire
    std::vector<Result<VentSplit>> idle;   ///< its damper shut
    std::vector<Result<VentSplit>> least;  ///< at its least fire
    std::vector<Result<VentSplit>> open;   ///< idle, its damper failed open
};

/// Refusals name the piece. Every firing heater gives its whole flow whatever the pressure: whether its fan can is
/// for the caller to compare.
[[nodiscard]] Result<VentFlows> vent_flows(const VentNetwork& network, const VentFeed& feed);

}  // namespace bw::network
