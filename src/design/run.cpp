// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "design/low_room.h"
#include "design/search.h"
#include "piping/main/connections.h"
#include "reason/register/register.h"

namespace bw::design {

namespace {

using catalogue::Catalogue;
using survey::Survey;

/// Why the model whose heaters alone cost least was not taken.
std::string why_not(const Result& result, const std::string& heater) {
    for (const auto& c : result.candidates)  // best first
        if (c.heater == heater && c.refused.empty() && c.tally.fail == 0)
            return fmt::format(" Heaters {} alone cost less, the whole plant of them ${:.0f} more.", heater,
                               c.total_cost - result.chosen->estimate.total);
    return fmt::format(" Heaters {} alone cost less, but no layout of them that was built passes in this room.",
                       heater);
}

std::string feet(double metres) { return units::print_feet_inches(metres * units::metre); }

/// The commonest reason why places found could not be built, and how often it was given.
std::pair<std::string, int> most_often(const std::vector<Candidate>& candidates) {
    std::map<std::string, int> times;
    for (const auto& c : candidates) ++times[c.refused];
    std::pair<std::string, int> best;
    for (const auto& [why, count] : times)
        if (count > best.second) best = {why, count};
    return best;
}

/// The failing check that stands for a room nothing fits in: the shortest way short of fitting is its value.
reason::Check no_fit(const Result& result) {
    auto check = reason::new_check("layout.fit", {{"", "", "", reason::Standing::given}});
    check.status = reason::Status::fail;
    check.sense = reason::Sense::at_least;
    const plant::Shortfall* nearest = nullptr;
    // where places were found, it is not the places that are short
    const bool placed = !result.candidates.empty();
    const auto shortfalls = placed ? piping::unreachable_connections(result.survey) : result.shortfalls;
    for (const auto& s : shortfalls) {
        check.derivation.push_back({s.arrangement + ": " + s.what + " Remedy: " + s.remedy,
                                    "have >= need",
                                    {{"need", "length needed", units::amount(s.need * units::metre)}},
                                    reason::Term{"have", "length there is", units::amount(s.have * units::metre)}});
        if (!nearest || (!placed && s.need - s.have < nearest->need - nearest->have)) nearest = &s;
    }
    if (nearest) {
        if (nearest->need > 0) {
            check.value = units::amount(nearest->have * units::metre);
            check.limit = units::amount(nearest->need * units::metre);
        }
        if (nearest->need > 0) check.margin = (nearest->have - nearest->need) / nearest->need;
        check.says =
            placed ? fmt::format("The heaters find a place, but {}. Remedy: {}.{}", nearest->what, nearest->remedy,
                                 shortfalls.size() > 1 ? " Other connections too: see the working." : "")
            : nearest->need == 0 ? fmt::format("{}. Remedy: {}.", nearest->what, nearest->remedy)
                                 : fmt::format("Nothing fits. Nearest ({}): {}; {} is needed, {} is there. Remedy: {}.",
                                               nearest->arrangement, nearest->what, feet(nearest->need),
                                               feet(nearest->have), nearest->remedy);
    } else {
        const auto often = most_often(result.candidates);
        check.says =
            placed ? fmt::format("A place was found, but no plant could be built there. In {} of {} ways tried: {}",
                                 often.second, result.candidates.size(), often.first)
                   : std::string("No candidate was tried.");
    }
    return check;
}

bw::Result<Result> begin(const Survey& survey, const Catalogue& catalogue) {
    Result result;
    result.survey = survey;
    auto demand = demand::peak_demand(survey);
    if (!demand) return tl::unexpected(demand.error());
    result.demand = std::move(*demand);
    auto capacity = demand::capacity(survey, result.demand, catalogue);
    if (!capacity) return tl::unexpected(capacity.error());
    result.capacity = std::move(*capacity);
    return result;
}

bw::Result<demand::Capacity> capacity_with(const Result& begun, const Catalogue& catalogue, const std::string& heater) {
    if (heater == begun.capacity.heater) return begun.capacity;
    auto capacity = demand::capacity_of(begun.survey, begun.demand, catalogue, *catalogue.heater(heater));
    if (capacity) capacity->options = begun.capacity.options;
    return capacity;
}

/// The chosen plant's capacity and checks become the result's.
void settle(Result& result) {
    result.capacity = result.chosen->capacity;
    result.checks = std::move(result.chosen->checks);
    // with the demand's own, which stand at the head
    result.checks.insert(result.checks.begin(), result.capacity.advice.begin(), result.capacity.advice.end());
    for (auto& c : result.candidates)
        c.chosen = c.refused.empty() && c.layout == result.chosen->layout.id && c.heater == result.capacity.heater;
}

}  // namespace

Tally tally(const std::vector<reason::Check>& checks) {
    Tally t;
    for (const auto& check : checks) switch (check.status) {
            case reason::Status::pass: ++t.pass; break;
            case reason::Status::tight: ++t.tight; break;
            case reason::Status::fail: ++t.fail; break;
            case reason::Status::refer: ++t.refer; break;
        }
    return t;
}

int Result::exit_status() const { return tally(checks).fail == 0 ? 0 : 2; }

bw::Result<Result> run(const Survey& survey, const Catalogue& catalogue, const Effort& effort) {
    auto begun = begin(survey, catalogue);
    if (!begun) return begun;
    Result& result = *begun;
    const auto options = result.capacity.options;
    // Every model is built before one is chosen: cheap heaters may want dear pipe.
    std::vector<demand::Capacity> capacities;
    for (const auto& option : options) {
        if (!option.refused.empty()) continue;
        if (auto of_model = capacity_with(result, catalogue, option.heater)) capacities.push_back(std::move(*of_model));
    }
    if (!consider(result, catalogue, capacities, effort)) return fail("stopped", "");
    mark_undominated(result.candidates);
    std::ranges::stable_sort(result.candidates, {}, [](const Candidate& c) {
        return std::tuple(!c.refused.empty(), c.tally.fail, c.total_cost);
    });
    if (!result.chosen) {
        result.checks = {no_fit(result)};
        if (const auto low = low_ceiling(result, catalogue, capacities, effort); !low.empty())
            result.checks.front().says = low + " " + result.checks.front().says;
        return begun;
    }
    if (result.chosen->capacity.heater != result.capacity.heater)
        result.chosen->capacity.says += why_not(result, result.capacity.heater);
    settle(result);
    return begun;
}

bw::Result<Result> run_layout(const Survey& survey, const Catalogue& catalogue, const std::string& heater,
                              const std::string& layout, int threads, piping::PlantCache* before) {
    if (!catalogue.heater(heater)) return fail("there is no heater " + heater, "one of the catalogue's");
    auto begun = begin(survey, catalogue);
    if (!begun) return begun;
    Result& result = *begun;
    const auto capacity = capacity_with(result, catalogue, heater);
    if (!capacity) return tl::unexpected(capacity.error());
    if (auto done = take_only(result, catalogue, *capacity, layout, threads, before); !done)
        return tl::unexpected(done.error());
    settle(result);
    return begun;
}

}  // namespace bw::design
