// SPDX-License-Identifier: MIT
#pragma once
// Plants laid, or taken from those that were laid before on ground and in sizes that are alike.

#include <array>
#include <atomic>
#include <list>
#include <mutex>

#include "piping/kit/builder.h"

namespace bw::piping {

/// Of the mains.
using Order = std::array<Service, 3>;

/// Heaters, banks and mains.
struct Laid {
    Order wanted{}, order{};               ///< in which the mains were to go, and in which all found a way
    std::shared_ptr<Builder> builder;      ///< with its ground and sizes; holds the error where they found none
    std::shared_ptr<const Built> whole{};  ///< with all the rest, once that was laid
};

struct PlantCache::Plants {
    std::mutex busy;
    std::list<std::shared_ptr<Laid>> plants;  ///< last used first
    std::atomic<int> laid = 0, taken = 0;
};

/// One build's hold of what was laid before, or of nothing where another build has it.
class Layer {
public:
    explicit Layer(PlantCache* before);

    [[nodiscard]] std::shared_ptr<Laid> mains(const std::shared_ptr<const LayingInputs>& ground,
                                              const std::optional<WaterDensities>& swell, const Sizes& sizes,
                                              const Order& order);
    /// Vents, drains, reliefs, electrics and structure laid to mains, which may be used up by it.
    [[nodiscard]] Result<Built> whole(Laid& mains);
    /// Whether it was the vents that found no way in the last of these.
    [[nodiscard]] bool vents_shut() const { return vents_shut_; }

private:
    bool vents_shut_ = false;
    PlantCache::Plants* kept_ = nullptr;
    std::unique_lock<std::mutex> hold_;
};

}  // namespace bw::piping
