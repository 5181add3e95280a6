// SPDX-License-Identifier: MIT
// Single or common, room air or outdoor air, and where the holes in the wall stand.

#include <fmt/format.h>

#include <cmath>

#include "piping/vent/vent.h"
#include "reason/register/register.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

/// Past this many heaters the holes in the wall cost more than a common pipe with its dampers (common practice, no
/// source).
constexpr int most_single = 4;
using units::tolerance;

reason::Check unmet(std::string_view row, reason::Status status, std::string says, std::string field) {
    auto check = reason::new_check(row, {reason::Source{"", "", "the heater's listing", reason::Standing::maker}});
    check.status = status;
    check.says = std::move(says);
    check.assumptions = {std::move(field)};
    return check;
}

/// Largest number on one common pipe among the sizes that can be bought.
int most_on_common(const Builder& b, Material material) {
    int most = 0;
    for (const auto& limit : b.heater.common_vents)
        if (b.catalogue.pipe(material, limit.size)) most = std::max(most, limit.most);
    return most;
}

bool prefers_room_air(Builder& b) {
    if (!b.ground.room_air) return false;
    if (b.ground.chemistry_in_air) {
        b.finding(
            unmet("air.room-air", reason::Status::refer,
                  "The survey wishes room air, but laundry, pool or salon chemistry is in it: outdoor air is piped "
                  "instead; the owner confirms.",
                  "preferences.room-air"));
        return false;
    }
    if (!b.heater.room_air_allowed) {
        b.finding(
            unmet("air.room-air", reason::Status::refer,
                  fmt::format("The survey wishes room air, which {} is not listed for: outdoor air is piped instead; "
                              "the owner confirms.",
                              b.heater.key),
                  "preferences.room-air"));
        return false;
    }
    return true;
}

}  // namespace

VentChoice choose_vents(Builder& b) {
    const int count = b.ground.heaters;
    const bool listed = most_on_common(b, b.ground.vent_pipe) >= 2;
    VentChoice choice{.style = VentStyle::single, .room_air = prefers_room_air(b)};
    switch (b.ground.vent) {
        case survey::VentPreference::single: choice.says = "single vents, as the survey wishes"; break;
        case survey::VentPreference::common:
            if (listed && count >= 2) {
                choice.style = VentStyle::common;
                choice.says = "common vent, as the survey wishes and the heater's listing allows";
            } else if (count < 2) {
                choice.says = "one heater alone has a single vent";
            } else {
                choice.says = "single vents: the heater is not listed for common venting";
                b.finding(unmet("vent.common.listing", reason::Status::fail,
                                fmt::format("{} has no listing for a common vent of {}; single vents are drawn.",
                                            b.heater.key, text::name(b.ground.vent_pipe)),
                                "preferences.vent"));
            }
            break;
        case survey::VentPreference::any:
            choice.style = listed && count > most_single ? VentStyle::common : VentStyle::single;
            choice.says = choice.style == VentStyle::common
                              ? fmt::format("common vent: more than {} heaters, and the listing allows it", most_single)
                          : listed ? fmt::format("single vents: no more than {} heaters", most_single)
                                   : "single vents: the heater is not listed for common venting";
            break;
    }
    return choice;
}

std::vector<int> parted(int total, int count) {
    std::vector<int> parts;
    for (int i = 0; i < count; ++i) parts.push_back(total / count + (i < total % count ? 1 : 0));
    return parts;
}

std::vector<Flue> flues(const Builder& b, Service service, VentStyle style, Material material) {
    const char* word = service == Service::exhaust ? "vent" : "intake";
    const int most = style == VentStyle::common ? most_on_common(b, material) : 1;
    std::vector<Flue> all;
    for (const auto& bank : b.layout.banks) {
        for (int side = 0; side < 2; ++side) {
            std::vector<int> row;
            for (const auto& stand : bank.stands)
                if (stand.side == side) row.push_back(stand.number);
            const int heaters = static_cast<int>(row.size());
            if (heaters == 0 || most == 0) continue;
            auto next = row.begin();
            for (const int size : parted(heaters, (heaters + most - 1) / most)) {
                Flue flue{.service = service, .bank = &bank, .heaters = {next, next + size}};
                next += size;
                flue.shared = style == VentStyle::common;
                flue.name =
                    fmt::format("{}-{}", word, flue.shared ? static_cast<int>(all.size()) + 1 : flue.heaters[0]);
                all.push_back(std::move(flue));
            }
        }
    }
    return all;
}

std::optional<std::size_t> wall_of(const survey::Room& room, const survey::Connection& outlet) {
    if (std::abs(outlet.facing.z) > 0.5) return std::nullopt;
    for (std::size_t i = 0; i < room.plan.size(); ++i) {
        const auto &a = room.plan[i], &c = room.plan[(i + 1) % room.plan.size()];
        const Vec along{c.x - a.x, c.y - a.y, 0};
        const double length = shape::length(along);
        if (length < tolerance) continue;
        const Vec way = (1 / length) * along, inward = shape::cross(shape::up, way);
        const Vec from_corner{outlet.at.x - a.x, outlet.at.y - a.y, 0};
        const double s = shape::dot(from_corner, way);
        if (std::abs(shape::dot(from_corner, inward)) < 1e-3 && s > -tolerance && s < length + tolerance &&
            shape::dot(inward, outlet.facing) > 0.99)
            return i;
    }
    return std::nullopt;
}

namespace {

/// A hole in a sloping ceiling stands at the ceiling's own height; one in a wall stays so far under it.
Vec under(const survey::Room& room, Vec hole, double margin) {
    if (!room.slope) return hole;
    const double over = room.overhead().at(hole) - margin;
    hole.z = snap_down(margin > 0 ? std::min(hole.z, over) : over);
    return hole;
}

}  // namespace

Result<std::vector<Vec>> terminal_row(const survey::Room& room, const survey::Connection& outlet, int count,
                                      double spacing, double margin) {
    Vec way{1, 0, 0}, start = outlet.at;
    const double row = (count - 1) * spacing;
    const auto wall = wall_of(room, outlet);
    if (wall) {
        const auto &a = room.plan[*wall], &c = room.plan[(*wall + 1) % room.plan.size()];
        const Vec along{c.x - a.x, c.y - a.y, 0};
        const double length = shape::length(along);
        if (row + 2 * margin > length + tolerance) {
            return fail(fmt::format("{} terminals side by side take {:.0f} in and wall {} is {:.0f} in long", count,
                                    (row + 2 * margin) / inch_m, room.walls[*wall].number, length / inch_m),
                        "fewer terminals by a common vent, or an outlet in a longer wall");
        }
        way = (1 / length) * along;
        const double middle = shape::dot(Vec{outlet.at.x - a.x, outlet.at.y - a.y, 0}, way);
        const double first = std::clamp(middle - row / 2, margin, length - margin - row);
        start = outlet.at + snap(first - middle) * way;
    } else {
        start = outlet.at - snap(row / 2) * way;
    }
    std::vector<Vec> places;
    for (int i = 0; i < count; ++i) places.push_back(under(room, start + (i * spacing) * way, wall ? margin : 0));
    if (!wall)
        for (const Vec& place : places)
            if (!shape::inside(room.plan, {place.x - margin, place.y}) ||
                !shape::inside(room.plan, {place.x + margin, place.y}))
                return fail(fmt::format("{} terminals {:.0f} in apart do not fit in a row through the ceiling", count,
                                        spacing / inch_m),
                            "an outlet farther from the walls, or a common vent");
    return places;
}

Result<std::vector<Vec>> terminal_rows(const survey::Room& room, const survey::Connection& outlet, int count,
                                       double spacing, double margin, int rows) {
    const auto columns = terminal_row(room, outlet, (count + rows - 1) / rows, spacing, margin);
    if (!columns) return columns;
    std::vector<Vec> places;
    for (const Vec& top : *columns)
        for (int row = 0; row < rows && static_cast<int>(places.size()) < count; ++row)
            places.push_back(top - Vec{0, 0, row * spacing});
    return places;
}

namespace {

/// Whether no obstacle stands right under a hole in the ceiling.
bool is_free_below(const survey::Room& room, const survey::Connection& hole) {
    constexpr double half = 4 * inch_m, deep = 12 * inch_m;
    const Vec across{half, half, 0};
    const auto box = shape::box_of(hole.at - across, hole.at + across + deep * hole.facing);
    return std::ranges::none_of(room.obstacles, [&](const auto& o) { return shape::overlap(o.box, box); });
}

}  // namespace

std::vector<survey::Connection> places_along(const survey::Room& room, const survey::Connection& outlet) {
    std::vector<survey::Connection> places{outlet};
    const auto wall = wall_of(room, outlet);
    if (!wall) {
        if (is_free_below(room, outlet)) return places;
        for (const double by : {1.0, -1.0, 2.0, -2.0})
            for (const Vec& way : {Vec{1, 0, 0}, Vec{0, 1, 0}}) {
                auto place = outlet;
                place.at = under(room, outlet.at + by * 12 * inch_m * way, 0);
                if (is_free_below(room, place)) places.push_back(place);
            }
        return places;
    }
    const auto &a = room.plan[*wall], &c = room.plan[(*wall + 1) % room.plan.size()];
    const double length = std::hypot(c.x - a.x, c.y - a.y);
    const Vec way{(c.x - a.x) / length, (c.y - a.y) / length, 0};
    const double at = shape::dot(Vec{outlet.at.x - a.x, outlet.at.y - a.y, 0}, way);
    for (const double by : {1.0, -1.0, 2.0, -2.0, 3.0, -3.0, 4.0, -4.0}) {
        const double shift = by * 12 * inch_m;
        if (at + shift < 4 * inch_m || at + shift > length - 4 * inch_m) continue;
        places.push_back(outlet);
        places.back().at = outlet.at + shift * way;
    }
    return places;
}

}  // namespace bw::piping
