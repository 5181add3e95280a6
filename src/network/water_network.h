// SPDX-License-Identifier: MIT
#pragma once
// The cold and hot pieces between the supply, the heaters and the delivery as one flow network, and how the heaters
// share what is drawn.

#include <vector>

#include "catalogue/catalogue.h"
#include "demand/demand.h"
#include "flow/network.h"
#include "flow/pipes.h"
#include "matter/water.h"
#include "plant/plant.h"
#include "units/error.h"

namespace bw::network {

/// What feeds the network and what is drawn from it.
struct WaterFeed {
    units::Pressure supply{};    ///< gauge, at site.cold, with nothing flowing
    units::VolumeFlow design{};  ///< of hot water, drawn at site.hot
    units::VolumeFlow each{};    ///< of hot water, the most one heater gives
    matter::Water cold, hot;
};

/// Heaters whose flows differ by more than this do not share alike (common practice, no source).
inline constexpr double most_unlike = 0.10;

/// The peak, or what the heaters can give where that is less. Fails where the water's temperatures lie outside 0 to
/// 100 degC.
[[nodiscard]] Result<WaterFeed> water_feed(const demand::Demand& demand, const demand::Capacity& capacity, int heaters,
                                           units::Pressure supply);

/// Potentials are gauge pressures in Pa, flows kg/s. A link is a segment: pieces of one bore without branches, or a
/// heater by its own curve; check valves, backflow preventers and pressure reducers are links of their own.
struct WaterNetwork {
    flow::Network network;
    std::vector<std::vector<int>> pieces;  ///< by link: the pieces it stands for, in the order of the flow
    std::vector<plant::PortRef> at;        ///< by node: the port it stands at
    std::vector<flow::Stretch> stretch;    ///< by link: of pipe, else of no length
    std::vector<int> heater;               ///< by heater number - 1: its link, or -1 where it is not reached
    int source = -1, delivery = -1;        ///< nodes
};

/// Reads site.cold to the heaters and the heaters to site.hot. Fails where a tree cannot be read, no heater stands
/// between the two, or a piece has no bore.
[[nodiscard]] Result<WaterNetwork> water_network(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                                 const catalogue::Heater& heater, const WaterFeed& feed);

/// One solution. Volume flows are of cold water, as a heater meets it.
struct WaterSplit {
    units::VolumeFlow drawn{};               ///< of hot water
    std::vector<units::VolumeFlow> heater;   ///< by number - 1; nothing where shut or not reached
    std::vector<units::VolumeFlow> through;  ///< by link, along it
    std::vector<units::Pressure> pressure;   ///< by node, gauge
    int least = 0, most = 0;                 ///< numbers of the running heaters with the least and greatest flow
    double shortfall = 0;                    ///< 1 - least flow / greatest flow
};

struct WaterFlows {
    Result<WaterSplit> design;  ///< every heater open
    Result<WaterSplit> half;    ///< half of that drawn
    std::vector<Result<WaterSplit>>
        one_shut;  ///< by the heater shut: the others carry what they can of the design flow
};

/// The design flow alone, every heater open. Refused like in `water_flows`.
[[nodiscard]] Result<WaterSplit> water_split(const WaterNetwork& network, const WaterFeed& feed);

/// A solution that is refused names the piece: a heater asked past its pressure-drop curve, a way that is shut.
[[nodiscard]] Result<WaterFlows> water_flows(const WaterNetwork& network, const WaterFeed& feed);

}  // namespace bw::network
