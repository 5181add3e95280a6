// SPDX-License-Identifier: MIT
#include "proof/base/new_check.h"

namespace bw::proof {

Check at_most(Check check, units::Amount value, units::Amount limit) {
    check.value = value;
    check.limit = limit;
    check.sense = Sense::at_most;
    return reason::judged(std::move(check));
}

Check at_least(Check check, units::Amount value, units::Amount limit) {
    check.value = value;
    check.limit = limit;
    check.sense = Sense::at_least;
    return reason::judged(std::move(check));
}

Check compared(Check check, units::Amount value, Sense sense, units::Amount limit) {
    return sense == Sense::at_most ? at_most(std::move(check), value, limit) : at_least(std::move(check), value, limit);
}

Check with_temperatures(Check check, units::Temperature value, std::string limit_says, units::Temperature limit) {
    check.value = units::amount(value);
    check.sense = Sense::yes;
    step(check, std::move(limit_says), {}, {{"t", "temperature", units::amount(value)}},
         Term{"tl", "limit", units::amount(limit)});
    return check;
}

Check holds(Check check, bool yes, std::string when_yes, std::string when_no) {
    check.says = yes ? std::move(when_yes) : std::move(when_no);
    return reason::proved(std::move(check), yes);
}

void step(Check& check, std::string says, std::string formula, std::vector<Term> given, std::optional<Term> result) {
    check.derivation.push_back({std::move(says), std::move(formula), std::move(given), std::move(result)});
}

void depends_on_fields(Check& check, const survey::Survey& survey, const std::vector<std::string>& fields) {
    for (const std::string_view field : fields)
        for (const auto& assumption : survey.assumed) {
            const std::string_view at = assumption.field;
            const bool under =
                at.size() > field.size() && at.substr(0, field.size()) == field && at[field.size()] == '.';
            if (at == field || under) check.assumptions.push_back(assumption.field);
        }
}

void about(Check& check, const PlantIndex& view, const std::vector<int>& pieces) {
    for (const int i : pieces)
        if (i >= 0) check.pieces.push_back(view.piece(i).id);
}

std::string chain(const PlantIndex& view, const std::vector<Step>& path) {
    std::string text;
    for (const auto& s : path) text += (text.empty() ? "" : " > ") + view.name(s.piece);
    return text;
}

Named named(std::string_view name, Service service) {
    const std::string word(text::name(service));
    return {name, word, word};
}

std::string us(const units::Amount& amount) { return units::print(amount, units::System::us); }

}  // namespace bw::proof
