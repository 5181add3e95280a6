// SPDX-License-Identifier: MIT
#pragma once
// Single calculations by name: `reckon TOPIC name=value …`. Thin over the rooms above; one file a topic.

#include <nlohmann/json.hpp>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "catalogue/catalogue.h"
#include "reason/reason.h"
#include "units/amount.h"
#include "units/error.h"

namespace bw::reckon {

using units::Amount;

/// A quantity, a size or identifier, or a yes/no.
using Value = std::variant<Amount, std::string, bool>;

struct Named {
    std::string name;  ///< "table-capacity"
    Value value;
    std::string says;  ///< what it is, for people
};

struct Answer {
    std::string topic;
    std::vector<Named> given;  ///< as understood, defaults taken among them
    std::vector<Named> result;
    reason::Derivation derivation;
    reason::Sources sources;
};

enum class Form {
    quantity,  ///< a number with its unit, of the name's kind
    count,     ///< a whole number, none or more
    size,      ///< a nominal pipe size
    word,      ///< one of the choices
    text,      ///< an identifier looked up by the topic (a catalogue key)
};

/// One name a topic takes.
struct Name {
    std::string_view name;
    std::string_view says;
    Form form = Form::quantity;
    units::Kind kind = units::Kind::number;
    bool required = true;
    std::string_view fallback = {};              ///< taken where nothing is given; empty: nothing is taken
    std::vector<std::string_view> choices = {};  ///< of a word
    bool positive = true;                        ///< quantities at or below zero are refused
};

struct Topic {
    std::string_view name;
    std::string_view says;
    std::vector<Name> names;
};

/// All topics, in the order they are listed to people.
[[nodiscard]] std::span<const Topic> topics();

/// One calculation. `given` are names and values as typed. Fails, naming the choices, on an unknown topic, an unknown,
/// repeated or missing name, a value of the wrong unit, and a value out of the method's range.
[[nodiscard]] Result<Answer> reckon(std::string_view topic,
                                    const std::vector<std::pair<std::string, std::string>>& given,
                                    const catalogue::Catalogue& catalogue);

/// Splits "name=value". Fails where there is no name or no equals sign.
[[nodiscard]] Result<std::pair<std::string, std::string>> split_argument(std::string_view argument);

/// For people: what was given, the results, the working line by line, the sources.
[[nodiscard]] std::string print(const Answer& answer, units::System system);
/// {"topic", "given", "result": {name: {"value", "unit"}}, "derivation", "source"}.
[[nodiscard]] nlohmann::ordered_json to_json(const Answer& answer, units::System system);
/// What a topic takes, for people.
[[nodiscard]] std::string help(const Topic& topic);

}  // namespace bw::reckon
