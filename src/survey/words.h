// SPDX-License-Identifier: MIT
#pragma once
// Identifiers that only the survey file uses, and which of the shared ones a field may hold.

#include <cassert>
#include <span>
#include <string_view>

#include "survey/survey.h"
#include "text/vocabulary.h"

namespace bw::survey {

/// Identifiers of an enumeration of survey.h, in its order.
template <class Enum>
[[nodiscard]] std::span<const std::string_view> own_words();
template <>
std::span<const std::string_view> own_words<WallBuild>();
template <>
std::span<const std::string_view> own_words<ArrangementPreference>();
template <>
std::span<const std::string_view> own_words<SparePolicy>();
template <>
std::span<const std::string_view> own_words<VentPreference>();
template <>
std::span<const std::string_view> own_words<MethodPreference>();

[[nodiscard]] std::span<const std::string_view> gas_pipe_words();
[[nodiscard]] std::span<const std::string_view> water_pipe_words();
[[nodiscard]] std::span<const std::string_view> vent_pipe_words();
[[nodiscard]] std::span<const std::string_view> occupancy_words();
[[nodiscard]] std::span<const std::string_view> document_words();  ///< codes that may be adopted
[[nodiscard]] std::span<const std::string_view> facing_words();    ///< "+x" to "down"

template <class Enum>
concept Own = std::is_same_v<Enum, WallBuild> || std::is_same_v<Enum, ArrangementPreference> ||
    std::is_same_v<Enum, SparePolicy> || std::is_same_v<Enum, VentPreference> || std::is_same_v<Enum, MethodPreference>;

/// The value of an identifier already known to be one of the field's words.
template <class Enum>
[[nodiscard]] Enum value_of(std::string_view word) {
    if constexpr (Own<Enum>) {
        const auto words = own_words<Enum>();
        const auto at = std::find(words.begin(), words.end(), word);
        assert(at != words.end());
        return static_cast<Enum>(at - words.begin());
    } else {
        auto value = text::named<Enum>(word);
        assert(value);
        return *value;
    }
}

/// "a, b or c"
[[nodiscard]] std::string listed(std::span<const std::string_view> words);

}  // namespace bw::survey
