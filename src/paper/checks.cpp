// SPDX-License-Identifier: MIT
#include "paper/checks.h"

#include <fmt/format.h>
#include <algorithm>
#include <cctype>

namespace bw::paper {

namespace {

using reason::Check;
using reason::Sense;
using reason::Status;
using units::System;

std::string upper(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return text;
}

std::string joined(const std::vector<std::string>& words, std::size_t most) {
    std::string out;
    for (std::size_t i = 0; i < words.size() && i < most; ++i) out += (i ? ", " : "") + words[i];
    if (words.size() > most) out += fmt::format(" and {} more", words.size() - most);
    return out;
}

/// Where the value stands against its limit: a bar of the share used, the limit as a tick.
void margin_bar(Flow& flow, const Check& check, double x, double y) {
    constexpr double full = 90, limit_at = 70;
    const double used = check.sense == Sense::at_most ? 1 - *check.margin : 1 / std::max(0.05, 1 + *check.margin);
    const double length = std::clamp(used * limit_at, 1.0, full);
    auto& canvas = flow.canvas();
    canvas.rectangle({x, y}, full, 6, {.width = 0.3, .colour = draw::pale}, draw::white);
    canvas.rectangle({x, y}, length, 6, {.width = 0.1, .colour = colour(check.status)}, colour(check.status));
    canvas.line({x + limit_at, y - 2}, {x + limit_at, y + 8}, {.width = 1});
}

std::string term_text(const reason::Term& term, System system) {
    auto out = term.symbol + " = " + units::print(term.amount, system);
    if (!term.meaning.empty() && term.meaning != term.symbol) out += " (" + term.meaning + ")";
    return out;
}

}  // namespace

draw::Colour colour(Status status) {
    switch (status) {
        case Status::pass: return {0.13, 0.42, 0.25};
        case Status::tight: return {0.62, 0.42, 0.02};
        case Status::fail: return {0.68, 0.10, 0.10};
        case Status::refer: return {0.20, 0.30, 0.58};
    }
    return draw::black;
}

std::string limit_text(const Check& check, System system) {
    if (!check.limit) return "";
    return (check.sense == Sense::at_least  ? "at least "
            : check.sense == Sense::at_most ? "at most "
                                            : "") +
           units::print(*check.limit, system);
}

std::string margin_text(const Check& check) {
    return check.margin ? fmt::format("{:+.1f} %", *check.margin * 100) : std::string();
}

void set_derivation(Flow& flow, const reason::Derivation& derivation, System system, double indent) {
    for (const auto& step : derivation) {
        if (!step.says.empty()) flow.paragraph(step.says, {.size = 8, .colour = draw::grey}, indent);
        if (!step.formula.empty()) flow.paragraph(step.formula, {.size = 7.5, .mono = true}, indent + 8);
        std::string given;
        for (const auto& term : step.given) given += (given.empty() ? "" : ";  ") + term_text(term, system);
        if (!given.empty()) flow.paragraph("with " + given, {.size = 8}, indent + 8);
        if (step.result)
            flow.paragraph("gives " + term_text(*step.result, system), {.size = 8, .bold = true}, indent + 8);
    }
}

void set_sources(Flow& flow, const reason::Sources& sources, double indent) {
    std::string text;
    for (const auto& source : sources) text += (text.empty() ? "" : "; ") + reason::print(source);
    if (!text.empty()) flow.paragraph("Source: " + text, {.size = 7.5, .italic = true, .colour = draw::grey}, indent);
}

void set_check(Flow& flow, const Check& check, System system) {
    flow.heading(2, check.title);
    auto& canvas = flow.canvas();
    const auto edge = colour(check.status);
    const double y = flow.y();
    canvas.rectangle({flow.left(), y}, 40, 11, {.width = 0.6, .colour = edge}, edge);
    canvas.text({flow.left() + 20, y + 1}, upper(reason::name(check.status)),
                {.size = 7.5, .bold = true, .colour = draw::white, .anchor = draw::Anchor::centre});
    double x = flow.left() + 48;
    auto say = [&](const std::string& text, bool bold) {
        if (!text.empty()) x += canvas.text({x, y}, text, {.size = 9, .bold = bold}).width + 8;
    };
    if (check.value) say(units::print(*check.value, system), true);
    say(limit_text(check, system), false);
    if (check.margin) {
        say("margin " + margin_text(check), false);
        margin_bar(flow, check, flow.left() + flow.width() - 92, y + 2);
    }
    flow.space(15);
    if (!check.says.empty()) flow.paragraph(check.says, {.size = 8.5}, 12);
    set_derivation(flow, check.derivation, system);
    set_sources(flow, check.sources);
    if (!check.assumptions.empty())
        flow.paragraph("Rests on what was assumed: " + joined(check.assumptions, 8),
                       {.size = 7.5, .colour = colour(Status::refer)}, 12);
    auto foot = check.id;
    if (!check.pieces.empty()) foot += "  ·  pieces: " + joined(check.pieces, 6);
    flow.paragraph(foot, {.size = 7, .colour = draw::grey}, 12);
}

}  // namespace bw::paper
