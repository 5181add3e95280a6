// SPDX-License-Identifier: MIT
#include "network/loop_pump.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace bw::network {

using units::Length;
using units::VolumeFlow;

PumpCurve pump_curve(const catalogue::Item& pump) {
    PumpCurve curve;
    for (int i = 1; i <= 5; ++i) {
        const auto flow = pump.number(fmt::format("flow-{}", i)), head = pump.number(fmt::format("head-{}", i));
        if (!flow || !head) break;
        curve.flow.push_back(VolumeFlow::from_value(*flow));
        curve.head.push_back(Length::from_value(*head));
    }
    return curve;
}

Length PumpCurve::at(VolumeFlow wanted) const {
    for (std::size_t i = 1; i < flow.size(); ++i)
        if (wanted <= flow[i])
            return head[i - 1] + (head[i] - head[i - 1]) * ((wanted - flow[i - 1]) / (flow[i] - flow[i - 1])).value();
    return {};
}

int heaters_open_to_loop(const demand::Demand& demand, const demand::Capacity& capacity,
                         const catalogue::Heater& heater) {
    if (!heater.closes_when_idle) return capacity.installed;
    const double by_flow = std::ceil((demand.recirculation_flow / heater.flow_greatest).value() - 1e-9);
    const double by_heat = std::ceil((demand.recirculation_loss / capacity.each.output).value() - 1e-9);
    const auto groups = static_cast<int>(catalogue::linked_groups(heater, capacity.installed).size());  // one in each
    return std::min(capacity.installed, std::max(groups, static_cast<int>(std::max(by_flow, by_heat))));
}

const catalogue::Item* pump_for(const catalogue::Catalogue& catalogue, VolumeFlow flow, Length head) {
    const catalogue::Item* best = nullptr;
    const auto order = [&](const catalogue::Item& row) {
        // the third of five points of its curve is the middle of its range
        return std::tuple(row.number("flow-3").value_or(0) < flow.value(), row.price);
    };
    for (const auto* row : catalogue.of(text::Part::pump)) {
        if (!row->size) continue;
        const auto curve = pump_curve(*row);
        if (curve.flow.empty() || flow > curve.flow.back() || curve.at(flow) < head) continue;
        if (!best || order(*row) < order(*best)) best = row;
    }
    return best;
}

}  // namespace bw::network
