// SPDX-License-Identifier: MIT
#include <string>

#include "serve/remedies.h"
#include "serve/view_parts.h"

namespace bw::serve {
namespace {

using reason::Json;

std::string_view name(reason::Sense sense) {
    switch (sense) {
        case reason::Sense::at_most: return "at-most";
        case reason::Sense::at_least: return "at-least";
        case reason::Sense::yes: break;
    }
    return "yes";
}

/// A step of working with every quantity also as on paper.
Json derivation_json(const reason::Derivation& derivation, units::System system) {
    auto steps = reason::to_json(derivation, system);
    for (std::size_t i = 0; i < derivation.size(); ++i) {
        auto& step = steps[i];
        for (std::size_t k = 0; k < derivation[i].given.size() && step.contains("given"); ++k)
            step["given"][k]["text"] = units::print(derivation[i].given[k].amount, system);
        if (derivation[i].result && step.contains("result"))
            step["result"]["text"] = units::print(derivation[i].result->amount, system);
    }
    return steps;
}

Json sources_json(const reason::Sources& sources) {
    auto list = reason::to_json(sources);
    for (std::size_t i = 0; i < sources.size(); ++i) list[i]["says"] = reason::print(sources[i]);
    return list;
}

Json assumptions_json(const survey::Survey& survey, const std::vector<std::string>& fields) {
    Json list = Json::array();
    for (const auto& a : survey.assumed) {
        const bool rests = std::any_of(fields.begin(), fields.end(), [&](const std::string& field) {
            return a.field.starts_with(field) && (a.field.size() == field.size() || a.field[field.size()] == '.');
        });
        if (rests) list.push_back(Json{{"field", a.field}, {"value", a.value}, {"why", a.why}, {"safety", a.safety}});
    }
    return list;
}

}  // namespace

std::vector<ViewPart> checks_parts(const design::Result& result, units::System system) {
    std::vector<ViewPart> parts;
    parts.reserve(result.checks.size());
    for (const auto& check : result.checks) {
        Writer out;
        out.open('{');
        out.key("id").text(check.id).key("title").text(check.title).key("service").text(check.service);
        out.key("status").text(reason::name(check.status));
        if (check.value) out.key("value").text(units::print(*check.value, system));
        if (check.limit) out.key("limit").text(units::print(*check.limit, system));
        if (check.sense != reason::Sense::yes) out.key("sense").text(name(check.sense));
        if (check.margin) out.key("margin").number(std::round(*check.margin * 1e4) / 1e4);
        out.key("says").text(check.says);
        out.key("pieces").open('[');
        for (const auto& id : check.pieces)
            if (const int at = result.chosen ? result.chosen->built.plant.find(id) : -1; at >= 0) out.whole(at);
        out.close(']');
        if (!check.assumptions.empty()) out.key("assumed").flag(true);
        if (const auto known = remedies(check, result.survey).size(); known > 0)
            out.key("remedies").whole(static_cast<std::int64_t>(known));
        parts.push_back({check.id, out.close('}').take()});
    }
    return parts;
}

Json check_whole(const Shown& shown, const std::string& id, units::System system) {
    for (const auto& check : shown.result.checks) {
        if (check.id != id) continue;
        Json json{{"id", check.id},
                  {"title", check.title},
                  {"service", check.service},
                  {"status", reason::name(check.status)},
                  {"sense", name(check.sense)}};
        if (check.value) json["value"] = quantity(*check.value, system);
        if (check.limit) json["limit"] = quantity(*check.limit, system);
        if (check.margin) json["margin"] = reason::rounded(*check.margin);
        json["says"] = check.says;
        json["derivation"] = derivation_json(check.derivation, system);
        json["source"] = sources_json(check.sources);
        json["assumptions"] = assumptions_json(shown.result.survey, check.assumptions);
        json["pieces"] = check.pieces;
        json["remedies"] = Json::array();
        for (const auto& remedy : remedies(check, shown.result.survey)) {
            Json edits = Json::array();
            for (const auto& edit : remedy.edits) edits.push_back(jobs::to_json(edit));
            json["remedies"].push_back(Json{{"says", remedy.says}, {"edits", std::move(edits)}});
        }
        return json;
    }
    return nullptr;
}

}  // namespace bw::serve
