// SPDX-License-Identifier: MIT
#include "network/vent_by_number.h"

#include <bit>

#include "flow/solver.h"

namespace bw::network {

std::vector<FiringPressure> vent_by_number(const VentNetwork& network, const VentFeed& feed) {
    constexpr std::size_t most = 10;
    const std::size_t heaters = network.mouths.size();
    if (network.service != text::Service::exhaust || heaters < 2 || heaters > most) return {};
    auto solver = flow::Solver::analyse(network.network);
    if (!solver) return {};
    for (const auto& mouth : network.mouths) solver->set_open(mouth.leak, false);
    std::vector<FiringPressure> out(heaters - 1);
    for (unsigned choice = 1; choice + 1 < (1U << heaters); ++choice) {
        for (std::size_t m = 0; m < heaters; ++m)
            solver->set_inflow(network.mouths[m].node, (choice >> m & 1U) != 0 ? feed.flue.full.value() : 0);
        const auto found = solver->solve(flow::Start::cold);
        if (!found) return {};
        auto& worst = out[static_cast<std::size_t>(std::popcount(choice)) - 1];
        for (std::size_t m = 0; m < heaters; ++m) {
            if ((choice >> m & 1U) != 0) continue;
            const auto& mouth = network.mouths[m];
            const auto pressure =
                units::Pressure::from_value((*found)->potential[static_cast<std::size_t>(mouth.node)]);
            if (worst.idle > 0 && pressure <= worst.pressure) continue;
            worst = {std::popcount(choice), pressure, mouth.number, {}};
            for (std::size_t k = 0; k < heaters; ++k)
                if ((choice >> k & 1U) != 0) worst.burning.push_back(network.mouths[k].number);
        }
    }
    return out;
}

}  // namespace bw::network
