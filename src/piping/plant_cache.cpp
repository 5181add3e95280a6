// SPDX-License-Identifier: MIT
#include "piping/plant_cache.h"

#include <algorithm>

namespace bw::piping {
namespace {

/// Several edits' rounds of sizing, two or three each.
constexpr std::size_t most_kept = 8;

/// Where a main finds no way past those laid before it, it goes first the next time.
Laid lay(const std::shared_ptr<const LayingInputs>& ground, const std::optional<WaterDensities>& swell,
         const Sizes& sizes, const Order& wanted) {
    Laid laid{.wanted = wanted, .order = wanted, .builder = nullptr};
    auto& order = laid.order;
    for (int tries = 1; tries <= static_cast<int>(order.size()); ++tries) {
        const bool last = tries == static_cast<int>(order.size());
        laid.builder = std::make_shared<Builder>(ground, swell);
        auto& b = *laid.builder;
        b.sizes = sizes;
        add_heaters(b);
        add_banks(b);
        if (!b.ok()) break;
        const auto shut = add_mains(b, order, last ? Thoroughness::searched : Thoroughness::simple);
        if (b.ok() || !shut) break;
        auto at = std::ranges::find(order, *shut);
        std::rotate(order.begin(), at, std::next(at));
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

Laid& Layer::mains(const std::shared_ptr<const LayingInputs>& ground, const std::optional<WaterDensities>& swell,
                   const Sizes& sizes, const Order& order) {
    if (kept_) {
        const auto found = std::ranges::find_if(kept_->plants, [&](const Laid& laid) {
            const Builder& b = *laid.builder;
            return laid.wanted == order && b.sizes == sizes && b.ground == *ground && same_vessel(b, swell);
        });
        if (found != kept_->plants.end()) {
            ++kept_->taken;
            kept_->plants.splice(kept_->plants.begin(), kept_->plants, found);
            return kept_->plants.front();
        }
        ++kept_->laid;
    }
    auto laid = lay(ground, swell, sizes, order);
    // what failed is not kept: it may have failed by the water, which is no part of the ground
    if (!kept_ || !laid.builder->ok()) return own_.emplace(std::move(laid));
    kept_->plants.push_front(std::move(laid));
    if (kept_->plants.size() > most_kept) kept_->plants.pop_back();
    return kept_->plants.front();
}

Result<Built> Layer::whole(Laid& mains) {
    if (mains.whole) return *mains.whole;
    Builder b = kept_ ? *mains.builder : std::move(*mains.builder);
    for (const auto stage : {add_vents, add_drains, add_reliefs, add_electrics, add_structure}) {
        stage(b);
        if (!b.ok()) return tl::unexpected(*b.error());
    }
    if (!kept_) return std::move(b.built);
    mains.whole = std::make_shared<const Built>(std::move(b.built));
    return *mains.whole;
}

}  // namespace bw::piping
