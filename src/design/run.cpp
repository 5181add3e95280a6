// SPDX-License-Identifier: MIT
#include <fmt/format.h>
#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "design/design.h"
#include "layout/layout.h"
#include "proof/proof.h"

namespace bw::design {

namespace {

using catalogue::Catalogue;
using survey::Survey;

/// Builds, proves and prices one layout; the error says why it could not be built.
bw::Result<Proved> prove(const Survey& survey, const Catalogue& catalogue, const demand::Demand& demand,
                         const demand::Capacity& capacity, const plant::Layout& layout) {
    auto built = piping::build(survey, catalogue, demand, capacity, layout);
    if (!built) return tl::unexpected(built.error());
    auto estimate = make::estimate(survey, catalogue, built->plant);
    if (!estimate) return tl::unexpected(estimate.error());
    const auto* heater = catalogue.heater(capacity.heater);
    auto checks = proof::prove({survey, catalogue, *heater, demand, capacity, layout, *built});
    return Proved{layout, capacity, std::move(*built), std::move(checks), std::move(*estimate)};
}

Candidate summary(const Proved& proved) {
    Candidate c;
    c.layout = proved.layout.id;
    c.heater = proved.capacity.heater;
    c.heaters = proved.capacity.installed;
    c.floor_length = proved.layout.floor_length;
    c.parts_cost = proved.estimate.parts;
    c.total_cost = proved.estimate.total;
    c.tally = tally(proved.checks);
    return c;
}

/// Fewest failures first, then least cost.
bool better(const Proved& a, const Proved& b) {
    return std::pair(tally(a.checks).fail, a.estimate.total) < std::pair(tally(b.checks).fail, b.estimate.total);
}

/// Why the model whose heaters alone cost least was not taken.
std::string why_not(const Result& result, const std::string& heater) {
    for (const auto& c : result.candidates)  // best first
        if (c.heater == heater && c.refused.empty() && c.tally.fail == 0)
            return fmt::format(" Heaters {} alone cost less, the whole plant of them ${:.0f} more.", heater,
                               c.total_cost - result.chosen->estimate.total);
    return fmt::format(" Heaters {} alone cost less, but no layout of them that was built passes in this room.",
                       heater);
}

/// The best of each arrangement first, then the second best of each: a room bad for one way is soon tried the other.
std::vector<const plant::Layout*> by_turns(const std::vector<plant::Layout>& layouts) {
    std::map<plant::Arrangement, int> seen;
    std::vector<std::pair<int, const plant::Layout*>> order;
    for (const auto& layout : layouts) order.emplace_back(seen[layout.arrangement]++, &layout);
    std::ranges::stable_sort(order, {}, &std::pair<int, const plant::Layout*>::first);
    std::vector<const plant::Layout*> out;
    for (const auto& [rank, layout] : order) out.push_back(layout);
    return out;
}

/// False when it was told to stop.
bool consider(Result& result, const Catalogue& catalogue, const demand::Capacity& capacity,
              const Effort& effort) {
    const auto* heater = catalogue.heater(capacity.heater);
    auto layouts = layout::candidates(result.survey, *heater, capacity.installed);
    std::move(layouts.shortfalls.begin(), layouts.shortfalls.end(), std::back_inserter(result.shortfalls));
    int built = 0, tried = 0;
    for (const auto* each : by_turns(layouts.candidates)) {
        const auto& layout = *each;
        const auto refuse = [&](const Error& why) {
            Candidate& c = result.candidates.emplace_back();
            c.layout = layout.id;
            c.heater = capacity.heater;
            c.heaters = capacity.installed;
            c.floor_length = layout.floor_length;
            c.refused = units::describe(why);
        };
        if (tried == effort.most_tried) break;
        // enough to choose among, unless none of them passes yet
        if (built >= effort.candidates && result.chosen && tally(result.chosen->checks).fail == 0) break;
        if (const auto shut = piping::shut_connection(result.survey, layout)) {
            refuse(*shut);
            continue;
        }
        if (effort.go_on && !effort.go_on(static_cast<int>(result.candidates.size()))) return false;
        ++tried;
        auto proved = prove(result.survey, catalogue, result.demand, capacity, layout);
        if (!proved) {
            refuse(proved.error());
            continue;
        }
        ++built;
        result.candidates.push_back(summary(*proved));
        if (!result.chosen || better(*proved, *result.chosen)) result.chosen = std::move(*proved);
    }
    return true;
}

std::string feet(double metres) { return units::print_feet_inches(metres * units::metre); }

/// The failing check that stands for a room nothing fits in: the shortest way short of fitting is its value.
reason::Check no_fit(const Result& result) {
    reason::Check check;
    check.id = "layout.fit";
    check.title = "A place in the room for the heaters";
    check.service = "room";
    check.status = reason::Status::fail;
    check.sense = reason::Sense::at_least;
    const plant::Shortfall* nearest = nullptr;
    for (const auto& s : result.shortfalls) {
        check.derivation.push_back({s.arrangement + ": " + s.what + " Remedy: " + s.remedy,
                                    "have >= need",
                                    {{"need", "length needed", units::amount(s.need * units::metre)}},
                                    reason::Term{"have", "length there is", units::amount(s.have * units::metre)}});
        if (!nearest || s.need - s.have < nearest->need - nearest->have) nearest = &s;
    }
    if (nearest) {
        check.value = units::amount(nearest->have * units::metre);
        check.limit = units::amount(nearest->need * units::metre);
        if (nearest->need > 0) check.margin = (nearest->have - nearest->need) / nearest->need;
        check.says = fmt::format("Nothing fits. Nearest ({}): {} {} is needed, {} is there. {}", nearest->arrangement,
                                 nearest->what, feet(nearest->need), feet(nearest->have), nearest->remedy);
    } else {
        check.says =
            "A place was found, but no plant could be built there: " +
            (result.candidates.empty() ? std::string("no candidate was tried.") : result.candidates.front().refused);
    }
    check.sources = {{"", "", "", reason::Standing::given}};
    return check;
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

bw::Result<Result> run(const Survey& survey, const Catalogue& catalogue, Effort effort) {
    Result result;
    result.survey = survey;
    auto demand = demand::peak_demand(survey);
    if (!demand) return tl::unexpected(demand.error());
    result.demand = std::move(*demand);
    auto capacity = demand::capacity(survey, result.demand, catalogue);
    if (!capacity) return tl::unexpected(capacity.error());
    result.capacity = *capacity;

    // Every model is built before one is chosen: cheap heaters may want dear pipe.
    for (const auto& option : capacity->options) {
        if (!option.refused.empty()) continue;
        auto of_model = option.heater == capacity->heater
                            ? capacity
                            : demand::capacity_of(survey, result.demand, catalogue, *catalogue.heater(option.heater));
        if (!of_model) continue;
        of_model->options = capacity->options;
        if (!consider(result, catalogue, *of_model, effort)) return fail("stopped");
    }

    std::stable_sort(result.candidates.begin(), result.candidates.end(), [](const Candidate& a, const Candidate& b) {
        return std::tuple(!a.refused.empty(), a.tally.fail, a.total_cost) <
               std::tuple(!b.refused.empty(), b.tally.fail, b.total_cost);
    });
    if (!result.chosen) {
        result.checks = {no_fit(result)};
        return result;
    }
    if (result.chosen->capacity.heater != result.capacity.heater)
        result.chosen->capacity.says += why_not(result, result.capacity.heater);
    settle(result);
    return result;
}

bw::Result<Result> run_layout(const Survey& survey, const Catalogue& catalogue, const std::string& heater,
                              const std::string& layout) {
    const auto* model = catalogue.heater(heater);
    if (!model) return fail("there is no heater " + heater, "one of the catalogue");
    Result result;
    result.survey = survey;
    auto demand = demand::peak_demand(survey);
    if (!demand) return tl::unexpected(demand.error());
    result.demand = std::move(*demand);
    auto options = demand::capacity(survey, result.demand, catalogue);
    if (!options) return tl::unexpected(options.error());
    auto capacity = options->heater == heater ? options
                                              : demand::capacity_of(survey, result.demand, catalogue, *model);
    if (!capacity) return tl::unexpected(capacity.error());
    capacity->options = options->options;
    auto layouts = layout::candidates(survey, *model, capacity->installed);
    result.shortfalls = std::move(layouts.shortfalls);
    const auto found = std::ranges::find(layouts.candidates, layout, &plant::Layout::id);
    if (found == layouts.candidates.end())
        return fail("the layout " + layout + " does not fit as the survey now stands", "one of those that fit");
    auto proved = prove(survey, catalogue, result.demand, *capacity, *found);
    if (!proved) return tl::unexpected(proved.error());
    result.candidates.push_back(summary(*proved));
    result.chosen = std::move(*proved);
    settle(result);
    return result;
}

}  // namespace bw::design
