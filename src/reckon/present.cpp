// SPDX-License-Identifier: MIT
// An answer for people and for programs.
#include <fmt/format.h>

#include <algorithm>

#include "reason/json.h"
#include "reckon/inputs.h"
#include "reckon/reckon.h"

namespace bw::reckon {

namespace {

std::string shown(const Value& value, units::System system) {
    if (const auto* amount = std::get_if<Amount>(&value)) return units::print(*amount, system);
    if (const auto* flag = std::get_if<bool>(&value)) return *flag ? "yes" : "no";
    return std::get<std::string>(value);
}

nlohmann::ordered_json json_of(const std::vector<Named>& list, units::System system) {
    nlohmann::ordered_json json = nlohmann::ordered_json::object();
    for (const auto& named : list) {
        if (const auto* amount = std::get_if<Amount>(&named.value))
            json[named.name] = reason::to_json(*amount, system);
        else if (const auto* flag = std::get_if<bool>(&named.value))
            json[named.name] = *flag;
        else
            json[named.name] = std::get<std::string>(named.value);
    }
    return json;
}

std::string lines_of(const std::vector<Named>& list, units::System system) {
    std::size_t name_width = 0, value_width = 0;
    for (const auto& named : list) {
        name_width = std::max(name_width, named.name.size());
        value_width = std::max(value_width, shown(named.value, system).size());
    }
    std::string out;
    for (const auto& named : list) {
        std::string line = fmt::format("  {:<{}}  {:<{}}  {}", named.name, name_width, shown(named.value, system),
                                       value_width, named.says);
        line.erase(line.find_last_not_of(' ') + 1);
        out += line + '\n';
    }
    return out;
}

std::string term_line(const reason::Term& term, units::System system) {
    return fmt::format("     {} = {}  ({})\n", term.symbol, units::print(term.amount, system), term.meaning);
}

}  // namespace

std::string print(const Answer& answer, units::System system) {
    std::string out =
        answer.topic + "\n\nGiven\n" + lines_of(answer.given, system) + "\nResult\n" + lines_of(answer.result, system);
    if (!answer.derivation.empty()) out += "\nWorking\n";
    int number = 1;
    for (const auto& step : answer.derivation) {
        out += fmt::format("  {}. {}\n", number++, step.says);
        if (!step.formula.empty()) out += fmt::format("     {}\n", step.formula);
        for (const auto& term : step.given) out += term_line(term, system);
        if (step.result) out += term_line(*step.result, system);
    }
    if (!answer.sources.empty()) out += "\nSources\n";
    for (const auto& source : answer.sources) out += fmt::format("  {}\n", reason::print(source));
    return out;
}

nlohmann::ordered_json to_json(const Answer& answer, units::System system) {
    return {{"topic", answer.topic},
            {"given", json_of(answer.given, system)},
            {"result", json_of(answer.result, system)},
            {"derivation", reason::to_json(answer.derivation, system)},
            {"source", reason::to_json(answer.sources)}};
}

std::string help(const Topic& topic) {
    std::string out = fmt::format("{}: {}\n", topic.name, topic.says);
    for (const auto& name : topic.names) {
        const std::string optional = name.required           ? ""
                                     : name.fallback.empty() ? " [optional]"
                                                             : fmt::format(" [optional; {}]", name.fallback);
        out += fmt::format("  {:<18}{}: {}{}\n", name.name, name.says, choices_of(name), optional);
    }
    return out;
}

}  // namespace bw::reckon
