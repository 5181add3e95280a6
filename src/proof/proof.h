// SPDX-License-Identifier: MIT
#pragma once
// Checks of the services and of the things that get a job red-tagged, one file each.

#include "network/hydraulics.h"
#include "piping/piping.h"

namespace bw::proof {

/// What a check may look at.
struct Case {
    const survey::Survey& survey;
    const catalogue::Catalogue& catalogue;
    const catalogue::Heater& heater;
    const demand::Demand& demand;
    const demand::Capacity& capacity;
    const plant::Layout& layout;
    const piping::Built& built;
    const network::Hydraulics& hydraulics;  ///< of the plant built
};

/// Every check of every service, in report order. Deterministic ids. The same with any number of threads.
[[nodiscard]] std::vector<reason::Check> prove(const Case& c, int threads = 1);

}  // namespace bw::proof
