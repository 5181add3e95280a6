// SPDX-License-Identifier: MIT
#include "design/prove.h"

#include <algorithm>

#include "layout/layout.h"
#include "network/loop_pump.h"
#include "plant/stations.h"
#include "proof/proof.h"

namespace bw::design {

using catalogue::Catalogue;
using survey::Survey;

namespace {

/// The head the loop's pump was found to lack, where a pump of the catalogue gives it. A twentieth more: a larger pump
/// may stand in larger pipe and its neighbours.
std::optional<units::Length> stronger_pump(const Catalogue& catalogue, const demand::Demand& demand,
                                           const std::vector<reason::Check>& checks) {
    const auto duty = std::ranges::find(checks, "water.recirculation-duty", &reason::Check::id);
    if (duty == checks.end() || duty->status != reason::Status::fail || !duty->limit) return std::nullopt;
    const auto head = units::Length::from_value(1.05 * duty->limit->si);
    return network::pump_for(catalogue, demand.recirculation_flow, head) ? std::optional(head) : std::nullopt;
}

/// Builds, solves, proves and prices once, with a pump of at least this head where one is given.
bw::Result<Proved> proved_as_built(const Survey& survey, const Catalogue& catalogue, const demand::Demand& demand,
                                   const demand::Capacity& capacity, const plant::Layout& layout, int threads,
                                   piping::PlantCache* before, units::Length head) {
    const auto* heater = catalogue.heater(capacity.heater);
    auto built = piping::build(survey, catalogue, demand, capacity, layout, before, head);
    if (!built) return tl::unexpected(built.error());
    auto hydraulics = network::solve(built->plant, catalogue, {survey, *heater, demand, capacity}, threads);
    auto checks = proof::prove({survey, catalogue, *heater, demand, capacity, layout, *built, hydraulics}, threads);
    auto estimate = make::estimate(survey, catalogue, built->plant);
    if (!estimate) return tl::unexpected(estimate.error());
    return Proved{layout, capacity, std::move(*built), std::move(hydraulics), std::move(checks), std::move(*estimate)};
}

constexpr double lower_by = 2 * plant::stations::inch;
constexpr int most_lower = 3;                              ///< heights tried under the first
constexpr double most_above = 48 * plant::stations::inch;  ///< of the heaters where vents may want for height

/// The same place with the heaters hung lower; nothing where they hang too high for that to be their want, or as low
/// as they can.
std::optional<plant::Layout> hung_lower(const Survey& survey, const Catalogue& catalogue,
                                        const demand::Capacity& capacity, const plant::Layout& layout) {
    const auto* heater = catalogue.heater(capacity.heater);
    double bottom = 0;
    for (const auto& bank : layout.banks) bottom = std::max(bottom, bank.bottom);
    const double above = survey.room.ceiling->value() - bottom - heater->height.value();
    if (above > most_above) return std::nullopt;
    auto lower = layout::candidates(survey, *heater, capacity.installed, 1, layout.id, &catalogue, bottom - lower_by);
    if (lower.candidates.empty()) return std::nullopt;
    return std::move(lower.candidates.front());
}

}  // namespace

bool vents_want_room(const Proved& proved) {
    return std::ranges::any_of(proved.checks, [](const reason::Check& check) {
        return check.status == reason::Status::fail && check.id.starts_with("vent.fall.");
    });
}

bw::Result<Proved> prove(const Survey& survey, const Catalogue& catalogue, const demand::Demand& demand,
                         const demand::Capacity& capacity, const plant::Layout& layout, Hang hang, int threads,
                         piping::PlantCache* before) {
    const auto at = [&](const plant::Layout& place) {
        auto proved = proved_as_built(survey, catalogue, demand, capacity, place, threads, before, {});
        if (!proved) return proved;
        if (const auto head = stronger_pump(catalogue, demand, proved->checks))
            return proved_as_built(survey, catalogue, demand, capacity, place, threads, before, *head);
        return proved;
    };
    auto proved = at(layout);
    if (!proved || hang == Hang::as_laid_out) return proved;
    auto lower = std::optional(layout);
    for (int tries = 0; tries < most_lower && vents_want_room(*proved); ++tries) {
        lower = hung_lower(survey, catalogue, capacity, *lower);
        if (!lower) break;
        if (auto again = at(*lower); again && better(*again, *proved)) proved = std::move(again);
    }
    return proved;
}

namespace {

/// Pipe and vent of all services, cut.
double run_of(const plant::Plant& plant) {
    double metres = 0;
    for (const auto& piece : plant.pieces)
        if (piece.part == text::Part::pipe || piece.part == text::Part::vent_pipe) metres += piece.cut;
    return metres;
}

}  // namespace

Candidate of(const plant::Layout& layout, const demand::Capacity& capacity) {
    Candidate c;
    c.layout = layout.id;
    c.heater = capacity.heater;
    c.heaters = capacity.installed;
    c.floor_length = layout.floor_length;
    c.floor_area = layout.floor_area;
    return c;
}

Candidate summary(const Proved& proved) {
    Candidate c = of(proved.layout, proved.capacity);
    c.parts_cost = proved.estimate.parts;
    c.total_cost = proved.estimate.total;
    c.run = run_of(proved.built.plant);
    c.tally = tally(proved.checks);
    const auto balance = std::ranges::find(proved.checks, "water.balance", &reason::Check::id);
    if (balance != proved.checks.end() && balance->value) c.shortfall = balance->value->si;
    return c;
}

bool better(const Proved& a, const Proved& b) {
    return std::pair(tally(a.checks).fail, a.estimate.total) < std::pair(tally(b.checks).fail, b.estimate.total);
}

}  // namespace bw::design
