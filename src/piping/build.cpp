// SPDX-License-Identifier: MIT
#include <algorithm>
#include <iterator>

#include "piping/plant_cache.h"
#include "piping/size/economy.h"

namespace bw::piping {
namespace {

constexpr int most_rounds = 6;

/// All the rest laid to mains in their last sizes; sizes in the order they were decided.
Result<Built> completed(Layer& layer, Laid& mains, const std::optional<WaterDensities>& swell, Sized sized,
                        Economy economy) {
    std::vector<Sizing> sizes;
    if (const auto& vessel = mains.builder->vessel) sizes.push_back(vessel_sizing(*vessel, *swell));
    std::ranges::move(sized.records, std::back_inserter(sizes));
    auto built = layer.whole(mains);
    if (!built) return built;
    std::ranges::move(built->sizes, std::back_inserter(sizes));
    built->sizes = std::move(sizes);
    built->economy = std::move(economy);
    return built;
}

/// Rounds of laying and sizing until both agree.
Result<Built> settled(const SizingInputs& brief, const std::shared_ptr<const LayingInputs>& ground,
                      const std::optional<WaterDensities>& swell, Layer& layer) {
    const Builder bare(ground);
    auto sized = decide_sizes(brief, bare, guess_gas_lengths(bare));
    if (!sized) return tl::unexpected(sized.error());
    Order order{Service::gas, Service::hot, Service::cold};
    for (int round = 1;; ++round) {
        Laid& mains = layer.mains(ground, swell, sized->sizes, order);
        const Builder& b = *mains.builder;
        if (!b.ok()) return tl::unexpected(*b.error());
        order = mains.order;
        const auto measured = measure_gas_lengths(b);
        if (!measured) return tl::unexpected(measured.error());
        auto again = decide_sizes(brief, bare, *measured);
        if (!again) return tl::unexpected(again.error());
        // later rounds only enlarge: lengths and sizes then settle instead of swinging
        auto economy = economize(brief, b, *again, round > 1 ? &b.sizes : nullptr);
        sized = std::move(again);
        if (sized->sizes == b.sizes) return completed(layer, mains, swell, std::move(*sized), std::move(economy));
        if (round == most_rounds)
            return fail("pipe sizes do not settle: each change lengthens the way past the next size",
                        "a size larger by a catalogue with fewer steps, or the connection nearer the banks");
    }
}

}  // namespace

Result<Built> build(const survey::Survey& survey, const catalogue::Catalogue& catalogue, const demand::Demand& demand,
                    const demand::Capacity& capacity, const plant::Layout& layout, PlantCache* before,
                    units::Length loop_head) {
    const auto* heater = catalogue.heater(capacity.heater);
    if (!heater)
        return fail("the heater '" + capacity.heater + "' is not in the catalogue", "one of the catalogue's heaters");
    const SizingInputs brief{survey, demand, capacity, loop_head};
    auto on = laying_inputs(brief, catalogue, *heater, layout);
    if (!on) return tl::unexpected(on.error());
    const auto swell = swell_of(demand);
    Layer layer(before);
    auto built = settled(brief, std::make_shared<const LayingInputs>(*on), swell, layer);
    if (built || !layer.vents_shut()) return built;
    // the mains took the vents' way: the other way about
    on->vents_first = true;
    auto again = settled(brief, std::make_shared<const LayingInputs>(std::move(*on)), swell, layer);
    return again ? again : built;
}

}  // namespace bw::piping
