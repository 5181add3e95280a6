// SPDX-License-Identifier: MIT
#include "piping/kit/builder_extra.h"

#include <algorithm>
#include <cmath>

#include "route/simple_route.h"

namespace bw::piping {

Piece bare(Builder& b, const Line& line, const Item& item, std::string_view name) {
    Piece piece;
    piece.id = b.id(line, item.part, name);
    piece.part = item.part;
    piece.service = line.service;
    piece.item = item.key;
    piece.size = line.size;
    piece.mass_dry = item.mass.value();
    piece.loss_run = item.loss_run;
    piece.loss_stem = item.loss_stem;
    piece.heater = line.heater;
    piece.bank = line.bank;
    return piece;
}

PortRef angle(Builder& b, const Line& line, PortRef from, const Item* item, Vec out, Service out_service,
              std::string_view name) {
    if (!b.ok() || from == nowhere || !item) return nowhere;
    const Port open = b.at(from);
    const Vec middle = open.at + item->run.value() * open.facing, outlet = middle + item->stem.value() * out;
    const double radius = item->outside.value() / 2;
    Piece piece = bare(b, line, *item, name);
    piece.bore = b.bore(line);
    piece.ports = {{"a", open.at, -open.facing, open.size, open.service},
                   {"b", outlet, out, item->branch.value_or(open.size), out_service}};
    piece.solids = {shape::Cylinder{open.at, middle + (radius / 2) * open.facing, radius},
                    shape::Cylinder{middle, outlet, radius * 0.7}};
    const int index = b.add(std::move(piece));
    b.join(from, {index, 0}, JointKind::threaded);
    return {index, 1};
}

Result<std::vector<Vec>> find_route_off_grid(const ClearanceMap& space, RouteRequest ask, Thoroughness how) {
    const Vec off = ask.from - snap(ask.from);
    ask.from = ask.from - off;
    ask.to = ask.to - off;
    Result<std::vector<Vec>> corners;
    if (auto shut = blocked_at_end(space, ask)) return tl::unexpected(std::move(*shut));
    if (auto quick = route::simple_route(space, ask))
        corners = std::move(*quick);
    else if (how == Thoroughness::simple)
        return fail("no simple way", "a search");
    else
        corners = find_route(space, ask);
    if (!corners) return corners;
    for (Vec& corner : *corners) corner = corner + off;
    return corners;
}

Vec on_grid_from(Vec from, Vec to, Vec facing) {
    const auto axis = [](double a, double c, double look) {
        const double steps = (c - a) / grid;
        if (std::abs(look) < 0.5) return a + std::round(steps) * grid;
        return a + (look > 0 ? std::ceil(steps - 1e-4) : std::floor(steps + 1e-4)) * grid;
    };
    return {axis(from.x, to.x, facing.x), axis(from.y, to.y, facing.y), axis(from.z, to.z, facing.z)};
}

std::vector<Standing> standings(const plant::Layout& layout) {
    std::vector<Standing> all;
    for (const auto& bank : layout.banks)
        for (const auto& stand : bank.stands) all.push_back({&bank, &stand});
    std::ranges::sort(all, {}, [](const Standing& at) { return at.stand->number; });
    return all;
}

}  // namespace bw::piping
