// SPDX-License-Identifier: MIT
// The far end of the condensate: rows joined, neutraliser, drop, air gap over the building's drain.

#include <fmt/format.h>

#include <cmath>

#include "piping/drain/drain.h"
#include "piping/kit/rack_room.h"
#include "plant/words.h"

namespace bw::piping {
namespace {

Line line_of(Nominal size) {
    return {.service = Service::condensate, .material = Material::pvc_drain, .size = size, .name = "main.condensate"};
}

struct Parts {
    const Item *elbow, *gap, *tee, *reducer;
    double least;         ///< of the neutraliser's size
    double header_least;  ///< of the headers' size
};

Parts parts_of(const Builder& b, const DrainSizes& sizes) {
    const Nominal size = *sizes.neutraliser->size;
    Line large = line_of(std::max(size, sizes.header));
    return {b.seek(Part::elbow, line_of(size)),
            b.seek(Part::air_gap, line_of(size)),
            b.seek(Part::tee, line_of(sizes.header), sizes.header),
            size == sizes.header ? nullptr : b.seek(Part::reducer, large, std::min(size, sizes.header)),
            shortest(Material::pvc_drain, size),
            shortest(Material::pvc_drain, sizes.header)};
}

/// Where the neutraliser stands: flow goes along `way`; `outlet` is its outlet port's place, from which the drain goes
/// on by `corners` to the air gap.
struct Stand {
    Vec way, outlet;
    std::vector<Vec> corners = {};
};

double upstream(const Parts& parts, const DrainSizes& sizes, int rows) {
    return 2 * sizes.neutraliser->run.value() + parts.least + (parts.reducer ? 2 * parts.reducer->run.value() : 0) +
           (rows - 1) * (2 * parts.tee->run.value() + parts.header_least) + 2 * parts.header_least;
}

struct Setting {
    const ClearanceMap& space;
    const Parts& parts;
    const DrainSizes& sizes;
    int rows;
    Vec top;   ///< of the drop, at the headers' height
    Vec foot;  ///< of the drop, where the air gap begins
    const std::vector<KeepOff>& racks;
    double bottom;  ///< of the drop's room
    bool lowest;    ///< as low as it may stand

    [[nodiscard]] bool is_free(const shape::Box& box) const {
        const auto meets = [&](const KeepOff& rack) { return shape::overlap(rack.box, box); };
        return space.in_room(box) && !space.taken(box) && std::ranges::none_of(racks, meets);
    }
    /// Room for the drop and the air gap.
    [[nodiscard]] shape::Box drop() const {
        const double thick = std::max(parts.elbow->outside.value() / 2, parts.gap->outside.value() / 2);
        return shape::bounds(shape::Cylinder{{top.x, top.y, bottom}, top, thick});
    }
    [[nodiscard]] bool drop_free() const { return is_free(drop()); }
    /// Room for the neutraliser, what comes before it, and the pipe on to `end`.
    [[nodiscard]] bool body_free(const Stand& stand, Vec end) const {
        const Vec inlet = stand.outlet - 2 * sizes.neutraliser->run.value() * stand.way;
        const Vec start = stand.outlet - upstream(parts, sizes, rows) * stand.way;
        return is_free(shape::bounds(shape::Cylinder{inlet, stand.outlet, sizes.neutraliser->outside.value() / 2})) &&
               is_free(shape::bounds(shape::Cylinder{start, end, parts.tee->outside.value() / 2}));
    }
    [[nodiscard]] double least_leg() const { return parts.elbow->run.value() + parts.least; }
};

/// The nearest free stand in line with the drop, looking first towards where the headers come from.
std::optional<Stand> in_line(const Setting& at, Vec from) {
    std::vector<Vec> ways{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}};
    std::ranges::stable_sort(ways, std::ranges::greater{},
                             [&](const Vec& way) { return shape::dot(at.top - from, way); });
    for (int k = 0; k < 16; ++k)
        for (const Vec& way : ways) {
            Stand stand{way, at.top - (at.least_leg() + k * 6 * inch_m) * way};
            if (!at.body_free(stand, at.top)) continue;
            stand.corners = {at.top, at.foot};
            return stand;
        }
    return std::nullopt;
}

/// The way from a stand's outlet to the air gap, never rising.
std::optional<std::vector<Vec>> way_on(const Setting& at, const Stand& stand) {
    RouteRequest ask{.from = stand.outlet, .from_facing = stand.way, .to = at.foot, .to_facing = shape::up};
    ask.radius = at.parts.elbow->outside.value() / 2;
    ask.clearance = grid;
    ask.turn = at.parts.elbow->run.value();
    ask.least = ask.first = ask.last = at.parts.least;
    ask.levels = {stand.outlet.z};
    ask.highest = stand.outlet.z;
    auto found = find_route_off_grid(at.space, ask, Thoroughness::simple);
    if (!found) return std::nullopt;
    return std::move(*found);
}

/// A free stand anywhere in the room, as near to the drop and to where the headers come from as may be.
std::optional<Stand> elsewhere(const Setting& at, Vec from, double pitch) {
    const auto& plan = at.space.plan();
    std::vector<std::pair<double, Stand>> stands;
    double reach = 0;
    for (const auto& corner : plan) reach = std::max(reach, std::hypot(corner.x - at.top.x, corner.y - at.top.y));
    const int steps = static_cast<int>(reach / pitch);
    for (int x = -steps; x <= steps; ++x)
        for (int y = -steps; y <= steps; ++y)
            for (const Vec& way : {Vec{1, 0, 0}, Vec{-1, 0, 0}, Vec{0, 1, 0}, Vec{0, -1, 0}}) {
                const Vec outlet = at.top + Vec{x * pitch, y * pitch, 0};
                if (!shape::inside(plan, {outlet.x, outlet.y})) continue;
                const Vec start = outlet - upstream(at.parts, at.sizes, at.rows) * way;
                stands.push_back({shape::distance(outlet, at.top) + shape::distance(start, from), {way, outlet}});
            }
    std::ranges::stable_sort(stands, {}, [](const auto& stand) { return stand.first; });
    int looked_at = 0;
    for (auto& [far, stand] : stands) {
        if (!at.body_free(stand, stand.outlet + at.least_leg() * stand.way)) continue;
        if (++looked_at > 12) break;
        if (auto corners = way_on(at, stand)) {
            stand.corners = std::move(*corners);
            return std::move(stand);
        }
    }
    return std::nullopt;
}

std::optional<Stand> find_stand(const Setting& at, Vec from) {
    if (!at.drop_free()) return std::nullopt;
    auto stand = in_line(at, from);
    if (!stand) stand = elsewhere(at, from, 12 * inch_m);
    // all of the room is looked at closely once, at the lowest
    if (!stand && at.lowest) stand = elsewhere(at, from, 4 * inch_m);
    return stand;
}

PortRef set_neutraliser(Builder& b, const Line& line, const Item& item, const Stand& stand) {
    const Vec inlet = stand.outlet - 2 * item.run.value() * stand.way;
    Piece piece = bare(b, line, item, "neutraliser");
    piece.bore = b.bore(line);
    piece.mass_dry += item.number("medium-mass").value_or(0);
    piece.ports = {{"a", inlet, -stand.way, line.size, line.service},
                   {"b", stand.outlet, stand.way, line.size, line.service}};
    piece.solids = {shape::Cylinder{inlet, stand.outlet, item.outside.value() / 2}};
    return {b.add(std::move(piece)), 0};
}

/// What is in the way: over the drain itself, else anywhere.
void no_stand(Builder& b, const Setting& at, const DrainEnd& end) {
    const auto over = at.space.taken(at.drop());
    if (over && !end.pump) {
        const auto& pieces = b.built.plant.pieces;
        const std::string what =
            *over < 0 ? at.space.what(*over) : plant::in_words(pieces[static_cast<std::size_t>(*over)].id);
        return b.give_up(fmt::format("condensate: {} leaves no room for an air gap over the drain", what),
                         "a drain clear of it");
    }
    b.give_up(fmt::format("condensate: no free place of {:.0f} in for the neutralizer with a way to {}",
                          upstream(at.parts, at.sizes, at.rows) / inch_m, end.pump ? "a condensate pump" : "the drain"),
              "a drain clear of working space and obstacles");
}

}  // namespace

void end_at_drain(Builder& b, const Line& line, PortRef open, const std::vector<Vec>& corners, const Item& gap) {
    open = b.run(line, open, corners);
    open = angle(b, line, open, &gap, shape::down, Service::condensate, "air-gap");
    if (!b.ok()) return;
    const PortRef receptor = b.site("site.drain", Service::condensate, b.at(open).at, shape::up, b.at(open).size);
    b.join(open, receptor, JointKind::slip);
}

double height_over(const Builder& b, const DrainSizes& sizes, const DrainEnd& end) {
    const Parts parts = parts_of(b, sizes);
    const double body = sizes.neutraliser->outside.value() / 2;
    if (!parts.elbow || !parts.gap) return body;
    const double drop = parts.least + parts.elbow->run.value();
    if (end.pump) return snap_up(std::max(drop, body));
    return std::max(body, snap_up(parts.gap->run.value() + parts.gap->stem.value() + drop));
}

std::vector<PortRef> lay_neutraliser(Builder& b, const DrainSizes& sizes, Vec drain, double height, int rows, Vec from,
                                     const DrainEnd& end) {
    const Line line = line_of(*sizes.neutraliser->size), header = line_of(sizes.header);
    const Parts parts = parts_of(b, sizes);
    if (!parts.elbow || !parts.gap || !parts.tee) {
        b.give_up(fmt::format("condensate: the catalogue lacks an elbow, a tee or an air gap of {} in",
                              units::print(line.size)),
                  "rows for them");
        return {};
    }
    const double needed = height_over(b, sizes, end);
    const double body = sizes.neutraliser->outside.value() / 2;
    const Vec low = end.low_point(drain);
    if (height - low.z < needed || height < body) {
        b.give_up(fmt::format("condensate: its line is {:.1f} in above {}; neutralizer and drop need {:.1f} in",
                              (height - low.z) / inch_m, end.pump ? "the condensate pump's inlet" : "the drain",
                              std::max(needed, body) / inch_m),
                  "heaters hung higher, or a lower drain");
        return {};
    }
    // near the floor it may lie under other lines
    const double lowest = std::max(low.z + needed, body + grid);
    const auto racks = rack_rooms(b, 0);
    const Vec top = snap(Vec{low.x, low.y, height - end.lowered * (height - lowest)});
    const double gap = end.pump ? 0 : parts.gap->run.value() + parts.gap->stem.value();
    const Vec foot{top.x, top.y, low.z + gap};
    if (end.pump)
        for (const auto& box : end.pump->room())
            if (b.space.taken(box)) {
                b.give_up("condensate: the row's own line stands where its pump would", "more room beside the bank");
                return {};
            }
    std::optional<ClearanceMap> own;
    if (end.over_working_space) own = over_working_space(b);
    if (end.pump) {
        own = b.space;
        for (const auto& box : end.pump->room()) own->take(box, ClearanceMap::kept_clear, "the condensate pump");
    }
    const Setting setting{own ? *own : b.space,         parts,           sizes, rows, top, foot, racks,
                          end.pump ? foot.z : 2 * grid, end.lowered >= 1};
    const auto stand = find_stand(setting, from);
    if (!stand) {
        no_stand(b, setting, end);
        return {};
    }
    if (end.over_working_space) crosses(b, line);
    PortRef open = set_neutraliser(b, line, *sizes.neutraliser, *stand);
    if (end.pump)
        lay_pump(b, *end.pump, b.run(line, {open.piece, 1}, stand->corners), drain);
    else
        end_at_drain(b, line, {open.piece, 1}, stand->corners, *parts.gap);
    if (line.size != sizes.header) open = b.reduce(line, b.nipple(line, open), sizes.header);
    const Vec side = shape::cross(shape::up, stand->way);
    const Vec toward = shape::dot(from - top, side) >= 0 ? side : -side;
    std::vector<PortRef> branches;
    for (int i = 1; i < rows && b.ok(); ++i) {
        const Fork fork = b.tee(header, b.nipple(header, open), toward, sizes.header);
        branches.push_back(fork.branch);
        open = fork.on;
    }
    std::vector<PortRef> takes{open};
    takes.insert(takes.end(), branches.rbegin(), branches.rend());
    return takes;
}

}  // namespace bw::piping
