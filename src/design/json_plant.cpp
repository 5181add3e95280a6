// SPDX-License-Identifier: MIT
#include "design/json_plant.h"

#include <type_traits>
#include <variant>

namespace bw::design {

namespace {

using reason::Json;
using reason::rounded;
using units::amount;
using units::System;

/// Coordinates to the hundredth of a millimetre.
double place(double metres) {
    const double r = std::round(metres * 1e5) / 1e5;
    return r == 0 ? 0 : r;
}
Json point(shape::Vec v) { return Json::array({place(v.x), place(v.y), place(v.z)}); }

Json box_json(const shape::Box& box) { return Json{{"min", point(box.min)}, {"max", point(box.max)}}; }

Json solid_json(const shape::Solid& solid) {
    return std::visit(
        [](const auto& s) {
            if constexpr (std::is_same_v<std::decay_t<decltype(s)>, shape::Box>)
                return Json{{"kind", "box"}, {"min", point(s.min)}, {"max", point(s.max)}};
            else
                return Json{{"kind", "cylinder"}, {"a", point(s.a)}, {"b", point(s.b)}, {"radius", place(s.radius)}};
        },
        solid);
}

Json port_json(const plant::Port& port) {
    Json json{{"name", port.name},
              {"at", point(port.at)},
              {"facing", point(port.facing)},
              {"service", text::name(port.service)}};
    if (port.size.eighths > 0) json["size"] = units::print(port.size);
    return json;
}

Json piece_json(const plant::Piece& piece, System system) {
    Json json{{"id", piece.id},
              {"part", text::name(piece.part)},
              {"service", text::name(piece.service)},
              {"item", piece.item}};
    if (piece.size.eighths > 0) json["size"] = units::print(piece.size);
    if (piece.cut > 0) json["cut"] = reason::to_json(amount(piece.cut * units::metre), system);
    if (piece.bore > 0)
        json["bore"] = reason::to_json(amount(piece.bore * units::metre, units::Kind::small_length), system);
    json["mass"] = reason::to_json(amount(piece.mass_dry * units::kilogram), system);
    json["water"] = reason::to_json(amount(piece.water * units::cubic_metre), system);
    if (piece.heater > 0) json["heater"] = piece.heater;
    if (piece.bank > 0) json["bank"] = piece.bank;
    json["ports"] = Json::array();
    for (const auto& port : piece.ports) json["ports"].push_back(port_json(port));
    json["solids"] = Json::array();
    for (const auto& solid : piece.solids) json["solids"].push_back(solid_json(solid));
    return json;
}

}  // namespace

Json layout_json(const plant::Layout& layout, System system) {
    Json json{{"id", layout.id},
              {"arrangement", plant::name(layout.arrangement)},
              {"says", layout.in_words(system)},
              {"floor-length", reason::to_json(amount(layout.floor_length * units::metre), system)},
              {"floor-area",
               reason::to_json(amount(layout.floor_area * units::square_metre, units::Kind::floor_area), system)},
              {"banks", Json::array()},
              {"working-space", Json::array()}};
    for (const auto& bank : layout.banks) {
        Json stands = Json::array();
        for (const auto& stand : bank.stands)
            stands.push_back(Json{{"heater", stand.number}, {"side", stand.side}, {"u", place(stand.u)}});
        json["banks"].push_back(Json{{"number", bank.number},
                                     {"origin", point(bank.place.origin)},
                                     {"quarter-turns", bank.place.quarter_turns},
                                     {"mirrored", bank.mirrored},
                                     {"length", reason::to_json(amount(bank.length * units::metre), system)},
                                     {"bottom", reason::to_json(amount(bank.bottom * units::metre), system)},
                                     {"stands", std::move(stands)}});
    }
    for (const auto& box : layout.working_space) json["working-space"].push_back(box_json(box));
    return json;
}

Json pieces_json(const plant::Plant& plant, System system) {
    Json list = Json::array();
    for (const auto& piece : plant.pieces) list.push_back(piece_json(piece, system));
    return list;
}

Json joints_json(const plant::Plant& plant) {
    Json list = Json::array();
    auto end = [&](plant::PortRef r) {
        return Json{{"piece", plant.pieces[static_cast<std::size_t>(r.piece)].id}, {"port", plant.at(r).name}};
    };
    for (const auto& joint : plant.joints)
        list.push_back(Json{{"a", end(joint.a)}, {"b", end(joint.b)}, {"kind", plant::name(joint.kind)}});
    return list;
}

Json sizes_json(const std::vector<piping::Sizing>& sizes, System system) {
    Json list = Json::array();
    for (const auto& size : sizes)
        list.push_back(Json{{"what", size.what},
                            {"service", text::name(size.service)},
                            {"material", text::name(size.material)},
                            {"size", units::print(size.size)},
                            {"derivation", reason::to_json(size.derivation, system)},
                            {"source", reason::to_json(size.sources)}});
    return list;
}

Json economy_json(const piping::Economy& economy, System system) {
    const auto dollars = [&](double amount) { return reason::to_json(units::money(amount), system); };
    Json lines = Json::array();
    for (const auto& line : economy.lines)
        lines.push_back(Json{{"what", line.what},
                             {"service", text::name(line.service)},
                             {"handbook", units::print(line.handbook)},
                             {"laid", units::print(line.chosen)},
                             {"handbook-cost", dollars(line.handbook_cost)},
                             {"cost", dollars(line.cost)}});
    return {{"lines", std::move(lines)},
            {"handbook-cost", dollars(economy.handbook_cost)},
            {"cost", dollars(economy.cost)},
            {"proved-least", economy.proved}};
}

Json parts_json(const make::Estimate& estimate, System system) {
    Json list = Json::array();
    for (const auto& line : estimate.lines) {
        Json json{{"item", line.item}, {"title", line.title},     {"material", line.material},
                  {"size", line.size}, {"service", line.service}, {"count", line.count}};
        if (line.length > 0)
            json["length"] = reason::to_json(amount(line.length * units::metre, units::Kind::long_length), system);
        json["price"] = reason::to_json(units::money(line.price), system);
        json["labour"] = reason::to_json(amount(line.minutes * units::minute), system);
        json["mass"] = reason::to_json(amount(line.mass * units::kilogram), system);
        json["source"] = line.source;
        list.push_back(std::move(json));
    }
    return list;
}

}  // namespace bw::design
