// SPDX-License-Identifier: MIT
#pragma once
// The circuits, followed from each breaker.

#include <vector>

#include "proof/view.h"

namespace bw::proof {

struct Fed {
    int heater = 0;
    int disconnect = -1;   ///< the last on the way to the heater; -1 when there is none
    bool stopped = false;  ///< the way passes an emergency stop
};

struct Circuit {
    int breaker = -1;
    std::vector<Fed> fed;  ///< by number
    int pump = -1;         ///< the condensate pump it feeds
    bool pump_stopped = false;
};

[[nodiscard]] std::vector<Circuit> circuits_of(const View& view);

}  // namespace bw::proof
