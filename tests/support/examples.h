// SPDX-License-Identifier: MIT
#pragma once
// The examples, their plants each designed once, and what is asked of them.

#include <map>
#include <string>
#include <vector>

#include "design/design.h"

namespace bw::test {

inline const std::vector<const char*> example_names{"hostel", "wash-house", "sports-hall"};

[[nodiscard]] inline const catalogue::Catalogue& demo_catalogue() {
    static const auto loaded = catalogue::load().value();
    return loaded;
}
[[nodiscard]] inline survey::Survey example(const std::string& name) {
    return survey::read(std::string(BANKWRIGHT_SOURCE) + "/examples/" + name + ".toml").value();
}
[[nodiscard]] inline design::Result designed(const survey::Survey& survey) {
    return design::run(survey, demo_catalogue()).value();
}
[[nodiscard]] inline const design::Result& designed(const std::string& name) {
    static std::map<std::string, design::Result> known;
    if (auto at = known.find(name); at != known.end()) return at->second;
    return known.emplace(name, designed(example(name))).first->second;
}
/// nullptr where there is none of that id.
[[nodiscard]] inline const reason::Check* check_of(const design::Result& result, const std::string& id) {
    for (const auto& check : result.checks)
        if (check.id == id) return &check;
    return nullptr;
}
[[nodiscard]] inline const plant::Plant& plant_of(const std::string& example) {
    return designed(example).chosen->built.plant;
}

}  // namespace bw::test
