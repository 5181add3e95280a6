// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "catalogue/ports.h"
#include "catalogue/read.h"

namespace bw::catalogue {

namespace {

using text::Node;
using text::Range;
using text::TableReader;

constexpr double inches = 0.0254, psi_si = 6894.757;
constexpr Range sizes{inches, 200 * inches}, gaps{0, 200 * inches}, lengths{0, 500}, powers{100, 1e6}, flows{0, 0.02},
    pressures{0, 1000 * psi_si}, gas_pressures{0, 5 * psi_si}, waters{273.15, 393.15};

/// Points of a curve: `[["60 degF", "97 %"], ...]`.
template <class X, class Y>
std::vector<CurvePoint<X, Y>> take_curve(TableReader& r, std::string_view key, Kind kind_x, Kind kind_y) {
    std::vector<CurvePoint<X, Y>> out;
    const auto list = r.required_child(key, "an array of points, each an array of two");
    if (!list || !r.ok()) return out;
    for (const Node& node : list->items()) {
        const auto pair = node.items();
        if (pair.size() != 2) {
            r.fail(node.error(fmt::format("{}: not a point", key), "an array of two").value());
            return out;
        }
        const auto x = pair[0].as_amount(kind_x), y = pair[1].as_amount(kind_y);
        if (!x || !y) {
            r.fail(x ? y.error() : x.error());
            return out;
        }
        if constexpr (std::is_same_v<Y, double>)
            out.push_back({X::from_value(x->si), y->si});
        else
            out.push_back({X::from_value(x->si), Y::from_value(y->si)});
    }
    if (out.size() < 2) r.fail_at(key, fmt::format("{} points", out.size()), "two or more");
    return out;
}

/// Each table of an array of tables, read by `one`.
template <class Row>
std::vector<Row> take_tables(TableReader& r, std::string_view key, const std::optional<Node>& list, auto one) {
    std::vector<Row> out;
    if (!list || !r.ok()) return out;
    if (!list->is_array()) r.fail_at(key, "not an array", "an array of tables");
    for (const Node& node : list->items()) {
        TableReader row(node);
        out.push_back(one(row));
        if (auto ok = row.finish(); !ok) {
            r.fail(ok.error());
            return out;
        }
    }
    return out;
}

void take_fire(TableReader& r, Heater& h) {
    r.require("input-greatest", h.input_greatest, Kind::heat_rate, powers);
    r.require("input-least", h.input_least, Kind::heat_rate, powers);
    h.efficiency = take_curve<Temperature, Ratio>(r, "efficiency", Kind::temperature, Kind::percent);
    h.gas = take_tables<GasInlet>(r, "gas", r.required_child("gas", "an array of tables: kind, least, greatest"),
                                  [](TableReader& t) {
                                      GasInlet g;
                                      t.require_named("kind", g.gas);
                                      t.require("least", g.least, Kind::gas_pressure, gas_pressures);
                                      t.require("greatest", g.greatest, Kind::gas_pressure, gas_pressures);
                                      return g;
                                  });
    units::Amount excess{h.excess_air, Kind::percent};
    r.require("excess-air", excess, Kind::percent, {0, 2});
    h.excess_air = excess.si;
}

void take_vent(TableReader& r, Heater& h) {
    r.require("fan", h.fan, Kind::gas_pressure, gas_pressures);
    r.require("flue-over-return", h.flue_over_return, Kind::temperature_difference, {0, 200});
    r.require("room-air-allowed", h.room_air_allowed);
    (void)r.required_child("vent-materials", "an array of vent materials");
    h.vent_materials = take_names<Material>(r, "vent-materials");
    h.vents = take_tables<VentLimit>(r, "vents", r.required_child("vents", "an array of tables: size, longest, elbow"),
                                     [](TableReader& t) {
                                         VentLimit v;
                                         t.require("size", v.size);
                                         t.require("longest", v.longest, Kind::long_length, lengths);
                                         t.require("elbow", v.elbow_equivalent, Kind::long_length, lengths);
                                         return v;
                                     });
    r.optional("common-vent-listing", h.common_vent_listing);
    h.common_vents = take_tables<CommonVentLimit>(r, "common-vents", r.child("common-vents"), [](TableReader& t) {
        CommonVentLimit v;
        std::int64_t most = 0;
        t.require("size", v.size);
        t.require("most", most, {1, 100});
        t.require("longest", v.longest, Kind::long_length, lengths);
        v.most = static_cast<int>(most);
        return v;
    });
}

void take_water(TableReader& r, Heater& h) {
    r.require("flow-least", h.flow_least, Kind::water_flow, flows);
    r.require("flow-greatest", h.flow_greatest, Kind::water_flow, flows);
    h.pressure_drop = take_curve<VolumeFlow, Pressure>(r, "pressure-drop", Kind::water_flow, Kind::pressure);
    r.require("water-greatest", h.water_greatest, Kind::temperature, waters);
    r.require("setpoint-greatest", h.setpoint_greatest, Kind::temperature, waters);
    r.require("water-pressure-greatest", h.water_pressure_greatest, Kind::pressure, pressures);
    r.require("water-pressure-least", h.water_pressure_least, Kind::pressure, pressures);
    r.require("relief-greatest", h.relief_greatest, Kind::pressure, pressures);
    units::Amount hardness, acidity;
    r.require("hardness-greatest", hardness, Kind::hardness, {0, 2000});
    h.hardness_greatest = hardness.si;
    r.require("condensate-acidity", acidity, Kind::acidity, {0, 14});
    h.condensate_acidity = acidity.si;
    r.require("condensate-trap-built-in", h.condensate_trap_built_in);
    r.require("closes-when-idle", h.closes_when_idle);
}

void take_body(TableReader& r, Heater& h) {
    r.require("width", h.width, Kind::length, sizes);
    r.require("height", h.height, Kind::length, sizes);
    r.require("depth", h.depth, Kind::length, sizes);
    r.require("mass", h.mass, Kind::mass, {1, 2000});
    r.require("water", h.water, Kind::volume, {0, 1});
    h.ports = take_ports(r);
    r.require("gap-side", h.gap_side, Kind::length, gaps);
    r.require("gap-top", h.gap_top, Kind::length, gaps);
    r.require("gap-front", h.gap_front, Kind::length, gaps);
    r.require("gap-bottom", h.gap_bottom, Kind::length, gaps);
    r.require("combustible", h.combustible, Kind::length, gaps);
    r.require("hang-height", h.hang_height, Kind::length, gaps);
    r.require("voltage", h.voltage, Kind::voltage, {1, 1000});
    r.require("current-running", h.current_running, Kind::current, {0, 100});
    r.require("current-freeze", h.current_freeze, Kind::current, {0, 100});
}

void take_limits(TableReader& r, Heater& h) {
    std::int64_t group = 1;
    r.require("greatest-group", group, {1, 100});
    h.greatest_group = static_cast<int>(group);
    std::int64_t together = 0;
    if (r.optional("groups-together", together, {1, 100})) h.groups_together = static_cast<int>(together);
    r.require("altitude-greatest", h.altitude_greatest, Kind::altitude, {0, 6000});
    units::Amount derate;
    const bool by_maker = r.optional("derate-per-1000-ft", derate, Kind::percent, {0, 0.2});
    if (by_maker) h.derate_per_1000ft = derate.si;
    const bool starts = r.optional("derate-above", h.derate_above, Kind::altitude, {0, 6000});
    if (starts != by_maker)
        r.fail_at(starts ? "derate-above" : "derate-per-1000-ft", "half of the maker's altitude rule",
                  "both keys or neither");
    r.require("price", h.price, {0, 1e6});
    r.require("labour", h.labour, Kind::time, {0, 1e6});
}

}  // namespace

Result<void> read_heater(const Node& table, const SourceNames& names, Layer& into) {
    TableReader reader(table);
    Heater heater;
    reader.require("key", heater.key);
    reader.require("title", heater.title);
    heater.sources = take_sources(reader, names);
    take_fire(reader, heater);
    take_vent(reader, heater);
    take_water(reader, heater);
    take_body(reader, heater);
    take_limits(reader, heater);
    if (auto ok = reader.finish(); !ok) return ok;
    if (auto ok = judge(heater); !ok) return table.error(ok.error().what, ok.error().expected);
    into.heaters.push_back({std::move(heater), table.place()});
    return {};
}

}  // namespace bw::catalogue
