// SPDX-License-Identifier: MIT
// The far end of the condensate: rows joined, neutraliser, drop, air gap over the building's drain.

#include <fmt/format.h>

#include <cmath>

#include "piping/drain.h"

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

/// Where the neutraliser stands: flow goes along `way`; `outlet` is its outlet port's place.
struct Stand {
    Vec way, outlet;
};

double upstream(const Parts& parts, const DrainSizes& sizes, int rows) {
    return 2 * sizes.neutraliser->run.value() + parts.least + (parts.reducer ? 2 * parts.reducer->run.value() : 0) +
           (rows - 1) * (2 * parts.tee->run.value() + parts.header_least) + 2 * parts.header_least;
}

bool stands_free(const Builder& b, const Stand& stand, const Parts& parts, const DrainSizes& sizes, Vec top, int rows) {
    const double fat = sizes.neutraliser->outside.value() / 2, thin = parts.elbow->outside.value() / 2;
    const Vec inlet = stand.outlet - 2 * sizes.neutraliser->run.value() * stand.way;
    const Vec start = stand.outlet - upstream(parts, sizes, rows) * stand.way;
    const Vec foot{top.x, top.y, 2 * grid};
    for (const auto& box : {shape::bounds(shape::Cylinder{inlet, stand.outlet, fat}),
                            shape::bounds(shape::Cylinder{start, top, parts.tee->outside.value() / 2}),
                            shape::bounds(shape::Cylinder{foot, top, std::max(thin, parts.gap->outside.value() / 2)})})
        if (!b.space.in_room(box) || b.space.taken(box)) return false;
    return true;
}

/// The nearest free stand, looking first towards where the headers come from.
std::optional<Stand> find_stand(const Builder& b, const Parts& parts, const DrainSizes& sizes, Vec top, int rows,
                                Vec from) {
    std::vector<Vec> ways{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}};
    std::ranges::stable_sort(ways, std::ranges::greater{}, [&](const Vec& way) { return shape::dot(top - from, way); });
    const double first = parts.elbow->run.value() + parts.least;
    for (int k = 0; k < 16; ++k)
        for (const Vec& way : ways) {
            const Stand stand{way, top - (first + k * 6 * inch_m) * way};
            if (stands_free(b, stand, parts, sizes, top, rows)) return stand;
        }
    return std::nullopt;
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

void drop(Builder& b, const Line& line, PortRef outlet, Vec top, Vec drain, const Item& gap) {
    const double high = drain.z + gap.run.value() + gap.stem.value();
    PortRef open = b.run(line, outlet, {top, Vec{top.x, top.y, high}});
    open = angle(b, line, open, &gap, shape::down, Service::condensate, "air-gap");
    if (!b.ok()) return;
    const PortRef receptor = b.site("site.drain", Service::condensate, b.at(open).at, shape::up, b.at(open).size);
    b.join(open, receptor, JointKind::slip);
}

}  // namespace

std::vector<PortRef> lay_neutraliser(Builder& b, const DrainSizes& sizes, Vec drain, double height, int rows,
                                     Vec from) {
    const Line line = line_of(*sizes.neutraliser->size), header = line_of(sizes.header);
    const Parts parts = parts_of(b, sizes);
    if (!parts.elbow || !parts.gap || !parts.tee) {
        b.give_up(fmt::format("condensate: the catalogue lacks an elbow, a tee or an air gap of {} in",
                              units::print(line.size)),
                  "rows for them");
        return {};
    }
    const double needed = parts.gap->run.value() + parts.gap->stem.value() + parts.least + parts.elbow->run.value();
    const double body = sizes.neutraliser->outside.value() / 2;
    if (height - drain.z < needed || height < body) {
        b.give_up(fmt::format(
                      "condensate: its line is {:.1f} in above the drain; neutraliser, drop and air gap need {:.1f} in",
                      (height - drain.z) / inch_m, std::max(needed, body) / inch_m),
                  "heaters hung higher, a lower drain, or a condensate pump (not designed here)");
        return {};
    }
    const Vec top = snap(Vec{drain.x, drain.y, height});
    const auto stand = find_stand(b, parts, sizes, top, rows, from);
    if (!stand) {
        b.give_up(fmt::format("condensate: no free place of {:.0f} in near the drain for neutraliser and air gap",
                              upstream(parts, sizes, rows) / inch_m),
                  "a drain clear of working space and obstacles");
        return {};
    }
    PortRef open = set_neutraliser(b, line, *sizes.neutraliser, *stand);
    drop(b, line, {open.piece, 1}, top, drain, *parts.gap);
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
