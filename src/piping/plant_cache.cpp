// SPDX-License-Identifier: MIT
#include "piping/plant_cache.h"

#include <algorithm>
#include <vector>

namespace bw::piping {
namespace {

/// Two edits' rounds of sizing, up to ten each with those that try for less, and the tries that find no way.
constexpr std::size_t most_kept = 24;

/// The next order to try: the one that found no way first; where that was tried, any that was not. False when all were.
bool turn(Order& order, Service shut, const std::vector<Order>& tried) {
    const auto fresh = [&](const Order& one) { return std::ranges::find(tried, one) == tried.end(); };
    Order next = order;
    const auto at = std::ranges::find(next, shut);
    std::rotate(next.begin(), at, std::next(at));
    if (!fresh(next)) {
        std::ranges::sort(next);
        while (!fresh(next))
            if (!std::ranges::next_permutation(next).found) return false;
    }
    order = next;
    return true;
}

/// Where a main finds no way past those laid before it, it goes first the next time; the room is searched closely once
/// quick ways have failed in three orders.
Laid lay(const std::shared_ptr<const LayingInputs>& ground, const std::optional<WaterDensities>& swell,
         const Sizes& sizes, const Order& wanted) {
    Laid laid{.wanted = wanted, .order = wanted, .builder = nullptr};
    auto& order = laid.order;
    constexpr std::size_t quick = 2;
    for (std::vector<Order> tried;;) {
        laid.builder = std::make_shared<Builder>(ground, swell);
        auto& b = *laid.builder;
        b.sizes = sizes;
        add_heaters(b);
        add_banks(b);
        if (ground->vents_first) add_vents(b);
        if (!b.ok()) break;
        const auto shut = add_mains(b, order, tried.size() < quick ? Thoroughness::simple : Thoroughness::searched);
        tried.push_back(order);
        // what hangs on the cold main is laid last: that found no way either
        if (b.ok() || b.no_vessel_suits || !turn(order, shut.value_or(Service::cold), tried)) break;
    }
    return laid;
}

/// Whether the vessel hung is the one this water wants too.
bool same_vessel(const Builder& laid, const std::optional<WaterDensities>& swell) {
    if (!laid.vessel) return true;
    return swell && vessel_for(laid.catalogue, *swell, laid.vessel->held) == laid.vessel->item;
}

}  // namespace

PlantCache::PlantCache() : plants_(std::make_unique<Plants>()) {}
PlantCache::~PlantCache() = default;
int PlantCache::laid() const { return plants_->laid; }
int PlantCache::taken() const { return plants_->taken; }

Layer::Layer(PlantCache* before) {
    if (!before) return;
    hold_ = std::unique_lock(before->plants_->busy, std::try_to_lock);
    if (hold_.owns_lock()) kept_ = before->plants_.get();
}

std::shared_ptr<Laid> Layer::mains(const std::shared_ptr<const LayingInputs>& ground,
                                   const std::optional<WaterDensities>& swell, const Sizes& sizes, const Order& order) {
    if (kept_) {
        const auto found = std::ranges::find_if(kept_->plants, [&](const std::shared_ptr<Laid>& laid) {
            const Builder& b = *laid->builder;
            return laid->wanted == order && b.sizes == sizes && b.ground == *ground && same_vessel(b, swell);
        });
        if (found != kept_->plants.end()) {
            ++kept_->taken;
            kept_->plants.splice(kept_->plants.begin(), kept_->plants, found);
            return kept_->plants.front();
        }
        ++kept_->laid;
    }
    auto laid = std::make_shared<Laid>(lay(ground, swell, sizes, order));
    // what failed is not kept: it may have failed by the water, which is no part of the ground
    if (!kept_ || !laid->builder->ok()) return laid;
    kept_->plants.push_front(laid);
    if (kept_->plants.size() > most_kept) kept_->plants.pop_back();
    return laid;
}

Result<Built> Layer::whole(Laid& mains) {
    if (mains.whole) return *mains.whole;
    Builder b = kept_ ? *mains.builder : std::move(*mains.builder);
    for (const auto stage : {add_vents, add_drains, add_reliefs, add_electrics, add_structure}) {
        if (stage == add_vents && b.ground.vents_first) continue;
        stage(b);
        vents_shut_ = stage == add_vents && !b.ok();
        if (!b.ok()) return tl::unexpected(*b.error());
    }
    if (!kept_) return std::move(b.built);
    mains.whole = std::make_shared<const Built>(std::move(b.built));
    return *mains.whole;
}

}  // namespace bw::piping
