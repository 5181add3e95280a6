// SPDX-License-Identifier: MIT
#include "layout/job.h"

#include <algorithm>

namespace bw::layout {
namespace {

constexpr double worth_a_stop = 0.3;  ///< metres between stops that are worth telling apart

}  // namespace

Job make_job(const survey::Survey& survey, const catalogue::Heater& heater, int count, std::optional<Place> place,
             const catalogue::Catalogue* parts) {
    Job job{
        .survey = survey, .measures = measure(survey, heater, count, parts), .count = count, .place = std::move(place)};
    job.shares = ways_to_share(count, *survey.preferences.most_in_line, *survey.preferences.most_in_assembly);
    const std::vector<Blocker> in_the_way = blockers(survey.room);
    for (int turns = 0; turns < 4; ++turns) job.views[turns] = view(survey.room, in_the_way, turns);
    job.single_vents = vent_room(heater, parts, *survey.preferences.vent_pipe, false).to_ceiling;
    job.panel_has_space = panel_space(survey.room, {}).is_free;
    return job;
}

double stand_off(const survey::Wall& wall) {
    const bool solid = *wall.build == survey::WallBuild::concrete || *wall.build == survey::WallBuild::masonry;
    return *wall.combustible || !solid ? plant::stations::stand_off : 0;
}

Block lowest_block(const Job& job, plant::Arrangement arrangement, int rows, WayRound way_round, double stand_off,
                   const plant::stations::Rack& rack) {
    return make_block(job.measures,
                      {arrangement, job.fewest(), Measures::lowest(), rows, way_round, stand_off, 0, rack});
}

void add_to_views(Job& job, const Placed& placed) {
    for (const Zone& zone : placed.block->zones)
        for (View& v : job.views)
            v.add(box_in_room(placed, zone), solid(zone.use) ? Off::all : Off::body, "the other bank");
}

void remove_from_views(Job& job, const Placed& placed) {
    for (View& v : job.views) v.blockers.resize(v.blockers.size() - placed.block->zones.size());
}

std::vector<double> stops(const Job& job, const View& view, const Block& block, const std::vector<Stretch>& stretches,
                          std::optional<double> wanted) {
    if (wanted) {
        const auto holds = [at = *wanted](const Stretch& s) { return at > s.low - grid / 2 && at < s.high + grid / 2; };
        return std::ranges::any_of(stretches, holds) ? std::vector{*wanted} : std::vector<double>{};
    }
    std::vector<double> out;
    const auto stop = [&out](double at) {
        if (std::none_of(out.begin(), out.end(), [at](double o) { return std::abs(o - at) < worth_a_stop; }))
            out.push_back(at);
    };
    const auto& room = job.room();
    for (const Stretch& s : stretches) {
        const double low = snap_up(s.low), high = snap_down(s.high);
        if (low > high + grid / 2) continue;  // free only between two grid points
        stop(low);
        stop(high);
        const double easy = plant::stations::feed_easy;
        for (const double past : {easy, 2 * easy})
            for (const double at : {low + past, high - past})
                if (at > low && at < high) stop(at);
        for (const survey::Connection* c : {&room.gas, &room.cold, &room.hot, &room.drain, &room.exhaust}) {
            if (shape::length(c->facing) == 0) continue;
            const double abreast = snap_near(view.from_room(c->at).x);
            for (double at : {abreast, abreast - block.length})
                if (at > low && at < high) stop(at);
        }
        stop(snap_near((low + high) / 2));
    }
    return out;
}

shape::Box hull(const View& view) { return shape::bounds(view.plan); }

}  // namespace bw::layout
