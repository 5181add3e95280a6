// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include "layout/layout.h"
#include "layout/shortfall.h"
#include "layout/sketch.h"

namespace bw::layout {
namespace {

using plant::Arrangement;
using survey::ArrangementPreference;

bool wanted(const survey::Survey& survey, Arrangement arrangement) {
    switch (*survey.preferences.arrangement) {
        case ArrangementPreference::any: return true;
        case ArrangementPreference::wall: return arrangement == Arrangement::wall;
        case ArrangementPreference::rack_one_sided: return arrangement == Arrangement::rack_one_sided;
        case ArrangementPreference::rack_two_sided: return arrangement == Arrangement::rack_two_sided;
    }
    assert(false && "an arrangement without a meaning");
    return true;
}

/// Walls ask for no frame: two of them are worth trying before a rack of each kind.
int turn(Arrangement arrangement, int rank) { return arrangement == Arrangement::wall ? rank / 2 : rank; }

/// Families by floor taken, then by the mains' way.
std::vector<const std::vector<Sketch>*> families_in_order(const Sketches& found) {
    std::vector<std::tuple<double, double, const std::vector<Sketch>*>> families;
    for (const auto& [name, sketches] : found.families())
        families.emplace_back(std::round(floor_area(sketches.front()) * 1e6), sketches.front().travel, &sketches);
    std::ranges::stable_sort(families, {}, [](const auto& f) { return std::pair(std::get<0>(f), std::get<1>(f)); });
    std::vector<const std::vector<Sketch>*> out;
    for (const auto& f : families) out.push_back(std::get<2>(f));
    return out;
}

/// The shortest run of each family first, then the second of each; arrangements by turns: a room bad for one way is
/// soon tried another.
std::vector<const Sketch*> in_order(const Sketches& found) {
    const auto families = families_in_order(found);
    std::map<Arrangement, int> seen;
    std::vector<std::tuple<int, Arrangement, const Sketch*>> turns;
    for (std::size_t rank = 0; rank < most_of_a_family; ++rank)
        for (const auto* family : families) {
            if (rank >= family->size()) continue;
            const Sketch& sketch = (*family)[rank];
            const Arrangement arrangement = sketch.placed.front().block->arrangement;
            turns.emplace_back(turn(arrangement, seen[arrangement]++), arrangement, &sketch);
        }
    std::ranges::stable_sort(turns, {}, [](const auto& t) { return std::pair(std::get<0>(t), std::get<1>(t)); });
    std::vector<const Sketch*> out;
    for (const auto& t : turns) out.push_back(std::get<2>(t));
    return out;
}

void append(std::vector<plant::Shortfall>& to, std::vector<plant::Shortfall> more) {
    to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

constexpr std::array racks{Arrangement::rack_one_sided, Arrangement::rack_two_sided};

Sketches search(Job& job) {
    Sketches found;
    for (const auto& shares : job.shares) {
        // a lone bank in halves too; still more banks only where fewer find no place
        const bool more = shares.size() > std::max<std::size_t>(2, job.fewest().size());
        if (more && found.weighed() > 0) break;
        if (wanted(job.survey, Arrangement::wall)) on_walls(job, shares, found);
        for (const Arrangement rack : racks)
            if (wanted(job.survey, rack)) on_racks(job, rack, shares, found);
    }
    if (wanted(job.survey, Arrangement::wall)) on_walls_unevenly(job, found);
    return found;
}

std::vector<plant::Shortfall> shortfalls(const Job& job, const Sketches& found) {
    std::vector<plant::Shortfall> out;
    if (wanted(job.survey, Arrangement::wall)) out = wall_shortfalls(job, found);
    for (const Arrangement rack : racks) {
        const auto of_it = [rack](const auto& f) { return f.second.front().placed.front().block->arrangement == rack; };
        if (wanted(job.survey, rack) && std::ranges::none_of(found.families(), of_it))
            append(out, rack_shortfalls(job, rack));
    }
    return out;
}

/// Names of all families that fit.
std::string families(const survey::Survey& survey, const catalogue::Heater& heater, int count,
                     const catalogue::Catalogue* parts) {
    Job job = make_job(survey, heater, count, std::nullopt, parts);
    std::string names;
    const Sketches found = search(job);
    for (const auto& [family, sketches] : found.families()) names += (names.empty() ? "" : ", ") + family;
    return names;
}

}  // namespace

plant::Layouts candidates(const survey::Survey& survey, const catalogue::Heater& heater, int count, std::size_t most,
                          const std::string& place, const catalogue::Catalogue* parts, std::optional<double> under) {
    assert(count > 0);
    const std::string& asked = place.empty() ? survey.preferences.place.value_or("") : place;
    std::optional<Place> only;
    if (!asked.empty()) only = parse_place(asked).value_or(Place{asked, {}, 0});
    Job job = make_job(survey, heater, count, std::move(only), parts);
    if (auto low = ceiling_shortfall(job)) return {{}, 0, {*low}};
    if (under) std::erase_if(job.measures.hangs, [&](const Hang& hang) { return hang.bottom > *under + grid / 2; });
    const Sketches found = search(job);
    plant::Layouts out{{}, found.weighed(), {}};
    if (asked.empty())
        out.shortfalls = shortfalls(job, found);
    else if (found.weighed() == 0)
        out.shortfalls = {place_shortfall(job, asked, families(survey, heater, count, parts))};
    for (const Sketch* s : in_order(found)) {
        if (out.candidates.size() == most) break;
        out.candidates.push_back(written_out(job, *s));
    }
    return out;
}

}  // namespace bw::layout
