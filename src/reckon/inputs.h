// SPDX-License-Identifier: MIT
#pragma once
// What was typed, read by a topic's names.

#include <map>
#include <optional>

#include "reckon/reckon.h"
#include "units/nominal.h"
#include "units/quantity.h"

namespace bw::reckon {

/// The values of one call. A topic asks for a name it requires, or has a fallback for, without checking again.
class Inputs {
public:
    [[nodiscard]] bool has(std::string_view name) const;
    [[nodiscard]] Amount amount(std::string_view name) const;
    [[nodiscard]] double number(std::string_view name) const { return amount(name).si; }
    template <class Q>
    [[nodiscard]] Q get(std::string_view name) const {
        return Q::from_value(amount(name).si);
    }
    [[nodiscard]] std::string word(std::string_view name) const;
    [[nodiscard]] units::Nominal size(std::string_view name) const;
    /// An enumeration's value; the word was checked against the topic's choices, which are the vocabulary's.
    template <class Enum>
    [[nodiscard]] Enum named(std::string_view name) const {
        return text::named<Enum>(word(name)).value();
    }
    [[nodiscard]] const std::vector<Named>& all() const { return all_; }

private:
    friend Result<Inputs> read_inputs(const Topic&, const std::vector<std::pair<std::string, std::string>>&);
    [[nodiscard]] const Named* find(std::string_view name) const;
    std::vector<Named> all_;
};

/// What a name takes: "a length (in, ft, mm, cm or m)", "one of natural, propane".
[[nodiscard]] std::string choices_of(const Name& name);

[[nodiscard]] Result<Inputs> read_inputs(const Topic& topic,
                                         const std::vector<std::pair<std::string, std::string>>& given);

}  // namespace bw::reckon
