// SPDX-License-Identifier: MIT
#pragma once
// The gas pieces as one flow network with its solutions.

#include <string>

#include "network/gas_network.h"

namespace bw::proof {

class View;

struct GasSolved {
    network::GasFeed feed;
    network::GasNetwork network;
    network::GasFlows flows;
};

/// Every heater firing and each alone. Fails where the pieces cannot be read as a network.
[[nodiscard]] Result<GasSolved> solve_gas(const View& view);

/// What would bring the lowest heater up to a pressure with all firing, and by how much: a delivery pressure, pipe of
/// which lines and sizes. Empty where nothing is amiss or the pieces cannot be read.
[[nodiscard]] std::string gas_mend(const View& view, units::Pressure least);

}  // namespace bw::proof
