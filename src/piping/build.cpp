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

/// Sizes by what is laid, and what they cost.
struct Round {
    Sized sized;
    Economy economy;
};

class Settling {
public:
    Settling(const SizingInputs& brief, std::shared_ptr<const LayingInputs> ground,
             const std::optional<WaterDensities>& swell, Layer& layer)
        : brief_(brief), ground_(std::move(ground)), swell_(swell), layer_(layer), bare_(ground_) {}

    /// Rounds of laying and sizing until both agree.
    Result<Built> settle() {
        auto sized = decide_sizes(brief_, bare_, guess_gas_lengths(bare_));
        if (!sized) return tl::unexpected(sized.error());
        Sizes sizes = sized->sizes;
        for (int round = 1;; ++round) {
            const auto mains = lay(sizes);
            const Builder& b = *mains->builder;
            if (!b.ok()) return tl::unexpected(*b.error());
            order_ = mains->order;
            // later rounds only enlarge: lengths and sizes then settle instead of swinging
            auto now = sized_on(b, round > 1 ? &b.sizes : nullptr);
            if (!now) return tl::unexpected(now.error());
            sizes = now->sized.sizes;
            if (sizes == b.sizes)
                return round == 1 ? complete(*mains, std::move(*now)) : floor_lifted(*mains, std::move(*now));
            if (round == most_rounds)
                return fail("pipe sizes do not settle: each change lengthens the way past the next size",
                            "a size larger by a catalogue with fewer steps, or the connection nearer the banks");
        }
    }

private:
    std::shared_ptr<Laid> lay(const Sizes& sizes) { return layer_.mains(ground_, swell_, sizes, order_); }

    Result<Built> complete(Laid& mains, Round round) {
        return completed(layer_, mains, swell_, std::move(round.sized), std::move(round.economy));
    }

    Result<Round> sized_on(const Builder& b, const Sizes* floor) const {
        const auto measured = measure_gas_lengths(b);
        if (!measured) return tl::unexpected(measured.error());
        auto sized = decide_sizes(brief_, bare_, *measured);
        if (!sized) return tl::unexpected(sized.error());
        auto economy = economize(brief_, b, *sized, floor);
        return Round{std::move(*sized), std::move(economy)};
    }

    /// What settled over a floor, sized once more without one at the lengths laid: the cheaper is built where it passes
    /// once laid, else the economy is not proved.
    Result<Built> floor_lifted(Laid& mains, Round over_floor) {
        if (const auto freely = cheaper_without_floor(*mains.builder, over_floor.economy.cost)) {
            if (auto cheaper = laid_cheaper(*freely, over_floor.economy.cost)) return std::move(*cheaper);
            over_floor.economy.proved = false;
        }
        return complete(mains, std::move(over_floor));
    }

    /// Sizes that cost less than so much at the lengths laid, if there are any.
    std::optional<Sizes> cheaper_without_floor(const Builder& b, double cost) const {
        const auto freely = sized_on(b, nullptr);
        if (!freely || freely->sized.sizes == b.sizes || freely->economy.cost >= cost - worth_laying)
            return std::nullopt;
        return freely->sized.sizes;
    }

    /// The whole plant from these sizes on, enlarged where they do not hold once they are laid, as long as that costs
    /// less than so much; else nothing.
    std::optional<Built> laid_cheaper(Sizes sizes, double cost) {
        for (int round = 1; round <= most_rounds; ++round) {
            const auto mains = lay(sizes);
            const Builder& b = *mains->builder;
            if (!b.ok()) return std::nullopt;
            auto now = sized_on(b, &b.sizes);
            if (!now || now->economy.cost >= cost) return std::nullopt;
            if (now->sized.sizes == b.sizes) {
                if (cheaper_without_floor(b, now->economy.cost)) now->economy.proved = false;
                auto built = complete(*mains, std::move(*now));
                return built && !lacks_something(*built) ? std::optional(std::move(*built)) : std::nullopt;
            }
            sizes = now->sized.sizes;
        }
        return std::nullopt;
    }

    /// A thing that smaller pipe left no straight leg for, say.
    static bool lacks_something(const Built& built) {
        return std::ranges::find(built.findings, reason::Status::fail, &reason::Check::status) != built.findings.end();
    }

    static constexpr double worth_laying = 0.5;  ///< USD

    const SizingInputs& brief_;
    std::shared_ptr<const LayingInputs> ground_;
    const std::optional<WaterDensities>& swell_;
    Layer& layer_;
    const Builder bare_;
    Order order_{Service::gas, Service::hot, Service::cold};
};

Result<Built> settled(const SizingInputs& brief, std::shared_ptr<const LayingInputs> ground,
                      const std::optional<WaterDensities>& swell, Layer& layer) {
    return Settling(brief, std::move(ground), swell, layer).settle();
}

/// What found no room.
std::ptrdiff_t failing(const Built& built) {
    return std::ranges::count(built.findings, reason::Status::fail, &reason::Check::status);
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
    const auto laid = [&] { return settled(brief, std::make_shared<const LayingInputs>(*on), swell, layer); };
    auto built = laid();
    if (!built && layer.vents_shut()) {
        // the mains took the vents' way: the other way about
        on->vents_first = true;
        if (auto again = laid()) built = std::move(again);
    }
    if (!built || failing(*built) == 0) return built;
    // overhead and along the walls something finds no room: across the floor, if need be
    on->mains_cross_the_floor = true;
    auto again = laid();
    return again && failing(*again) < failing(*built) ? again : built;
}

}  // namespace bw::piping
