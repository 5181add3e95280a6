// SPDX-License-Identifier: MIT
#include "proof/policy.h"

#include <set>
#include <string_view>

#include "reason/document.h"

namespace bw::proof {
namespace {

using reason::Check;
using reason::Status;
using survey::Survey;

std::string named(const reason::Source& source) {
    return source.document + (source.edition.empty() ? "" : " " + source.edition);
}

/// What keeps one body of law from carrying the check; empty where a cited document is adopted in its edition.
std::string short_of_law(const Check& check, const Survey& survey, std::string_view law) {
    std::string why, cited;
    for (const auto& source : check.sources) {
        if (law_of(source.document) != law) continue;
        const auto* code = survey.adopted(source.document);
        if (code && code->edition == source.edition) return {};
        if (cited.find(named(source)) != std::string::npos) continue;
        cited += (cited.empty() ? "" : " or ") + named(source);
        if (code)
            why = fmt::format("the survey adopts {} {}, the clause is taken from {}", code->document, code->edition,
                              named(source));
    }
    if (!why.empty()) return why;
    if (survey.codes.empty())
        return fmt::format("the survey names no adopted code, the clause is taken from {}", cited);
    return fmt::format("the survey names no adopted {} code, the clause is taken from {}", law, cited);
}

std::vector<std::string> unconfirmed_law(const Check& check, const Survey& survey) {
    std::vector<std::string> reasons;
    std::set<std::string_view> seen;
    for (const auto& source : check.sources) {
        const auto law = law_of(source.document);
        if (law.empty() || !seen.insert(law).second) continue;
        if (auto why = short_of_law(check, survey, law); !why.empty()) reasons.push_back(std::move(why));
    }
    return reasons;
}

std::vector<std::string> unconfirmed_facts(const Check& check, const Survey& survey) {
    std::vector<std::string> reasons;
    for (const auto& field : check.assumptions)
        for (const auto& assumption : survey.assumed)
            if (assumption.field == field && assumption.safety)
                reasons.push_back(fmt::format("{} was assumed ({}) and {} must confirm it", field, assumption.value,
                                              who_confirms(field)));
    return reasons;
}

void note(Check& check, const std::string& text) {
    if (!check.says.empty()) check.says += check.says.back() == '.' ? " " : ". ";
    check.says += text;
}

std::string joined(const std::vector<std::string>& parts) {
    std::string text;
    for (const auto& part : parts) text += (text.empty() ? "" : "; ") + part;
    return text;
}

/// Sentences may begin with a piece's name.
void begin_large(std::string& text) {
    if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
}

}  // namespace

std::string_view law_of(std::string_view document) {
    const auto* row = reason::document_named(document);
    return row ? row->body_of_law : std::string_view{};
}

std::string who_confirms(std::string_view field) {
    const auto starts = [&](std::string_view head) { return field.substr(0, head.size()) == head; };
    if (starts("gas")) return "the gas supplier";
    if (starts("supply")) return "the water purveyor";
    if (field.find("wall") != std::string_view::npos) return "whoever opens or knows the wall";
    if (field.find("terminal") != std::string_view::npos) return "a survey of the terminal's surroundings";
    return "a visit to the site";
}

void apply_adoption_policy(Check& check, const Survey& survey) {
    for (auto* text : {&check.title, &check.says}) begin_large(*text);
    const auto law = unconfirmed_law(check, survey);
    const auto facts = unconfirmed_facts(check, survey);
    if (law.empty() && facts.empty()) return;
    if (!law.empty())
        note(check,
             "Local law: " + joined(law) + (check.status == Status::fail ? "." : "; the local authority decides."));
    if (!facts.empty()) note(check, "Rests on an assumption: " + joined(facts) + ".");
    if (check.status == Status::pass || check.status == Status::tight) check.status = Status::refer;
}

}  // namespace bw::proof
