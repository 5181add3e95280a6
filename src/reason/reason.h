// SPDX-License-Identifier: MIT
#pragma once
// How any number in the house explains itself.

#include <optional>
#include <string>
#include <vector>

#include "units/amount.h"
#include "units/error.h"

namespace bw::reason {

using units::Amount;

/// How a stated fact came to us.
enum class Standing {
    published,        ///< read in the named document
    memory,           ///< from memory of the named document
    computed,         ///< computed here from the named formula
    common_practice,  ///< a fact of the trade, no source
    maker,            ///< the equipment maker's data
    invented,         ///< invented for the demo
    given,            ///< the survey says so
};

struct Source {
    std::string document;     ///< "IFGC", "IPC", "ASME B36.10M"; empty for common practice
    std::string edition;      ///< "2018"
    std::string clause;       ///< "402.4.1", "Table 402.4(2)"
    Standing standing = Standing::published;
    bool operator==(const Source&) const = default;
};
using Sources = std::vector<Source>;

/// One line: "IFGC 2018, 402.4.1 (from memory)"; "common practice, no source".
[[nodiscard]] std::string print(const Source& source);

struct Term {
    std::string symbol;   ///< "Q"
    std::string meaning;  ///< "gas flow"
    Amount amount;
};

/// One line of working: what is found, by which formula, from which numbers, giving what.
struct Step {
    std::string says;      ///< a plain sentence or heading
    std::string formula = {};   ///< "D = Q^0.381 / (19.17 (dH / (Cr L))^0.206)"; may be empty
    std::vector<Term> given = {};
    std::optional<Term> result = {};
};
using Derivation = std::vector<Step>;

/// Refer means a licensed person or a site confirmation must decide; it is never counted as a pass.
enum class Status { pass, tight, fail, refer };

enum class Sense { at_most, at_least, yes };  ///< value <= limit, value >= limit, or a plain yes/no

struct Check {
    std::string id;       ///< "gas.pressure.heater-7", stable while the thing it names stays
    std::string title;    ///< "Gas pressure at heater 7 with all firing"
    std::string service;  ///< report group: demand water gas vent air condensate electric structure room safety parts
    Status status = Status::refer;
    Sense sense = Sense::yes;
    std::optional<Amount> value = {};
    std::optional<Amount> limit = {};
    std::optional<double> margin = {};  ///< signed share of the limit, positive is good; see DESIGN: tight below 5 %
    std::string says = {};              ///< one sentence a reader understands; for refer: who must decide what
    Derivation derivation = {};
    Sources sources = {};
    std::vector<std::string> pieces = {};       ///< ids of the pieces it is about
    std::vector<std::string> assumptions = {};  ///< survey fields it rests on that were assumed
};

[[nodiscard]] const char* name(Status status);   // "pass"
[[nodiscard]] const char* name(Standing standing);

/// Fills status and margin of a check from its value, limit and sense. Margin is (limit - value)/limit for at_most,
/// (value - limit)/limit for at_least, absent where the limit is zero (temperatures count
/// from 0 degC). Below 0 fails; from 0 to under 5 % is tight.
[[nodiscard]] Check judged(Check check);
/// A yes/no check proved from the pieces.
[[nodiscard]] Check proved(Check check, bool holds);
/// A check for a licensed person or a site confirmation; `who_decides` says what is to be decided and by whom.
[[nodiscard]] Check referred(Check check, std::string who_decides);

}  // namespace bw::reason
