// SPDX-License-Identifier: MIT
#pragma once
// Calls a topic as a user would type it.

#include <gtest/gtest.h>

#include <initializer_list>

#include "reckon/reckon.h"

namespace bw::reckon {

inline const catalogue::Catalogue& demo() {
    static const auto loaded = catalogue::load();
    if (!loaded) throw std::runtime_error(describe(loaded.error()));
    return *loaded;
}

inline Result<Answer> ask(std::string_view topic, std::initializer_list<std::string_view> arguments) {
    std::vector<std::pair<std::string, std::string>> given;
    for (const auto argument : arguments) {
        auto pair = split_argument(argument);
        if (!pair) return tl::unexpected(pair.error());
        given.push_back(*pair);
    }
    return reckon(topic, given, demo());
}

/// The JSON a user gets, or a thrown message.
inline nlohmann::ordered_json json_of(std::string_view topic, std::initializer_list<std::string_view> arguments) {
    const auto answer = ask(topic, arguments);
    if (!answer) throw std::runtime_error(describe(answer.error()));
    return to_json(*answer, units::System::us);
}

inline double value_of(const nlohmann::ordered_json& json, const char* name) {
    return json.at("result").at(name).at("value").get<double>();
}

inline std::string refusal(std::string_view topic, std::initializer_list<std::string_view> arguments) {
    const auto answer = ask(topic, arguments);
    return answer ? "" : describe(answer.error());
}

}  // namespace bw::reckon
