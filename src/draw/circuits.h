// SPDX-License-Identifier: MIT
#pragma once
// Power and links read off the pieces: each circuit from its breaker on, and which heater is linked to which.

#include <vector>

#include "plant/plant.h"

namespace bw::draw {

struct Outlet {
    int heater = 0;
    int disconnect = -1;  ///< -1 where the cable goes into the heater itself
    double cable = 0;     ///< metres from what comes before on the circuit
    plant::Nominal size;  ///< of that cable
};

struct Circuit {
    int breaker = -1;
    int stop = -1;  ///< the emergency stop, or -1
    std::vector<Outlet> outlets;
};

/// In the order of the panel's places.
[[nodiscard]] std::vector<Circuit> circuits_of(const plant::Plant& plant);

struct Link {
    int from = 0, to = 0;  ///< heaters by number
    int cable = -1;
};
[[nodiscard]] std::vector<Link> links_of(const plant::Plant& plant);

}  // namespace bw::draw
