// SPDX-License-Identifier: MIT
#pragma once
// How the heaters would share the water were the headers fed and led off elsewhere.

#include <string>
#include <vector>

#include "network/water_network.h"
#include "plant/layout.h"

namespace bw::network {

struct HeaderScheme {
    std::string what;                       ///< "fed at one end, led off at the same end"
    std::vector<units::VolumeFlow> heater;  ///< by number - 1, cold water in; empty where it was refused
    double shortfall = 0;                   ///< 1 - least flow / greatest flow
    std::string refused;                    ///< why it has no solution
};

/// The peak by four schemes on the same headers and branches, the first as laid; the pipe that would bring cold and hot
/// to the other places is not counted. Empty where a header cannot be read.
[[nodiscard]] std::vector<HeaderScheme> header_schemes(const plant::Plant& plant, const plant::Layout& layout,
                                                       const WaterNetwork& network, const WaterFeed& feed);

}  // namespace bw::network
