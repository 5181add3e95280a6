// SPDX-License-Identifier: MIT
// Lays a planned common pipe: end cap with its drain, tees, and each heater's collar, damper and riser.

#include <fmt/format.h>

#include "piping/vent/vent.h"

namespace bw::piping {
namespace {

/// The cap at the low end. An exhaust's cap is tapped for the drain, port "drain", which `add_drains` takes up.
PortRef low_end(Builder& b, const Line& line, const VentHeader& header) {
    const Item* row = b.item(Part::cap, line);
    if (!row) return nowhere;
    Piece piece = bare(b, line, *row, "cap");
    piece.ports = {{"a", header.low_end, header.along, line.size, line.service}};
    const Vec back = header.low_end - 2 * row->run.value() * header.along;
    const double radius = row->outside.value() / 2;
    piece.solids = {shape::Cylinder{back, header.low_end, radius}};
    if (line.service == Service::exhaust) {
        const Vec tapping = 0.5 * (back + header.low_end) - Vec{0, 0, snap_up(radius)};
        piece.ports.push_back({"drain", tapping, shape::down, vent_drain, Service::condensate});
    }
    return {b.add(std::move(piece)), 0};
}

/// A heater's own pipe up to its branch of the common pipe.
void rise_to(Builder& b, const Line& line, int heater, const VentHeader& header, PortRef branch) {
    Line riser = line;
    riser.name = fmt::format("heater-{}.{}", heater, text::name(line.service));
    riser.heater = heater;
    const PortRef port = heater_port(b, heater, line.service);
    if (port == nowhere) return b.give_up(riser.name + ": the heater has no such port", "a port of that name");
    riser.size = b.at(port).size;
    PortRef open = start_vent(b, riser, port, riser.size);
    if (line.service == Service::exhaust) open = b.fit(riser, open, b.item(Part::vent_damper, riser), "damper");
    if (!b.ok()) return;
    if (shape::length(header.aside) > 0.5) {
        Vec corner = b.at(open).at;
        corner.z = header.height;
        b.run_to(riser, open, std::vector<Vec>{corner}, branch);
    } else {
        b.close(riser, open, branch);
    }
}

}  // namespace

void lay_common(Builder& b, const FluePlan& plan, Material material, int outlet_number) {
    const auto& header = plan.header;
    const Line line{.service = plan.flue.service,
                    .material = material,
                    .size = plan.size,
                    .name = plan.flue.name,
                    .bank = plan.flue.bank->number};
    const Vec branch_facing = shape::length(header.aside) > 0.5 ? -header.aside : shape::down;
    PortRef open = low_end(b, line, header);
    for (std::size_t i = 0; i < header.middle.size() && b.ok(); ++i) {
        const int heater = header.heaters[i];
        const auto* port = b.heater.port(text::name(line.service));
        const Item* tee = b.item(Part::vent_tee, line, port->size);
        if (!tee) return;
        const double gap = shape::dot(header.middle[i] - b.at(open).at, header.along) - tee->run.value();
        const Fork fork =
            b.tee(line, b.pipe(line, open, gap), branch_facing, port->size, fmt::format("tee-{}", heater));
        if (!b.ok()) return;
        rise_to(b, line, heater, header, fork.branch);
        open = fork.on;
    }
    lay_outlet(b, line, open, plan, outlet_number);
}

}  // namespace bw::piping
