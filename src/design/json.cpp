// SPDX-License-Identifier: MIT
#include "design/json_plant.h"

namespace bw::design {

namespace {

using reason::Json;
using units::amount;
using units::System;

Json survey_json(const survey::Survey& s, System system) {
    Json json{{"job", s.job}, {"prepared-by", s.prepared_by}, {"revision", s.revision}, {"date", s.date}};
    json["gas"] = Json{
        {"kind", text::name(*s.gas.kind)},
        {"heating-value", reason::to_json(amount(*s.gas.heating_value, units::Kind::heating_value), system)},
        {"specific-gravity", *s.gas.specific_gravity},
        {"delivery-pressure", reason::to_json(amount(*s.gas.delivery_pressure, units::Kind::gas_pressure), system)}};
    json["supply"] = Json{{"pressure", reason::to_json(amount(*s.supply.pressure), system)},
                          {"coldest", reason::to_json(amount(*s.supply.coldest), system)}};
    json["altitude"] = reason::to_json(amount(*s.altitude, units::Kind::altitude), system);
    json["distribution"] = reason::to_json(amount(*s.temperatures.distribution), system);
    json["room"] = Json{{"plan", Json::array()}, {"ceiling", reason::to_json(amount(*s.room.ceiling), system)}};
    if (s.room.slope)
        json["room"]["ceiling-slope"] = {{"wall", s.room.walls[static_cast<std::size_t>(s.room.slope->wall)].number},
                                         {"low", reason::to_json(amount(s.room.slope->low), system)}};
    for (const auto& p : s.room.plan)
        json["room"]["plan"].push_back(Json::array({reason::rounded(p.x), reason::rounded(p.y)}));
    json["codes"] = Json::array();
    for (const auto& code : s.codes)
        json["codes"].push_back(
            Json{{"document", code.document}, {"edition", code.edition}, {"amendments", code.amendments}});
    return json;
}

Json assumed_json(const survey::Survey& s) {
    Json list = Json::array();
    for (const auto& a : s.assumed)
        list.push_back(Json{{"field", a.field}, {"taken-as", a.value}, {"why", a.why}, {"safety", a.safety}});
    return list;
}

Json estimate_json(const make::Estimate& e, System system) {
    return Json{{"parts", reason::to_json(units::money(e.parts), system)},
                {"hours", reason::rounded(e.hours)},
                {"labour", reason::to_json(units::money(e.labour), system)},
                {"markup", reason::to_json(units::money(e.markup), system)},
                {"total", reason::to_json(units::money(e.total), system)},
                {"mass-dry", reason::to_json(amount(e.mass_dry * units::kilogram), system)},
                {"mass-full", reason::to_json(amount(e.mass_full * units::kilogram), system)}};
}

Json shortfalls_json(const std::vector<plant::Shortfall>& shortfalls, System system) {
    Json list = Json::array();
    for (const auto& s : shortfalls)
        list.push_back(Json{{"arrangement", s.arrangement},
                            {"what", s.what},
                            {"need", reason::to_json(amount(s.need * units::metre), system)},
                            {"have", reason::to_json(amount(s.have * units::metre), system)},
                            {"remedy", s.remedy}});
    return list;
}

Json tally_json(const Tally& t) {
    return Json{{"pass", t.pass}, {"tight", t.tight}, {"fail", t.fail}, {"refer", t.refer}};
}

Json candidates_json(const std::vector<Candidate>& candidates, System system) {
    Json list = Json::array();
    for (const auto& c : candidates) {
        Json json{{"layout", c.layout},
                  {"heater", c.heater},
                  {"heaters", c.heaters},
                  {"floor-length", reason::to_json(amount(c.floor_length * units::metre), system)},
                  {"floor-area",
                   reason::to_json(amount(c.floor_area * units::square_metre, units::Kind::floor_area), system)}};
        if (c.refused.empty()) {
            json["parts-cost"] = reason::to_json(units::money(c.parts_cost), system);
            json["total-cost"] = reason::to_json(units::money(c.total_cost), system);
            json["run"] = reason::to_json(amount(c.run * units::metre), system);
            if (c.shortfall) json["shortfall"] = reason::to_json(units::percent(*c.shortfall), system);
            json["checks"] = tally_json(c.tally);
            json["undominated"] = c.undominated;
        } else {
            json["refused"] = c.refused;
        }
        json["chosen"] = c.chosen;
        list.push_back(std::move(json));
    }
    return list;
}

}  // namespace

std::string to_json(const Result& result, System system) {
    Json json{{"format", result_format},
              {"survey", survey_json(result.survey, system)},
              {"assumed", assumed_json(result.survey)},
              {"demand", demand_json(result.demand, system)},
              {"capacity", capacity_json(result.capacity, system)},
              {"shortfalls", shortfalls_json(result.shortfalls, system)},
              {"weighed", result.weighed},
              {"candidates", candidates_json(result.candidates, system)}};
    if (result.chosen) {
        const auto& chosen = *result.chosen;
        json["layout"] = layout_json(chosen.layout, system);
        json["sizes"] = sizes_json(chosen.built.sizes, system);
        json["economy"] = economy_json(chosen.built.economy, system);
        json["pieces"] = pieces_json(chosen.built.plant, system);
        json["joints"] = joints_json(chosen.built.plant);
    } else {
        json["layout"] = nullptr;
        json["pieces"] = Json::array();
        json["joints"] = Json::array();
    }
    json["tally"] = tally_json(tally(result.checks));
    json["checks"] = Json::array();
    for (const auto& check : result.checks) json["checks"].push_back(reason::to_json(check, system));
    json["parts"] = result.chosen ? parts_json(result.chosen->estimate, system) : Json::array();
    if (result.chosen) json["estimate"] = estimate_json(result.chosen->estimate, system);
    return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string compare_json(const Result& result, System system) {
    Json json{{"format", compare_format},
              {"job", result.survey.job},
              {"weighed", result.weighed},
              {"candidates", candidates_json(result.candidates, system)},
              {"shortfalls", shortfalls_json(result.shortfalls, system)}};
    return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace bw::design
