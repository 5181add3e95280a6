// SPDX-License-Identifier: MIT
#include "reason/json.h"

#include <cmath>

namespace bw::reason {

double rounded(double value) {
    if (value == 0 || !std::isfinite(value)) return value;
    const double scale = std::pow(10.0, 9 - std::floor(std::log10(std::fabs(value))));
    if (!std::isfinite(scale) || scale == 0) return value;
    return std::round(value * scale) / scale;
}

Json to_json(const Amount& amount, units::System system) {
    const auto spelled = units::spell(amount, system);
    return Json{{"value", rounded(spelled.value)}, {"unit", spelled.unit}};
}

Json to_json(const Source& source) {
    return Json{{"document", source.document},
                {"edition", source.edition},
                {"clause", source.clause},
                {"standing", name(source.standing)}};
}

Json to_json(const Sources& sources) {
    Json list = Json::array();
    for (const auto& source : sources) list.push_back(to_json(source));
    return list;
}

namespace {

Json to_json(const Term& term, units::System system) {
    Json json{{"symbol", term.symbol}, {"meaning", term.meaning}};
    json.update(reason::to_json(term.amount, system));
    return json;
}

}  // namespace

Json to_json(const Derivation& derivation, units::System system) {
    Json steps = Json::array();
    for (const auto& step : derivation) {
        Json json{{"says", step.says}};
        if (!step.formula.empty()) json["formula"] = step.formula;
        if (!step.given.empty()) {
            json["given"] = Json::array();
            for (const auto& term : step.given) json["given"].push_back(to_json(term, system));
        }
        if (step.result) json["result"] = to_json(*step.result, system);
        steps.push_back(std::move(json));
    }
    return steps;
}

Json to_json(const Check& check, units::System system) {
    Json json{{"id", check.id}, {"title", check.title}, {"service", check.service}, {"status", name(check.status)}};
    if (check.value) json["value"] = to_json(*check.value, system);
    if (check.limit) {
        json["limit"] = to_json(*check.limit, system);
        json["sense"] = check.sense == Sense::at_most ? "at-most" : check.sense == Sense::at_least ? "at-least" : "yes";
    }
    if (check.margin) json["margin"] = rounded(*check.margin);
    json["says"] = check.says;
    json["derivation"] = to_json(check.derivation, system);
    json["source"] = to_json(check.sources);
    json["pieces"] = check.pieces;
    json["assumptions"] = check.assumptions;
    return json;
}

}  // namespace bw::reason
