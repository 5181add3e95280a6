// SPDX-License-Identifier: MIT
// Recovery against storage: fewer heaters, and the tank that lets them carry the same day.
#include "demand/methods.h"

namespace bw::demand {

namespace {

/// Share of a tank that can be drawn off hot; the handbook divides by it.
constexpr double usable_share = 0.70;

/// What a store must give when each hour's water is drawn at the peak flow from the start of the hour, over two days.
/// Nothing where the heaters do not refill it in a day.
std::optional<Volume> usable_store(const Day& day, VolumeFlow peak, VolumeFlow recovery) {
    if (recovery < least_recovery(day.total)) return std::nullopt;
    Volume missing{}, most{};
    for (int pass = 0; pass < 2; ++pass)
        for (const auto& volume : day.volume) {
            const auto flow = std::max(peak, volume / hour);
            const auto burst = volume / flow;
            missing += std::max(Volume(), volume - recovery * burst);
            most = std::max(most, missing);
            missing = std::max(Volume(), missing - recovery * (hour - burst));
        }
    return most;
}

}  // namespace

VolumeFlow least_recovery(Volume day) { return day / (24.0 * hour); }
Volume tank_for(Volume usable) { return usable / usable_share; }

Result<std::vector<StoreOption>> store_options(const Demand& demand, const HeaterOutput& each, int needed) {
    std::vector<StoreOption> out;
    if (!(demand.day.total.value() > 0)) return out;
    for (int n = 1; n <= needed; ++n) {
        auto recovery = delivered(demand, each, n);
        if (!recovery) return tl::unexpected(recovery.error());
        if (!(recovery->value() > 0)) continue;
        auto usable = usable_store(demand.day, demand.peak, *recovery);
        if (!usable) continue;
        // the last bits of the peak are no store
        if (n == needed && *recovery >= demand.peak * (1 - 1e-6)) usable = Volume();
        out.push_back({n, *recovery, *usable, tank_for(*usable)});
    }
    return out;
}

}  // namespace bw::demand
