// SPDX-License-Identifier: MIT
#include "layout/measures.h"

#include <algorithm>

namespace bw::layout {
namespace {

namespace stations = plant::stations;
using catalogue::Catalogue;
using catalogue::Heater;
using plant::stations::inch;
using stations::Section;
using text::Part;

constexpr double vent_nipple = 4 * inch;  ///< shortest vent pipe between two sockets
constexpr double between_heights = 2 * inch;
constexpr double normal_bottom = 38 * inch;  ///< heaters hang lower only where their vents would else not fit
constexpr int most_single = 4;               ///< heaters past which a common vent is preferred, where listed

/// Whichever part is missing, common practice stands in for all of them.
struct VentParts {
    double collar = 3 * inch, damper = 5 * inch, turn = 2.5 * inch, radius = 1.75 * inch;
};

VentParts parts_of(const Heater& heater, const Catalogue* parts, text::Material material, bool common) {
    const auto* port = heater.port("exhaust");
    VentParts out;
    if (common) out.turn = 4 * inch, out.radius = 3 * inch;
    if (!parts || !port) return out;
    const auto size = common && !heater.common_vents.empty() ? heater.common_vents.front().size : port->size;
    const auto* collar = parts->item(Part::vent_collar, material, port->size);
    const auto* damper = parts->item(Part::vent_damper, material, port->size);
    const auto* turn = common ? parts->item(Part::vent_tee, material, size, port->size)
                              : parts->item(Part::vent_elbow, material, size);
    if (!collar || !turn || (common && !damper)) return out;
    out.collar = 2 * collar->run.value();
    if (damper) out.damper = 2 * damper->run.value();
    out.turn = common ? turn->stem.value() : turn->run.value();
    out.radius = turn->outside.value() / 2;
    return out;
}

/// Whether the vents are likely common ones, by the rule that `piping` chooses by.
bool likely_common(const survey::Survey& survey, const Heater& heater, int count) {
    switch (*survey.preferences.vent) {
        case survey::VentPreference::single: return false;
        case survey::VentPreference::common: return !heater.common_vents.empty() && count > 1;
        case survey::VentPreference::any: break;
    }
    return !heater.common_vents.empty() && count > most_single;
}

/// The ways of venting that may be built here: one of them is enough.
bool may_be_single(const survey::Survey& survey, const Heater& heater, int count) {
    return *survey.preferences.vent != survey::VentPreference::common || heater.common_vents.empty() || count < 2;
}

double longest_side(const survey::Room& room) {
    const auto box = shape::bounds(room.plan);
    return std::max(box.max.x - box.min.x, box.max.y - box.min.y);
}

/// The roomiest section for a height; its condensate low where that still falls to the drain, else high; where none
/// does, high enough for a pump.
const Section* section_at(double bottom, const survey::Room& room) {
    const Section *roomiest = nullptr, *pumped = nullptr;
    const double run = room.drain.given ? longest_side(room) : 0;
    const double needed = room.drain.at.z + stations::drain_end + run * stations::fall;
    for (const Section& section : stations::sections) {
        if (section.least_bottom > bottom + 1e-9) continue;
        if (bottom - section.condensate >= needed) return &section;
        if (!roomiest) roomiest = &section;
        if (!pumped && bottom - section.condensate >= stations::pump_end + run * stations::fall) pumped = &section;
    }
    return pumped ? pumped : roomiest;
}

/// Highest bottom from which level vents still rise to their holes in a wall.
double under_holes(const survey::Room& room, const Heater& heater, const VentRoom& vents) {
    double highest = 1e9;
    for (const auto* hole : {&room.exhaust, &room.intake})
        if (hole->given && std::abs(hole->facing.z) < 0.5)
            highest = std::min(highest, hole->at.z - vents.to_centre - longest_side(room) * stations::fall);
    return highest - heater.height.value();
}

/// Heights from the manufacturer's own down to the lowest, a few inches apart, that the ceiling allows. Best first: as
/// high as leaves the vents easy room; then, of the rest, with as much room for the vents as may be; the lowest last.
std::vector<Hang> hangs_under(const survey::Survey& survey, const Heater& heater, const Measures& m,
                              const VentRoom& wanted) {
    const auto& room = survey.room;
    std::vector<double> bottoms;
    for (double at = heater.hang_height.value(); at > stations::least_bottom; at -= between_heights)
        bottoms.push_back(at);
    for (const Section& section : stations::sections)
        if (section.least_bottom < heater.hang_height.value()) bottoms.push_back(section.least_bottom);
    if (bottoms.empty()) bottoms.push_back(stations::least_bottom);
    const double highest = room.ceiling->value() - m.above() + 1e-9;
    std::erase_if(bottoms, [&](double at) { return at > highest || at < heater.gap_bottom.value() - 1e-9; });
    for (double& at : bottoms) at = snap_down(at);
    const double easy =
        std::min(room.ceiling->value() - heater.height.value() - wanted.easy, under_holes(room, heater, wanted));
    const auto rank = [&](double at) {
        const int tier = at > easy + 1e-9 ? 1 : 0;
        if (at < normal_bottom - 1e-9) return std::pair(2, -at);
        return std::pair(tier, tier == 0 ? -at : at);
    };
    std::ranges::sort(bottoms, {}, rank);
    bottoms.erase(std::unique(bottoms.begin(), bottoms.end()), bottoms.end());
    std::vector<Hang> out;
    for (const double at : bottoms)
        if (const Section* section = section_at(at, room)) out.push_back({section, at});
    return out;
}

}  // namespace

VentRoom vent_room(const Heater& heater, const Catalogue* parts, text::Material material, bool common) {
    const VentParts p = parts_of(heater, parts, material, common);
    VentRoom out;
    const double nipples = (common ? 2 : 1) * vent_nipple;
    out.to_centre = p.collar + (common ? p.damper : 0) + nipples + p.turn;
    const double least = p.collar + (common ? p.damper : 0) + p.turn + p.radius;
    out.to_ceiling = std::max(heater.gap_top.value(), least);
    out.easy = common ? stations::vent_easy_common : stations::vent_easy_single;
    return out;
}

Hang Measures::lowest() {
    const Section* lowest = &stations::sections.front();
    for (const Section& section : stations::sections)
        if (section.least_bottom < lowest->least_bottom) lowest = &section;
    return {lowest, lowest->least_bottom};
}

double least_ceiling(const Measures& measures) { return Measures::lowest().bottom + measures.above(); }

Measures measure(const survey::Survey& survey, const Heater& heater, int count, const Catalogue* parts) {
    Measures m;
    m.width = heater.width.value();
    m.height = heater.height.value();
    m.side = heater.gap_side.value();
    m.pitch = snap_up(m.width + m.side);
    m.depth = snap_up(heater.depth.value());
    m.front = snap_up(std::max(heater.gap_front.value(), stations::work_depth));
    const text::Material material = *survey.preferences.vent_pipe;
    const bool common = !may_be_single(survey, heater, count);
    m.vents = vent_room(heater, parts, material, common).to_ceiling;
    const auto& walls = survey.room.walls;
    const bool burns = std::any_of(walls.begin(), walls.end(), [](const auto& wall) { return *wall.combustible; });
    const double beside = std::max(m.side, burns ? heater.combustible.value() : 0.0);
    const Section& ends = stations::sections.front();
    m.feed_end = ends.feed_end;
    m.cap_end = snap_up(std::max(m.side, ends.cap_end));
    m.end_extra = snap_up(std::max(0.0, beside - m.cap_end));
    m.in_line_gap = snap_up(m.side + stations::in_line_union);
    m.behind_burns = burns ? heater.combustible.value() : 0;
    m.hangs = hangs_under(survey, heater, m, vent_room(heater, parts, material, likely_common(survey, heater, count)));
    return m;
}

}  // namespace bw::layout
