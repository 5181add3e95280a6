// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "survey/fields.h"
#include "survey/points.h"
#include "survey/survey.h"
#include "survey/words.h"
#include "units/parse.h"
#include "units/unit_table.h"

namespace bw::survey {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view number_pattern = "[-+]?[0-9][0-9 ./-]*";

/// Plain spellings of a kind's units; the reader takes a few more ways of writing them.
std::string quantity_pattern(units::Kind kind) {
    std::string list;
    for (const auto& unit : units::table_of(kind).read) list += (list.empty() ? "" : "|") + std::string(unit.spelling);
    if (kind == units::Kind::length || kind == units::Kind::altitude)
        return fmt::format("^{0} *(ft|feet|foot|')( *-? *{0} *(in|inch|inches|\"))?$|^{0} *({1})$", number_pattern,
                           list);
    return fmt::format("^{} *({})$", number_pattern, list);
}

Json quantity(units::Kind kind) { return {{"type", "string"}, {"pattern", quantity_pattern(kind)}}; }

Json lengths(int count) {
    return {{"type", "array"}, {"items", quantity(units::Kind::length)}, {"minItems", count}, {"maxItems", count}};
}

Json written_default(const Field& field) {
    switch (field.form) {
        case Form::flag: return field.fallback == "true";
        case Form::whole:
        case Form::number: return units::parse(field.fallback, units::Kind::number)->si;
        default: return field.fallback;
    }
}

Json form_of(const Field& field) {
    const auto limits = range(field);
    switch (field.form) {
        case Form::flag: return {{"type", "boolean"}};
        case Form::whole:
            return {{"type", "integer"},
                    {"minimum", static_cast<int>(limits.least)},
                    {"maximum", static_cast<int>(limits.greatest)}};
        case Form::number: return {{"type", "number"}, {"minimum", limits.least}, {"maximum", limits.greatest}};
        case Form::quantity: return quantity(field.kind);
        case Form::word:
            return {{"type", "string"},
                    {"enum", std::vector<std::string_view>(field.words.begin(), field.words.end())}};
        case Form::size: return {{"type", "string"}, {"pattern", "^[0-9]+(-[0-9]+/[0-9]+|/[0-9]+)?( in)?$"}};
        case Form::place: return lengths(3);
        case Form::text: break;
    }
    Json text{{"type", "string"}, {"maxLength", 400}};
    if (field.required) text["minLength"] = 1;
    return text;
}

std::string description(const Field& field) {
    std::string out(field.says);
    if (field.form == Form::quantity && !field.least.empty())
        out += fmt::format(" From {} to {}.", field.least, field.greatest);
    if (field.safety) out += " Bears on safety: where it is left out, checks that rest on it refer.";
    return out;
}

Json plain(const Field& field) {
    auto json = form_of(field);
    json["description"] = description(field);
    if (!field.fallback.empty()) json["default"] = written_default(field);
    return json;
}

/// The name under `parent` when `path` lies directly under it, else empty.
std::string_view child_name(std::string_view path, std::string_view parent) {
    if (!parent.empty()) {
        if (!path.starts_with(parent) || path.size() <= parent.size() || path[parent.size()] != '.') return {};
        path.remove_prefix(parent.size() + 1);
    }
    return path.find('.') == std::string_view::npos ? path : std::string_view{};
}

Json fixtures() {
    Json json{
        {"type", "object"}, {"description", "How many of each that take hot water."}, {"additionalProperties", false}};
    for (const auto name : text::names<Fixture>())
        json["properties"][std::string(name)] = {{"type", "integer"}, {"minimum", 0}, {"maximum", 200000}};
    return json;
}

Json busy() {
    Json json{{"type", "object"},
              {"description", "Share of the busiest hour one of them runs, where it was measured or judged."},
              {"additionalProperties", false}};
    for (const auto name : text::names<Fixture>())
        json["properties"][std::string(name)] = quantity(units::Kind::percent);
    return json;
}

Json plan() {
    return {{"type", "array"},
            {"description", "Corners, going round the room once; sides of 1 in to 300 ft."},
            {"items", lengths(2)},
            {"minItems", 3},
            {"maxItems", 64}};
}

Json prices() {
    return {{"type", "object"},
            {"description", "Catalogue key and your own price; pipe by the length."},
            {"additionalProperties", {{"type", "string"}, {"pattern", "^([$] *[0-9.]+|[0-9.]+ *(USD)?) *(/ft|/m)?$"}}}};
}

Json table(std::string_view path);  // tables stand in tables

/// What a table holds beside plain fields and tables of the usual kind.
void add_special(std::string_view path, Json& properties, Json& required) {
    if (path == "building") {
        properties["fixtures"] = fixtures();
        properties["busy"] = busy();
    }
    if (path == "preferences") properties["prices"] = prices();
    if (path == "room") {
        properties["plan"] = plan();
        required.push_back("plan");
    }
}

Json connections() {
    Json json{{"type", "object"}, {"additionalProperties", false}};
    for (const auto& point : points()) json["properties"][std::string(point.key)] = {{"$ref", "#/$defs/connection"}};
    return json;
}

Json table(std::string_view path) {
    Json properties = Json::object(), required = Json::array();
    for (const auto& field : fields()) {
        const auto name = child_name(field.path, path);
        if (name.empty()) continue;
        properties[std::string(name)] = plain(field);
        if (field.required) required.push_back(name);
    }
    add_special(path, properties, required);
    for (const auto& section : sections()) {
        const auto name = child_name(section.path, path);
        if (name.empty()) continue;
        auto inner = section.path == "connections" ? connections() : table(section.path);
        if (section.shape == Shape::list) {
            inner = {{"type", "array"}, {"items", inner}, {"maxItems", 1000}};
            if (section.required) inner["minItems"] = 1;
        }
        inner["description"] = section.says;
        properties[std::string(name)] = std::move(inner);
        if (section.required) required.push_back(name);
    }
    Json json{{"type", "object"}, {"additionalProperties", false}, {"properties", std::move(properties)}};
    if (!required.empty()) json["required"] = std::move(required);
    return json;
}

}  // namespace

std::string schema() {
    Json json{{"$schema", "https://json-schema.org/draft/2020-12/schema"},
              {"title", "Bankwright survey"},
              {"description", "What is given about a hot-water job. Quantities are text with their unit."}};
    json.update(table(""));
    json["$defs"]["connection"] = table("connections");
    return json.dump(2) + "\n";
}

}  // namespace bw::survey
