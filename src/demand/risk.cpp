// SPDX-License-Identifier: MIT
// What each heater more or less does to the chance of a cold shower.
#include "demand/methods.h"
#include "matter/water.h"

namespace bw::demand {

namespace {

const Spread& spread_at(const Demand& demand, double share) {
    for (const auto& level : *demand.levels)
        if (level.share == share) return level.spread;
    return demand.levels->back().spread;
}

/// Chance that the fixtures and a block together draw more than `flow`; what the distribution leaves out counts as
/// more.
double short_chance(const Demand& demand, const Stretch& stretch, VolumeFlow flow) {
    const auto& spread = spread_at(demand, stretch.share);
    const auto left = flow - stretch.blocks;
    if (left.value() < 0) return 1;
    return std::min(1.0, spread.above(left) + spread.dropped());
}

/// Temperature to which `heat` warms a flow, no more than `hot`.
Result<Temperature> warmed(VolumeFlow flow, Temperature cold, Temperature hot, Power heat) {
    auto full = matter::heat_to_warm(flow, cold, hot);
    if (!full) return tl::unexpected(full.error());
    if (*full <= heat) return hot;
    if (heat.value() <= 0) return cold;
    double low = cold.value(), high = hot.value();
    while (high - low > 1e-6) {
        const double middle = 0.5 * (low + high);
        auto needed = matter::heat_to_warm(flow, cold, kelvin(middle));
        if (!needed) break;  // too near the cold water to tell apart
        (*needed < heat ? low : high) = middle;
    }
    return kelvin(low);
}

VolumeFlow at_percentile(const Demand& demand) {
    VolumeFlow most{};
    for (const auto& stretch : demand.day.stretches)
        most = std::max(most, spread_at(demand, stretch.share).percentile(demand.percentile) + stretch.blocks);
    return most;
}

}  // namespace

std::optional<int> enough_by_chance(const std::vector<RiskPoint>& risk, double share) {
    for (const auto& point : risk)
        if (point.short_chance <= share) return point.heaters;
    return std::nullopt;
}

Result<VolumeFlow> delivered(const Demand& demand, const HeaterOutput& each, int heaters) {
    const auto unit = matter::heat_to_warm(1.0 * cubic_metre_per_second, demand.cold, demand.hot);
    if (!unit) return tl::unexpected(unit.error());
    const double n = heaters;
    const Power heat = n * each.output - demand.recirculation_loss;
    const auto by_heat = heat / *unit * cubic_metre_per_second;
    const auto by_flow = n * each.flow_greatest - demand.recirculation_flow;
    return std::max(VolumeFlow(), std::min(by_heat, by_flow));
}

Result<std::vector<RiskPoint>> risk_curve(const Demand& demand, const HeaterOutput& each, int heaters) {
    std::vector<RiskPoint> out;
    if (!demand.levels || demand.levels->empty()) return out;
    const auto asked = at_percentile(demand);
    for (int n = 1; n <= heaters + 3; ++n) {
        auto flow = delivered(demand, each, n);
        if (!flow) return tl::unexpected(flow.error());
        RiskPoint point{n, *flow, 0, 0, demand.hot};
        for (const auto& stretch : demand.day.stretches) {
            const double chance = short_chance(demand, stretch, *flow);
            point.short_chance = std::max(point.short_chance, chance);
            point.minutes_a_year += 365.0 * (stretch.to - stretch.from) * chance;
        }
        if (asked.value() > 0) {
            auto coldest = warmed(asked, demand.cold, demand.hot,
                                  static_cast<double>(n) * each.output - demand.recirculation_loss);
            if (!coldest) return tl::unexpected(coldest.error());
            point.coldest = *coldest;
        }
        out.push_back(point);
    }
    return out;
}

}  // namespace bw::demand
