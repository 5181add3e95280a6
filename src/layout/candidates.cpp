// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cassert>
#include <cmath>
#include <tuple>

#include "layout/layout.h"
#include "layout/shortfall.h"

namespace bw::layout {
namespace {

using plant::Arrangement;
using survey::ArrangementWish;

constexpr std::size_t most_candidates = 24;

bool wanted(const survey::Survey& survey, Arrangement arrangement) {
    switch (*survey.wishes.arrangement) {
        case ArrangementWish::any: return true;
        case ArrangementWish::wall: return arrangement == Arrangement::wall;
        case ArrangementWish::rack_one_sided: return arrangement == Arrangement::rack_one_sided;
        case ArrangementWish::rack_two_sided: return arrangement == Arrangement::rack_two_sided;
    }
    assert(false && "an arrangement wish without a meaning");
    return true;
}

/// Least floor first, then least wall; places of equal worth by the way to the points of connection.
void rank(std::vector<Found>& found) {
    const auto worth = [](const Found& f) {
        return std::tuple(std::round(f.layout.floor_area * 1e6), std::round(f.layout.floor_length * 1e6),
                          std::round(f.travel * 1e6));
    };
    std::stable_sort(found.begin(), found.end(), [&](const Found& a, const Found& b) { return worth(a) < worth(b); });
}

/// The best of each family keep their places; the least of the largest families go until few enough are left.
std::vector<plant::Layout> named(std::vector<Found> found) {
    struct Member {
        std::size_t at;
        int rank;
    };
    std::vector<Member> members;
    std::map<std::string, int> seen;
    for (std::size_t i = 0; i < found.size(); ++i) members.push_back({i, seen[found[i].family]++});
    while (members.size() > most_candidates) {
        const auto last = std::max_element(members.rbegin(), members.rend(),
                                           [](const Member& a, const Member& b) { return a.rank < b.rank; });
        if (last->rank == 0) break;
        members.erase(std::next(last).base());
    }
    if (members.size() > most_candidates) members.resize(most_candidates);
    std::vector<plant::Layout> out;
    for (const Member& m : members) {
        plant::Layout& layout = found[m.at].layout;
        layout.id = found[m.at].family;
        if (m.rank > 0) layout.id += std::string(".") + static_cast<char>('a' + m.rank);
        out.push_back(std::move(layout));
    }
    return out;
}

void append(std::vector<plant::Shortfall>& to, std::vector<plant::Shortfall> more) {
    to.insert(to.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

plant::Layouts candidates(const survey::Survey& survey, const catalogue::Heater& heater, int count) {
    assert(count > 0);
    Job job = make_job(survey, heater, count);
    if (auto low = ceiling_shortfall(job)) return {{}, {*low}};
    std::vector<Found> found;
    std::vector<plant::Shortfall> shortfalls;
    if (wanted(survey, Arrangement::wall)) {
        found = on_walls(job);
        shortfalls = wall_shortfalls(job, found);
    }
    for (const Arrangement rack : {Arrangement::rack_one_sided, Arrangement::rack_two_sided}) {
        if (!wanted(survey, rack)) continue;
        auto on_rack = on_racks(job, rack);
        if (on_rack.empty()) append(shortfalls, rack_shortfalls(job, rack));
        found.insert(found.end(), std::make_move_iterator(on_rack.begin()), std::make_move_iterator(on_rack.end()));
    }
    rank(found);
    return {named(std::move(found)), std::move(shortfalls)};
}

}  // namespace bw::layout
