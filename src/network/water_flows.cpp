// SPDX-License-Identifier: MIT
#include <algorithm>

#include "flow/solver.h"
#include "network/water_network.h"

namespace bw::network {
namespace {

using units::VolumeFlow;

class Splitter {
public:
    Splitter(const WaterNetwork& network, const WaterFeed& feed, flow::Solver solver)
        : network_(network), feed_(feed), solver_(std::move(solver)) {}

    [[nodiscard]] int running() const {
        return static_cast<int>(
            std::count_if(network_.heater.begin(), network_.heater.end(), [](int l) { return l >= 0; }));
    }

    Result<WaterSplit> split(VolumeFlow drawn) {
        solver_.set_inflow(network_.delivery, -(drawn.value() * feed_.hot.density.value()));
        const auto found = solver_.solve(flow::Start::warm);
        if (!found) return tl::unexpected(found.error());
        return told(**found, drawn);
    }

    /// With one heater shut by its own valves; opens it again.
    Result<WaterSplit> without(int link, VolumeFlow drawn) {
        solver_.set_open(link, false);
        auto out = split(drawn);
        solver_.set_open(link, true);
        return out;
    }

private:
    [[nodiscard]] WaterSplit told(const flow::Solution& found, VolumeFlow drawn) const {
        WaterSplit out;
        out.drawn = drawn;
        const double density = feed_.cold.density.value();
        for (const double flow : found.flow) out.through.push_back(VolumeFlow::from_value(flow / density));
        for (const double potential : found.potential) out.pressure.push_back(units::Pressure::from_value(potential));
        out.heater.resize(network_.heater.size());
        const auto& links = solver_.network().links;
        for (std::size_t n = 0; n < network_.heater.size(); ++n) {
            const int link = network_.heater[n];
            if (link < 0 || !links[static_cast<std::size_t>(link)].open) continue;
            const int number = static_cast<int>(n) + 1;
            out.heater[n] = out.through[static_cast<std::size_t>(link)];
            const auto flow_of = [&](int other) { return out.heater[static_cast<std::size_t>(other) - 1]; };
            if (out.least == 0 || out.heater[n] < flow_of(out.least)) out.least = number;
            if (out.most == 0 || out.heater[n] > flow_of(out.most)) out.most = number;
        }
        if (out.most > 0 && out.heater[static_cast<std::size_t>(out.most) - 1].value() > 0)
            out.shortfall = 1 - out.heater[static_cast<std::size_t>(out.least) - 1] /
                                    out.heater[static_cast<std::size_t>(out.most) - 1];
        return out;
    }

    const WaterNetwork& network_;
    const WaterFeed& feed_;
    flow::Solver solver_;
};

}  // namespace

Result<WaterFeed> water_feed(const demand::Demand& demand, const demand::Capacity& capacity, int heaters,
                             units::Pressure supply) {
    const auto cold = matter::water(demand.cold), hot = matter::water(demand.hot);
    if (!cold) return tl::unexpected(cold.error());
    if (!hot) return tl::unexpected(hot.error());
    WaterFeed feed{supply, demand.peak, capacity.each.flow, *cold, *hot};
    feed.design = std::min(feed.design, static_cast<double>(heaters) * feed.each);
    return feed;
}

Result<WaterSplit> water_split(const WaterNetwork& network, const WaterFeed& feed) {
    auto solver = flow::Solver::analyse(network.network);
    if (!solver) return tl::unexpected(solver.error());
    return Splitter(network, feed, std::move(*solver)).split(feed.design);
}

Result<WaterFlows> water_flows(const WaterNetwork& network, const WaterFeed& feed) {
    auto solver = flow::Solver::analyse(network.network);
    if (!solver) return tl::unexpected(solver.error());
    Splitter splitter(network, feed, std::move(*solver));
    const int running = splitter.running();
    WaterFlows out{splitter.split(feed.design), splitter.split(feed.design / 2.0), {}};
    for (const int link : network.heater) {
        if (running < 2 || link < 0) {
            out.one_shut.push_back(fail("no other heater is left to run", "two heaters or more"));
            continue;
        }
        out.one_shut.push_back(
            splitter.without(link, std::min(feed.design, static_cast<double>(running - 1) * feed.each)));
    }
    return out;
}

}  // namespace bw::network
