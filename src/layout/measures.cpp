// SPDX-License-Identifier: MIT
#include "layout/measures.h"

#include <algorithm>

namespace bw::layout {
namespace {

namespace stations = plant::stations;

/// A common vent takes more height than single ones. Where the survey leaves the choice open and the heater may share a
/// vent, the higher room is kept so that either can be built.
double vent_room(const survey::Survey& survey, const catalogue::Heater& heater) {
    switch (*survey.wishes.vent) {
        case survey::VentWish::single: return stations::vent_room_single;
        case survey::VentWish::common: return stations::vent_room_common;
        case survey::VentWish::any: break;
    }
    return heater.common_vents.empty() ? stations::vent_room_single : stations::vent_room_common;
}

}  // namespace

double Measures::bottom_under(double ceiling) const {
    return snap_down(std::max(stations::least_bottom, std::min(bottom, ceiling - above)));
}

double least_ceiling(const Measures& measures) { return stations::least_bottom + measures.above; }

Measures measure(const survey::Survey& survey, const catalogue::Heater& heater) {
    Measures m;
    m.width = heater.width.value();
    m.pitch = snap_up(heater.width.value() + heater.gap_side.value());
    m.depth = snap_up(heater.depth.value());
    m.front = snap_up(std::max(heater.gap_front.value(), stations::work_depth));
    m.vent_room = vent_room(survey, heater);
    m.above = heater.height.value() + heater.gap_top.value() + m.vent_room;
    m.combustible = heater.combustible.value();
    const auto& walls = survey.room.walls;
    const bool burns = std::any_of(walls.begin(), walls.end(), [](const auto& wall) { return *wall.combustible; });
    const double beside = std::max(heater.gap_side.value(), burns ? m.combustible : 0.0);
    m.end_extra = snap_up(std::max(0.0, beside - plant::cap_end));
    m.behind = snap_up(std::max(stations::rack_behind, burns ? m.combustible - stations::rack_depth_back : 0.0));
    m.hangs_lower = survey.room.slope.has_value();
    m.bottom = heater.hang_height.value();
    m.bottom = m.bottom_under(survey.room.ceiling->value());
    return m;
}

}  // namespace bw::layout
