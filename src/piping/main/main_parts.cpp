// SPDX-License-Identifier: MIT
#include "piping/main/main_parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "piping/main/inline_lengths.h"
#include "piping/main/main_layer.h"

namespace bw::piping {

const survey::Connection& connection_of(const Builder& b, Service service) {
    const auto& room = b.ground.room;
    switch (service) {
        case Service::gas: return room.gas;
        case Service::hot: return room.hot;
        case Service::recirculation: return room.recirculation;
        default: return room.cold;
    }
}

Nominal bank_size(const Builder& b, Service service, int bank) {
    return b.sizes.banks[static_cast<std::size_t>(bank) - 1].of(service).front();
}

PortRef bank_feed(const Builder& b, Service service, int bank) {
    const auto found = b.feeds.find({bank, service});
    return found == b.feeds.end() ? nowhere : found->second;
}

Nominal largest_size(const Builder& b, const Line& line, const MainParts& parts, int bank) {
    return std::max({line.size, parts.size_first, parts.size_last, bank_size(b, line.service, bank)});
}

namespace {

InlineItem in_line(const Item* item, std::string name) {
    InlineItem dress;
    dress.item = item;
    dress.name = std::move(name);
    return dress;
}

InlineItem sized(Nominal to, std::string name) {
    InlineItem dress;
    dress.to = to;
    dress.name = std::move(name);
    return dress;
}

/// A valve and what stands behind it where a regulator does: a test port either side of it.
std::vector<InlineItem> regulated(Builder& b, const Line& line, Nominal behind, std::string_view of,
                                  std::string_view valve) {
    std::vector<InlineItem> things;
    const auto named = [&](std::string_view what) { return fmt::format("{}{}", of, what); };
    const Item* regulator = b.ground.regulator;
    things.push_back(in_line(b.item(Part::gas_valve, line), named(valve)));
    things.push_back(in_line(b.item(Part::test_port, line), named("test-before")));
    if (*regulator->size != line.size) things.push_back(sized(*regulator->size, named("regulator-reduced")));
    things.push_back(in_line(regulator, named("regulator")));
    if (*regulator->size != behind) things.push_back(sized(behind, named(of.empty() ? "main-reduced" : "reduced")));
    things.push_back(in_line(b.item(Part::test_port, resized(line, behind)), named("test")));
    return things;
}

MainParts gas_parts(Builder& b, Line line) {
    MainParts parts;
    line.size = parts.size_first = b.sizes.gas_service;
    parts.size_last = b.sizes.gas_main;
    if (b.ground.regulator && !b.ground.regulator_each_bank) {
        parts.things = regulated(b, line, parts.size_last, "", "shutoff");
    } else {
        parts.things.push_back(in_line(b.item(Part::gas_valve, line), "shutoff"));
        parts.things.push_back(in_line(b.item(Part::test_port, line), "test"));
    }
    return parts;
}

MainParts cold_parts(Builder& b, Line line) {
    MainParts parts;
    line.size = parts.size_first = parts.size_last = b.sizes.cold_main;
    const auto add = [&](Part part, std::string name) {
        parts.things.push_back(in_line(b.item(part, line), std::move(name)));
    };
    add(Part::ball_valve, "isolation");
    add(Part::strainer, "strainer");
    if (b.ground.reduces) add(Part::pressure_reducer, "reducer");
    const bool loop = b.ground.recirculates;
    if (loop) add(Part::check_valve, "check");
    if (loop || b.ground.reduces || b.ground.closed) {
        InlineItem dress;
        dress.outlet = Nominal{6};
        dress.name = "expansion-tee";
        dress.outlet_service = Service::cold;
        dress.reach = 30 * inch_m;
        dress.girth = 14 * inch_m;
        parts.things.push_back(dress);
    }
    if (loop) {
        InlineItem dress;
        dress.outlet = std::min(b.sizes.recirculation, parts.size_last);
        dress.name = "return-tee";
        dress.outlet_service = Service::recirculation;
        parts.things.push_back(dress);
    }
    return parts;
}

MainParts hot_parts(Builder& b, Line line) {
    MainParts parts;
    line.size = parts.size_first = parts.size_last = b.sizes.hot_main;
    parts.things.push_back(in_line(b.item(Part::ball_valve, line), "isolation"));
    parts.things.push_back(in_line(b.item(Part::thermometer, line), "thermometer"));
    return parts;
}

}  // namespace

MainParts main_parts(Builder& b, const Line& line) {
    switch (line.service) {
        case Service::gas: return gas_parts(b, line);
        case Service::hot: return hot_parts(b, line);
        default: return cold_parts(b, line);
    }
}

std::vector<InlineItem> bank_things(Builder& b, const Line& line, Nominal from, int bank) {
    const Line here = resized(line, bank_size(b, line.service, bank));
    if (line.service == Service::gas && b.ground.regulator_each_bank)
        return regulated(b, resized(line, from), here.size, fmt::format("bank-{}-", bank), "valve");
    std::vector<InlineItem> things;
    if (from != here.size) things.push_back(sized(here.size, fmt::format("bank-{}-reduced", bank)));
    if (b.layout.banks.size() > 1)
        things.push_back(in_line(b.item(line.service == Service::gas ? Part::gas_valve : Part::ball_valve, here),
                                 fmt::format("bank-{}-valve", bank)));
    return things;
}

namespace {

/// Water in the plant's own cold and hot pieces, m3.
double water_held(const Builder& b) {
    double held = 0;
    for (const auto& piece : b.built.plant.pieces) held += piece.water;
    return held;
}

void hang_vessel(Builder& b, PortRef outlet) {
    if (!b.swell) {
        b.no_vessel_suits = true;
        b.give_up("expansion vessel: the water's temperatures lie outside 0 to 100 degC",
                  "temperatures of liquid water");
        return;
    }
    const double held = water_held(b);
    const Item* best = vessel_for(b.catalogue, *b.swell, held);
    if (!best) {
        b.no_vessel_suits = true;
        b.give_up("expansion vessel: none in the catalogue takes the water's expansion", "a larger vessel");
        return;
    }
    Line line{Service::cold, b.ground.water_pipe, b.at(outlet).size, "main.cold.expansion"};
    PortRef open = outlet;
    if (best->size && *best->size != line.size) {
        open = b.reduce(line, b.nipple(line, open), *best->size);
        line.size = *best->size;
    }
    if (!b.on_pipe(open)) open = b.nipple(line, open);
    b.end(line, open, best, "vessel");
    b.vessel = Vessel{best, held, line.material, line.size};
}

void lay_return(Builder& b, PortRef outlet) {
    const auto& connection = connection_of(b, Service::recirculation);
    Line line{Service::recirculation, b.ground.water_pipe, b.sizes.recirculation, "main.recirculation"};
    Port& port =
        b.built.plant.pieces[static_cast<std::size_t>(outlet.piece)].ports[static_cast<std::size_t>(outlet.port)];
    port.service = Service::recirculation;
    const Item* pump = b.ground.pump;
    if (!pump) {
        b.give_up("recirculation: no pump of the catalogue moves the loop's flow", "a larger pump");
        return;
    }
    const Nominal there = connection.size.value_or(line.size);
    std::vector<InlineItem> things;
    if (there != line.size) things.push_back(sized(line.size, "size"));
    things.push_back(in_line(b.item(Part::ball_valve, line), "isolation"));
    if (*pump->size != line.size) things.push_back(sized(*pump->size, "pump-reduced"));
    things.push_back(in_line(pump, "pump"));
    if (*pump->size != line.size) things.push_back(sized(line.size, "line-reduced"));
    things.push_back(in_line(b.item(Part::check_valve, line), "check"));
    things.push_back(in_line(b.item(Part::ball_valve, line), "isolation-2"));
    // the cold main may be smaller than the building's return
    if (port.size != line.size) things.push_back(sized(port.size, "tee-reduced"));
    if (!b.ok()) return;
    const Line begin{line.service, line.material, there, line.name};
    const PortRef site = b.site("site.recirculation", line.service, snap(connection.at), connection.facing, there);
    lay_routed(b, begin, std::max(there, line.size), site, outlet, things);
}

}  // namespace

void finish_outlets(Builder& b, const std::vector<Outlet>& outlets) {
    b.reserved.clear();
    for (const auto& outlet : outlets) {
        if (!b.ok()) return;
        if (outlet.name == "expansion-tee") hang_vessel(b, outlet.port);
    }
    for (const auto& outlet : outlets) {
        if (!b.ok()) return;
        if (outlet.name == "return-tee") lay_return(b, outlet.port);
    }
}

}  // namespace bw::piping
