// SPDX-License-Identifier: MIT
// Lines of pipe: runs along polylines, closing pieces and flexible connectors.

#include <fmt/format.h>

#include <cmath>

#include "piping/kit/builder.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

using units::tolerance;

bool along_axis(Vec v) {
    const int moved = (std::abs(v.x) > tolerance) + (std::abs(v.y) > tolerance) + (std::abs(v.z) > tolerance);
    return moved == 1;
}

Vec unit(Vec v) { return (1 / shape::length(v)) * v; }

/// Where the legs turn; corners that lie on the way are dropped.
std::vector<Vec> turns_of(Vec from, std::span<const Vec> corners) {
    std::vector<Vec> kept;
    Vec before = from;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        if (shape::distance(before, corners[i]) < tolerance) continue;
        if (i + 1 < corners.size() && shape::distance(corners[i], corners[i + 1]) > tolerance) {
            const Vec in = unit(corners[i] - before), out = unit(corners[i + 1] - corners[i]);
            if (shape::distance(in, out) < tolerance) continue;
        }
        kept.push_back(corners[i]);
        before = corners[i];
    }
    return kept;
}

}  // namespace

PortRef Builder::run(const Line& line, PortRef from, std::span<const Vec> corners) {
    if (!ok() || from == nowhere) return nowhere;
    const auto path = turns_of(at(from).at, corners);
    for (std::size_t i = 0; i < path.size() && ok(); ++i) {
        const Vec here = at(from).at, way = path[i] - here, facing = at(from).facing;
        if (!along_axis(way) || shape::distance(unit(way), facing) > 1e-4) {
            give_up(fmt::format("{}: a leg of the run does not go on the way the open end looks", line.name),
                    "an orthogonal route that leaves the end straight");
            return nowhere;
        }
        const double length = shape::length(way);
        if (i + 1 == path.size()) return pipe(line, from, length);
        const Vec toward = unit(path[i + 1] - path[i]);
        const Item* bend = item(pipe_part(line) == Part::vent_pipe ? Part::vent_elbow : Part::elbow, line);
        if (!bend) return nowhere;
        const double straight = length - bend->run.value();
        if (straight > tolerance || !takes_fitting(from)) from = pipe(line, from, straight);
        from = elbow(line, from, toward);
    }
    return ok() ? from : nowhere;
}

void Builder::run_to(const Line& line, PortRef from, std::span<const Vec> corners, PortRef to) {
    if (!ok() || from == nowhere || to == nowhere) return;
    std::vector<Vec> path(corners.begin(), corners.end());
    path.push_back(at(to).at);
    from = run(line, from, path);
    if (from != nowhere) join(from, to, joint_of(line.material, line.size));
}

void Builder::close(const Line& line, PortRef from, PortRef to) {
    if (!ok() || from == nowhere || to == nowhere) return;
    const Span gap = span_between(at(from), at(to));
    if (gap.aside > tolerance) {
        give_up(
            fmt::format("{}: two ends to be closed by one pipe stand {:.2f} in aside", line.name, gap.aside / inch_m),
            "ends on one axis");
        return;
    }
    from = pipe(line, from, gap.ahead);
    if (from != nowhere) join(from, to, joint_of(line.material, line.size));
}

void Builder::flexible(const Line& line, Part part, PortRef from, PortRef to, std::string_view name) {
    if (!ok() || from == nowhere || to == nowhere) return;
    const Span gap = span_between(at(from), at(to));
    const Item* best = nullptr;
    const auto length_of = [](const Item& row) { return row.number("length").value_or(0); };
    for (const Item* row : catalogue.of(part)) {
        if (row->size && *row->size != line.size) continue;
        if (!row->services.empty() && std::ranges::find(row->services, line.service) == row->services.end()) continue;
        if (spans(*row, gap) && (!best || length_of(*row) < length_of(*best))) best = row;
    }
    if (!best) {
        give_up(fmt::format("{}: no {} of {} in of the catalogue spans {:.1f} in ahead and {:.1f} in aside", line.name,
                            text::name(part), units::print(line.size), gap.ahead / inch_m, gap.aside / inch_m),
                "a connector of another length, or the heater hung higher");
        return;
    }
    Piece piece = blank(line, part, best, name);
    const Port &a = at(from), &b = at(to);
    piece.ports = {{"a", a.at, -a.facing, a.size, line.service}, {"b", b.at, -b.facing, b.size, line.service}};
    piece.solids = {shape::Cylinder{a.at, b.at, best->outside.value() / 2}};
    if (line.service != Service::gas && line.service != Service::exhaust && line.service != Service::intake)
        piece.water = 0.25 * units::pi * piece.bore * piece.bore * length_of(*best);
    const int index = add(std::move(piece));
    join(from, {index, 0}, JointKind::threaded);
    join({index, 1}, to, JointKind::threaded);
}

}  // namespace bw::piping
