// SPDX-License-Identifier: MIT
// Demand and capacity as JSON.
#include "design/json_plant.h"

namespace bw::design {

namespace {

using reason::Json;
using units::amount;
using units::Kind;
using units::System;

Json of(units::VolumeFlow flow, System system) { return reason::to_json(amount(flow), system); }
Json of(units::Volume volume, System system) { return reason::to_json(amount(volume), system); }
Json hourly(units::VolumeFlow flow, System system) { return reason::to_json(amount(flow, Kind::hourly_flow), system); }
Json plain(double number, System system) { return reason::to_json(units::number(number), system); }

Json method_json(const demand::Answer& a, System system) {
    Json method{{"id", a.id}, {"title", a.title}, {"governs", a.governs}, {"says", a.says}};
    if (a.peak) method["peak"] = of(*a.peak, system);
    if (a.possible_hour) method["possible"] = hourly(*a.possible_hour, system);
    if (a.probable_hour) method["probable"] = hourly(*a.probable_hour, system);
    if (a.storage) method["storage"] = of(*a.storage, system);
    if (a.max_day) method["max-day"] = of(*a.max_day, system);
    if (a.average_day) method["average-day"] = of(*a.average_day, system);
    method["derivation"] = reason::to_json(a.derivation, system);
    method["source"] = reason::to_json(a.sources);
    return method;
}

Json loads_json(const demand::Demand& d, System system) {
    Json list = Json::array();
    for (const auto& load : d.loads)
        list.push_back(Json{{"fixture", text::name(load.fixture)},
                            {"count", load.count},
                            {"busy", plain(load.busy, system)},
                            {"drawn", of(load.drawn, system)},
                            {"hot", of(load.hot, system)},
                            {"chance-from", load.why}});
    return list;
}

Json day_json(const demand::Day& day, System system) {
    Json json{{"largest-hour", of(day.largest_hour, system)},
              {"total", of(day.total, system)},
              {"busiest-hour", day.busiest},
              {"hours", Json::array()},
              {"says", day.says},
              {"derivation", reason::to_json(day.derivation, system)},
              {"source", reason::to_json(day.sources)}};
    for (const auto& volume : day.volume) json["hours"].push_back(of(volume, system));
    return json;
}

Json each_json(const demand::HeaterOutput& each, System system) {
    return Json{{"flow", of(each.flow, system)},
                {"input", reason::to_json(amount(each.input), system)},
                {"output", reason::to_json(amount(each.output), system)},
                {"limited-by-flow", each.limited_by_flow},
                {"flow-greatest", of(each.flow_greatest, system)},
                {"derivation", reason::to_json(each.derivation, system)},
                {"source", reason::to_json(each.sources)}};
}

Json options_json(const demand::Capacity& c, System system) {
    Json list = Json::array();
    for (const auto& o : c.options) {
        Json option{{"heater", o.heater}};
        if (o.refused.empty()) {
            option["installed"] = o.installed;
            option["price"] = reason::to_json(units::money(o.price), system);
        } else {
            option["refused"] = o.refused;
        }
        list.push_back(std::move(option));
    }
    return list;
}

Json risk_json(const demand::Capacity& c, System system) {
    Json list = Json::array();
    for (const auto& point : c.risk)
        list.push_back(Json{{"heaters", point.heaters},
                            {"flow", of(point.flow, system)},
                            {"short-chance", plain(point.short_chance, system)},
                            {"short-a-year", reason::to_json(amount(point.minutes_a_year * units::minute), system)},
                            {"coldest-likely-outlet", reason::to_json(amount(point.coldest), system)}});
    return list;
}

Json stores_json(const demand::Capacity& c, System system) {
    Json list = Json::array();
    for (const auto& store : c.stores)
        list.push_back(Json{{"heaters", store.heaters},
                            {"recovery", hourly(store.recovery, system)},
                            {"usable", of(store.usable, system)},
                            {"tank", of(store.tank, system)}});
    return list;
}

}  // namespace

Json demand_json(const demand::Demand& d, System system) {
    Json json{{"peak", of(d.peak, system)},
              {"fixtures", of(d.fixtures, system)},
              {"blocks", of(d.blocks, system)},
              {"recirculation-loss", reason::to_json(amount(d.recirculation_loss), system)},
              {"recirculation-flow", of(d.recirculation_flow, system)},
              {"cold", reason::to_json(amount(d.cold), system)},
              {"hot", reason::to_json(amount(d.hot), system)},
              {"governing", d.governing},
              {"percentile", reason::to_json(units::percent(d.percentile), system)},
              {"methods", Json::array()},
              {"loads", loads_json(d, system)},
              {"without-chance", d.without_chance},
              {"day", day_json(d.day, system)},
              {"derivation", reason::to_json(d.derivation, system)}};
    for (const auto& a : d.answers) json["methods"].push_back(method_json(a, system));
    return json;
}

Json capacity_json(const demand::Capacity& c, System system) {
    Json json{{"heater", c.heater},
              {"needed", c.needed},
              {"spare", c.spare},
              {"installed", c.installed},
              {"flow", of(c.flow, system)},
              {"flow-firm", of(c.flow_firm, system)},
              {"each", each_json(c.each, system)},
              {"says", c.says},
              {"options", options_json(c, system)},
              {"risk", risk_json(c, system)},
              {"stores", stores_json(c, system)},
              {"derivation", reason::to_json(c.derivation, system)}};
    if (c.mixed)
        json["mixed"] =
            Json{{"first", c.mixed->first},           {"of-first", c.mixed->of_first},
                 {"second", c.mixed->second},         {"of-second", c.mixed->of_second},
                 {"flow", of(c.mixed->flow, system)}, {"price", reason::to_json(units::money(c.mixed->price), system)}};
    return json;
}

}  // namespace bw::design
