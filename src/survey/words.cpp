// SPDX-License-Identifier: MIT
#include "survey/words.h"

#include <array>
#include <vector>

#include "reason/document.h"

namespace bw::survey {
namespace {

using Word = std::string_view;
constexpr std::array<Word, 5> builds{"concrete", "masonry", "wood-stud", "steel-stud", "glass"};
constexpr std::array<Word, 4> arrangements{"any", "wall", "rack-one-sided", "rack-two-sided"};
constexpr std::array<Word, 4> spares{"none", "one", "share", "share-one-down"};
constexpr std::array<Word, 4> methods{"automatic", "fixture-units", "fixture-units-nspc", "fixture-probability"};
constexpr std::array<Word, 3> vents{"any", "single", "common"};
constexpr std::array<Word, 6> gas_pipes{"steel-40", "steel-80", "stainless-10s", "copper-k", "copper-l", "csst"};
constexpr std::array<Word, 5> water_pipes{"copper-k", "copper-l", "copper-m", "stainless-10s", "cpvc"};
constexpr std::array<Word, 3> vent_pipes{"vent-polypropylene", "vent-cpvc", "vent-pvc"};
constexpr std::array<Word, 16> occupancies{
    "dormitory-men", "dormitory-women", "motel-20",          "motel-60",        "motel-100",    "nursing-home",
    "office",        "restaurant-full", "restaurant-quick",  "apartment-20",    "apartment-50", "apartment-75",
    "apartment-100", "apartment-200",   "school-elementary", "school-secondary"};
constexpr std::array<Word, 6> facings{"+x", "-x", "+y", "-y", "up", "down"};

}  // namespace

template <>
std::span<const Word> own_words<WallBuild>() {
    return builds;
}
template <>
std::span<const Word> own_words<ArrangementPreference>() {
    return arrangements;
}
template <>
std::span<const Word> own_words<SparePolicy>() {
    return spares;
}
template <>
std::span<const Word> own_words<VentPreference>() {
    return vents;
}
template <>
std::span<const Word> own_words<MethodPreference>() {
    return methods;
}

std::span<const Word> gas_pipe_words() { return gas_pipes; }
std::span<const Word> water_pipe_words() { return water_pipes; }
std::span<const Word> vent_pipe_words() { return vent_pipes; }
std::span<const Word> occupancy_words() { return occupancies; }
std::span<const Word> document_words() {
    static const std::vector<Word> adoptable = [] {
        std::vector<Word> words;
        for (const auto& row : reason::documents()) {
            if (row.body_of_law.empty()) continue;
            words.emplace_back(row.spelled);
            if (!row.also.empty()) words.emplace_back(row.also);
        }
        return words;
    }();
    return adoptable;
}
std::span<const Word> facing_words() { return facings; }

std::string listed(std::span<const Word> words) {
    std::string out;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) out += i + 1 == words.size() ? " or " : ", ";
        out += words[i];
    }
    return out;
}

std::string_view name(WallBuild build) { return builds[static_cast<std::size_t>(build)]; }

}  // namespace bw::survey
