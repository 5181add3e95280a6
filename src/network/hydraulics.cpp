// SPDX-License-Identifier: MIT
#include "network/hydraulics.h"

#include <tbb/parallel_invoke.h>
#include <tbb/task_arena.h>

#include <algorithm>

namespace bw::network {
namespace {

using catalogue::Catalogue;
using plant::Plant;
using text::Service;

int heaters_in(const Plant& plant) {
    int heaters = 0;
    for (const auto& piece : plant.pieces)
        if (piece.part == text::Part::heater) heaters = std::max(heaters, piece.heater);
    return heaters;
}

Result<GasSolution> gas(const Plant& plant, const Catalogue& catalogue, const Duty& duty) {
    const auto feed = gas_feed(duty.survey, duty.capacity);
    if (!feed) return tl::unexpected(feed.error());
    auto network = gas_network(plant, catalogue, *feed);
    if (!network) return tl::unexpected(network.error());
    auto flows = gas_flows(*network, *feed);
    if (!flows) return tl::unexpected(flows.error());
    return GasSolution{*feed, std::move(*network), std::move(*flows)};
}

Result<WaterSolution> water(const Plant& plant, const Catalogue& catalogue, const Duty& duty) {
    const auto feed = water_feed(duty.demand, duty.capacity, heaters_in(plant), *duty.survey.supply.pressure);
    if (!feed) return tl::unexpected(feed.error());
    auto network = water_network(plant, catalogue, duty.heater, *feed);
    if (!network) return tl::unexpected(network.error());
    auto flows = water_flows(*network, *feed);
    if (!flows) return tl::unexpected(flows.error());
    return WaterSolution{*feed, std::move(*network), std::move(*flows)};
}

Result<std::vector<VentSolution>> passages(const Plant& plant, const Catalogue& catalogue, Service service,
                                           const VentFeed& feed) {
    auto networks = vent_networks(plant, catalogue, service, feed);
    if (!networks) return tl::unexpected(networks.error());
    std::vector<VentSolution> solved;
    for (auto& network : *networks) {
        auto flows = vent_flows(network, feed);
        solved.push_back({std::move(network), std::move(flows)});
    }
    return solved;
}

Result<VentSolutions> vents(const Plant& plant, const Catalogue& catalogue, const Duty& duty) {
    const auto feed = vent_feed(duty.survey, duty.heater, duty.demand, duty.capacity);
    if (!feed) return tl::unexpected(feed.error());
    return VentSolutions{*feed, passages(plant, catalogue, Service::exhaust, *feed),
                         passages(plant, catalogue, Service::intake, *feed)};
}

}  // namespace

Hydraulics solve(const Plant& plant, const Catalogue& catalogue, const Duty& duty, int threads) {
    Hydraulics out;
    const auto of_gas = [&] { out.gas = gas(plant, catalogue, duty); };
    const auto of_water = [&] { out.water = water(plant, catalogue, duty); };
    const auto of_vents = [&] { out.vents = vents(plant, catalogue, duty); };
    if (threads > 1) {
        tbb::task_arena arena(threads);
        arena.execute([&] { tbb::parallel_invoke(of_water, of_vents, of_gas); });
    } else {
        of_gas(), of_water(), of_vents();
    }
    return out;
}

}  // namespace bw::network
