// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "serve/shown.h"
#include "serve/view_parts.h"

namespace bw::serve {
namespace {

using reason::Json;
using units::amount;
using units::System;

Json box_json(const shape::Box& box) {
    const auto near = [](double metres) { return std::round(metres * 1e4) / 1e4; };
    return Json::array(
        {near(box.min.x), near(box.min.y), near(box.min.z), near(box.max.x), near(box.max.y), near(box.max.z)});
}

std::string title_of(const catalogue::Catalogue& catalogue, const std::string& heater) {
    const auto* model = catalogue.heater(heater);
    return model != nullptr ? model->title : heater;
}

Json layout_json(const design::Result& result, const catalogue::Catalogue& catalogue, System system) {
    const auto& layout = result.chosen->layout;
    const auto& capacity = result.capacity;
    Json json{
        {"id", layout.id},
        {"heater", capacity.heater},
        {"title", title_of(catalogue, capacity.heater)},
        {"heaters", capacity.installed},
        {"needed", capacity.needed},
        {"spare", capacity.spare},
        {"arrangement", plant::name(layout.arrangement)},
        {"says", layout.says},
        {"floor-length", quantity(amount(layout.floor_length * units::metre), system)},
        {"floor-area", quantity(amount(layout.floor_area * units::square_metre, units::Kind::floor_area), system)},
        {"banks", Json::array()},
        {"working-space", Json::array()}};
    for (std::size_t i = 0; i < layout.banks.size(); ++i) {
        const auto& bank = layout.banks[i];
        Json row{{"number", bank.number}, {"wall", nullptr}, {"heaters", Json::array()}};
        if (bank.wall >= 0) row["wall"] = bank.wall;
        if (i < layout.envelopes.size()) row["box"] = box_json(layout.envelopes[i]);
        for (const auto& stand : bank.stands) row["heaters"].push_back(stand.number);
        json["banks"].push_back(std::move(row));
    }
    for (const auto& box : layout.working_space) json["working-space"].push_back(box_json(box));
    return json;
}

Json capacity_json(const demand::Capacity& c, const catalogue::Catalogue& catalogue, System system) {
    Json json{{"says", c.says},
              {"flow", quantity(amount(c.flow), system)},
              {"flow-firm", quantity(amount(c.flow_firm), system)},
              {"options", Json::array()}};
    for (const auto& option : c.options) {
        Json row{{"heater", option.heater}, {"title", title_of(catalogue, option.heater)}};
        if (option.refused.empty()) {
            row["installed"] = option.installed;
            row["price"] = quantity(units::money(option.price), system);
        } else {
            row["refused"] = option.refused;
        }
        json["options"].push_back(std::move(row));
    }
    return json;
}

Json method_json(const demand::Answer& a, System system) {
    Json row{{"id", a.id}, {"title", a.title}, {"governs", a.governs}, {"says", a.says}};
    if (a.peak) row["peak"] = quantity(amount(*a.peak), system);
    if (a.possible_hour) row["possible"] = quantity(amount(*a.possible_hour, units::Kind::hourly_flow), system);
    if (a.probable_hour) row["probable"] = quantity(amount(*a.probable_hour, units::Kind::hourly_flow), system);
    if (a.storage) row["storage"] = quantity(amount(*a.storage), system);
    if (a.max_day) row["max-day"] = quantity(amount(*a.max_day), system);
    return row;
}

Json demand_json(const design::Result& result, System system) {
    const auto& d = result.demand;
    Json json{{"peak", quantity(amount(d.peak), system)},
              {"fixtures", quantity(amount(d.fixtures), system)},
              {"blocks", quantity(amount(d.blocks), system)},
              {"cold", quantity(amount(d.cold), system)},
              {"hot", quantity(amount(d.hot), system)},
              {"governing", d.governing},
              {"methods", Json::array()}};
    for (const auto& a : d.answers) json["methods"].push_back(method_json(a, system));
    Json hours = Json::array();
    for (const auto& volume : d.day.volume)
        hours.push_back(reason::rounded(units::spell(amount(volume), system).value));
    json["day"] = Json{{"hours", std::move(hours)},
                       {"unit", units::spell(amount(d.day.total), system).unit},
                       {"busiest", d.day.busiest},
                       {"total", quantity(amount(d.day.total), system)},
                       {"says", d.day.says}};
    json["risk"] = Json::array();
    for (const auto& point : result.capacity.risk)
        json["risk"].push_back(Json{{"heaters", point.heaters},
                                    {"chance", reason::rounded(point.short_chance)},
                                    {"short-a-year", quantity(amount(point.minutes_a_year * units::minute), system)},
                                    {"flow", quantity(amount(point.flow), system)}});
    return json;
}

Json tally_json(const design::Tally& t) {
    return Json{{"pass", t.pass}, {"tight", t.tight}, {"fail", t.fail}, {"refer", t.refer}};
}

Json price_json(const make::Estimate& e, System system) {
    return Json{{"parts", quantity(units::money(e.parts), system)},
                {"labour", quantity(units::money(e.labour), system)},
                {"markup", quantity(units::money(e.markup), system)},
                {"total", quantity(units::money(e.total), system)},
                {"hours", reason::rounded(e.hours)},
                {"mass-dry", quantity(amount(e.mass_dry * units::kilogram), system)},
                {"mass-full", quantity(amount(e.mass_full * units::kilogram), system)}};
}

Json candidates_json(const design::Result& result, System system) {
    Json list = Json::array();
    for (const auto& c : result.candidates) {
        Json row{{"layout", c.layout},
                 {"heater", c.heater},
                 {"heaters", c.heaters},
                 {"floor-length", quantity(amount(c.floor_length * units::metre), system)},
                 {"chosen", c.chosen}};
        if (c.refused.empty()) {
            row["parts"] = quantity(units::money(c.parts_cost), system);
            row["total"] = quantity(units::money(c.total_cost), system);
            row["tally"] = tally_json(c.tally);
            row["undominated"] = c.undominated;
        } else {
            row["refused"] = c.refused;
        }
        list.push_back(std::move(row));
    }
    return list;
}

Json shortfalls_json(const design::Result& result, System system) {
    Json list = Json::array();
    for (const auto& s : result.shortfalls)
        list.push_back(Json{{"arrangement", s.arrangement},
                            {"what", s.what},
                            {"need", quantity(amount(s.need * units::metre), system)},
                            {"have", quantity(amount(s.have * units::metre), system)},
                            {"remedy", s.remedy}});
    return list;
}

}  // namespace

Json quantity(const units::Amount& value, System system) {
    auto json = reason::to_json(value, system);
    json["text"] = units::print(value, system);
    return json;
}

View parts_of(const Shown& shown, const catalogue::Catalogue& catalogue, System system) {
    const auto& result = shown.result;
    View out{shown.revision, shown.settled, {}, checks_parts(result, system)};
    const auto add = [&](std::string key, std::string text) { out.parts.push_back({std::move(key), std::move(text)}); };
    add("units", system == System::si ? R"("si")" : R"("us")");
    add("layout", result.chosen ? one_line(layout_json(result, catalogue, system)) : "null");
    add("shortfalls", one_line(shortfalls_json(result, system)));
    add("capacity", one_line(capacity_json(result.capacity, catalogue, system)));
    add("demand", one_line(demand_json(result, system)));
    add("tally", one_line(tally_json(design::tally(result.checks))));
    if (result.chosen) add("price", one_line(price_json(result.chosen->estimate, system)));
    if (shown.settled) add("candidates", one_line(candidates_json(result, system)));
    add("pieces", pieces_text(shown, catalogue, system));
    add("whys", whys_text(result));
    add("states", states_text(shown, system));
    add("geometry", geometry_text(result));
    add("room", room_text(result.survey.room));
    return out;
}

std::string wider(const Shown& shown, System system) {
    Writer out;
    out.open('{');
    out.key("revision").whole(shown.revision);
    out.key("settled").flag(shown.settled);
    out.key("candidates").json(candidates_json(shown.result, system));
    out.key("shortfalls").json(shortfalls_json(shown.result, system));
    return out.close('}').take();
}

}  // namespace bw::serve
