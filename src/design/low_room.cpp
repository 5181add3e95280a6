// SPDX-License-Identifier: MIT
#include "design/low_room.h"

#include <fmt/format.h>

#include <array>
#include <optional>

#include "design/search.h"
#include "plant/stations.h"

namespace bw::design {
namespace {

using plant::stations::inch;

constexpr std::array ceilings{108 * inch, 102 * inch, 96 * inch, 90 * inch};  ///< tried, until nothing stands

survey::Survey raised(survey::Survey survey, double ceiling) {
    for (auto* hole : {&survey.room.exhaust, &survey.room.intake})
        if (hole->given && hole->facing.z < -0.5) hole->at.z = ceiling;
    survey.room.ceiling.value = ceiling * units::metre;
    return survey;
}

/// Whether a short search finds a plant without a failing check.
bool stands(const Result& none, const catalogue::Catalogue& catalogue, const std::vector<demand::Capacity>& capacities,
            const Effort& effort, double ceiling) {
    Result tried;
    tried.survey = raised(none.survey, ceiling);
    tried.demand = none.demand;
    const Effort brief{
        .candidates = 1, .most_tried = 12, .further = 12, .threads = effort.threads, .go_on = effort.go_on};
    return consider(tried, catalogue, capacities, brief) && tried.chosen && tally(tried.chosen->checks).fail == 0;
}

}  // namespace

std::string low_ceiling(const Result& none, const catalogue::Catalogue& catalogue,
                        const std::vector<demand::Capacity>& capacities, const Effort& effort) {
    const auto& room = none.survey.room;
    const double has = room.ceiling->value();
    if (room.slope || has > ceilings.front() - 12 * inch) return {};
    std::optional<double> least;
    for (const double ceiling : ceilings) {
        if (ceiling < has + inch || !stands(none, catalogue, capacities, effort, ceiling)) break;
        least = ceiling;
    }
    if (!least) return {};
    return fmt::format(
        "The ceiling is too low: under one of {} a plant was tried and stands, under this of {} none does.",
        units::print_feet_inches(*least * units::metre), units::print_feet_inches(*room.ceiling));
}

}  // namespace bw::design
