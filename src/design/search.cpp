// SPDX-License-Identifier: MIT
#include "design/search.h"

#include <algorithm>
#include <list>
#include <thread>

#include "design/trial.h"
#include "layout/layout.h"

namespace bw::design {

using catalogue::Catalogue;

Effort wide() {
    const int cores = static_cast<int>(std::thread::hardware_concurrency());
    return {.candidates = 24, .most_tried = 24, .further = 48, .threads = std::clamp(cores, 1, most_at_once)};
}

bool consider(Result& result, const Catalogue& catalogue, const std::vector<demand::Capacity>& capacities,
              const Effort& effort) {
    const auto groups = [&](const demand::Capacity& capacity) {
        return catalogue::linked_groups(*catalogue.heater(capacity.heater), capacity.installed).size();
    };
    std::list<Trial> trials;
    std::size_t fewest = 0;
    for (const auto& capacity : capacities) fewest = std::max(fewest, groups(capacity));
    for (const auto& capacity : capacities) fewest = std::min(fewest, groups(capacity));
    // models that would stand in more groups than others need have their turn where none of those passes
    for (const bool in_more : {false, true})
        for (const auto& capacity : capacities) {
            if ((groups(capacity) > fewest) != in_more) continue;
            if (in_more && passes(result)) continue;
            if (!trials.emplace_back(result, catalogue, capacity, effort).run()) return false;
        }
    for (Trial& trial : trials)
        if (!trial.go_on()) return false;
    return true;
}

bw::Result<void> take_only(Result& result, const Catalogue& catalogue, const demand::Capacity& capacity,
                           const std::string& layout, int threads, piping::PlantCache* before) {
    auto layouts = layout::candidates(result.survey, *catalogue.heater(capacity.heater), capacity.installed, 1, layout,
                                      &catalogue);
    result.shortfalls = std::move(layouts.shortfalls);
    if (layouts.candidates.empty())
        return fail(
            result.shortfalls.empty() ? "the layout " + layout + " does not fit" : result.shortfalls.front().what,
            result.shortfalls.empty() ? "one of those that fit" : result.shortfalls.front().remedy);
    auto proved = prove(result.survey, catalogue, result.demand, capacity, layouts.candidates.front(), Hang::lower,
                        threads, before);
    if (!proved) return tl::unexpected(proved.error());
    result.weighed = layouts.weighed;
    result.candidates.push_back(summary(*proved));
    result.chosen = std::move(*proved);
    return {};
}

}  // namespace bw::design
