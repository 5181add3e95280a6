// SPDX-License-Identifier: MIT
#include "plant/words.h"

#include <algorithm>
#include <array>
#include <span>
#include <utility>
#include <vector>

#include "text/split.h"

namespace bw::plant {
namespace {

/// One step of an id: its word and the number behind it, if any.
struct Step {
    std::string word, number;
};

/// Words of ids that say too little by themselves.
constexpr std::array<std::pair<std::string_view, std::string_view>, 12> fuller{{
    {"shutoff", "shut-off valve"},
    {"isolation", "isolation valve"},
    {"check", "check valve"},
    {"split", "tee between the banks"},
    {"test", "test port"},
    {"test-before", "test port before the regulator"},
    {"bond", "bonding clamp"},
    {"co-alarm", "carbon monoxide alarm"},
    {"flexible", "flexible connector"},
    {"union-joint", "union"},
    {"feed", "feed cable"},
    {"whip", "power whip"},
}};

Step step_of(std::string_view part) {
    const auto dash = part.rfind('-');
    const bool numbered = dash != std::string_view::npos && dash + 1 < part.size() &&
                          std::ranges::all_of(part.substr(dash + 1), [](char c) { return c >= '0' && c <= '9'; });
    Step step{std::string(part.substr(0, numbered ? dash : part.size())),
              std::string(numbered ? part.substr(dash + 1) : "")};
    const auto full = std::ranges::find(fuller, step.word, [](const auto& one) { return one.first; });
    if (full != fuller.end())
        step.word = full->second;
    else
        std::ranges::replace(step.word, '-', ' ');
    return step;
}

std::string plain(const Step& step) { return step.number.empty() ? step.word : step.word + " " + step.number; }

/// "rod 1 of hanger 2", "drain pipe 3", "the valve": what has a number is a thing of its own, other words say of what
/// kind the next is.
std::string things(std::span<const Step> steps) {
    std::string all, kind;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        kind += (kind.empty() ? "" : " ") + plain(steps[i]);
        if (steps[i].number.empty() && i + 1 < steps.size()) continue;
        const auto article = steps[i].number.empty() ? "the " : "";
        all = article + kind + (all.empty() ? "" : " of " + all);
        kind.clear();
    }
    return all;
}

/// A line's own word: its branches, or what it is itself.
std::string line_of(const Step& step) {
    constexpr std::string_view branch = " branch";
    if (step.word.ends_with(branch)) return step.word + "es";
    return plain(step) + " line";
}

}  // namespace

std::string in_words(std::string_view id) {
    std::vector<Step> steps;
    for (const auto& part : text::split(id, '.')) steps.push_back(step_of(part));
    const Step& first = steps.front();
    std::span<const Step> rest(steps.begin() + 1, steps.end());
    const auto of = [&](const std::string& owner) { return rest.empty() ? owner : things(rest) + " of " + owner; };
    if (first.word == "heater" && !first.number.empty()) {
        std::string all = "heater " + first.number + (rest.empty() ? "" : "'s");
        for (const auto& step : rest) all += " " + plain(step);
        return all;
    }
    if (first.word == "room") return things(rest);
    if (first.word == "site") return "the building's " + (rest.empty() ? "connection" : plain(rest.front()));
    if (first.word == "main") {
        if (rest.empty()) return "the main";
        const auto owner = "the " + plain(rest.front()) + " main";
        rest = rest.subspan(1);
        return of(owner);
    }
    if (first.word == "bank" && !rest.empty()) {
        const auto bank = "bank " + first.number + "'s ";
        const bool header = rest.size() > 1 && rest[1].word == "header";
        const auto owner = header ? bank + plain(rest[0]) + " header" : bank + line_of(rest[0]);
        rest = rest.subspan(header ? 2 : 1);
        return of(owner);
    }
    if (first.word.starts_with("bank ") && first.word.ends_with(" branch"))
        return first.word.substr(0, first.word.size() - 7) + "'s branches";
    return of(first.number.empty() ? "the " + first.word : plain(first));
}

}  // namespace bw::plant
