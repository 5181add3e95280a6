// SPDX-License-Identifier: MIT
// Place, sizes, checks and estimate.
#include <fmt/format.h>
#include <map>

#include "paper/checks.h"
#include "paper/network_plots.h"
#include "paper/report_parts.h"
#include "reason/register/register.h"
#include "text/spoken.h"

namespace bw::paper {

namespace {

using units::amount;
using units::System;

constexpr auto right = draw::Anchor::right;

/// Proved by looking at the pieces: there is no figure to follow, only what was seen.
bool plain(const reason::Check& c) {
    return c.status == reason::Status::pass && !c.value && c.derivation.empty() && c.assumptions.empty();
}

std::string all_sources(const reason::Sources& sources) {
    std::string out;
    for (const auto& source : sources) out += (out.empty() ? "" : "; ") + reason::print(source);
    return out;
}

void set_group(Flow& flow, const std::string& title, const std::vector<const reason::Check*>& checks, System system) {
    flow.heading(0, "Checks: " + title);
    std::vector<Row> figures, seen;
    for (const auto* c : checks)
        if (plain(*c))
            seen.push_back({c->title, c->says, all_sources(c->sources), c->id});
        else
            figures.push_back({Cell(reason::name(c->status), true, colour(c->status)), c->title,
                               c->value ? units::print(*c->value, system) : "", limit_text(*c, system),
                               margin_text(*c)});
    if (!figures.empty())
        flow.table(
            {{"Status", 0.8}, {"Check", 4.4}, {"Value", 1.4, right}, {"Limit", 1.8, right}, {"Margin", 1, right}},
            figures, 7.5);
    if (!seen.empty()) {
        flow.heading(1, title + ": pass, seen in the pieces");
        flow.table({{"Check", 2.6}, {"What was seen", 3.4}, {"Source", 2.4}, {"Id", 1.8}}, seen, 7);
    }
    for (const auto* c : checks)
        if (!plain(*c)) set_check(flow, *c, system);
}

}  // namespace

void set_layout(Flow& flow, const design::Result& result, System system) {
    flow.heading(0, "Place in the room");
    if (result.chosen) flow.paragraph(result.chosen->layout.in_words(system));
    std::vector<Row> rows;
    for (const auto& c : result.candidates) {
        if (!c.refused.empty()) continue;
        rows.push_back({{c.layout, c.chosen},
                        fmt::format("{} x {}", c.heaters, c.heater),
                        units::print(amount(c.floor_area * units::square_metre, units::Kind::floor_area), system),
                        units::print(amount(c.run * units::metre), system),
                        units::print(units::money(c.total_cost), system),
                        c.shortfall ? units::print(units::percent(*c.shortfall), system) : "",
                        std::to_string(c.tally.fail),
                        c.chosen ? "chosen" : (c.undominated ? "bettered by none" : "")});
    }
    if (!rows.empty())
        flow.table({{"Layout", 2.6},
                    {"Heaters", 1.2},
                    {"Floor area", 0.9, right},
                    {"Pipe and vent", 1.2, right},
                    {"Cost", 1.1, right},
                    {"Shortfall", 0.8, right},
                    {"Failing", 0.7, right},
                    {"", 1.2}},
                   rows);
    flow.paragraph(
        fmt::format("{} places fit the room; {} were tried, {} could be built. Shortfall is of the least favoured "
                    "heater's flow. 'Bettered by none': no other is as good in failing checks, cost, floor area, "
                    "run of pipe and shortfall, and better in one.",
                    result.weighed, result.candidates.size(), rows.size()),
        {.size = 8.5});
    if (result.shortfalls.empty()) return;
    flow.heading(1, "What does not fit, and by how much");
    for (const auto& s : result.shortfalls) flow.bullet(s.arrangement + ": " + s.what + " " + s.remedy, {.size = 8.5});
}

namespace {

/// What the cheapest sizes that pass cost beside the handbook's.
void set_economy(Flow& flow, const piping::Economy& economy, System system) {
    if (economy.lines.empty()) return;
    const auto dollars = [&](double amount) { return units::print(units::money(amount), system); };
    flow.heading(1, "What the sizes cost");
    flow.paragraph(fmt::format(
        "The handbook's way sizes gas by the code's longest length and water by velocity, with headers in one size "
        "that "
        "lose no more than a tenth of a heater. Beside it stand the cheapest sizes whose solved pressures and flows "
        "pass: "
        "pipe, fittings and minutes, by the lengths laid. {}",
        economy.proved ? "No sizes that pass cost less: gas is searched exactly, water by rising cost until one passes."
                       : "Where no cheaper sizes were found to pass, the handbook's stand."));
    std::vector<Row> rows;
    for (const auto& line : economy.lines)
        rows.push_back({line.what, units::print(line.handbook) + " in", units::print(line.chosen) + " in",
                        dollars(line.handbook_cost), dollars(line.cost)});
    rows.push_back(
        {Cell("All", true), "", "", Cell(dollars(economy.handbook_cost), true), Cell(dollars(economy.cost), true)});
    flow.table(
        {{"Line", 3.4}, {"Handbook", 0.9, right}, {"Laid", 0.9, right}, {"Cost", 1, right}, {"Cost laid", 1, right}},
        rows);
    const double saved = economy.handbook_cost - economy.cost;
    if (economy.handbook_cost <= 0) return;
    flow.paragraph(saved >= 0 ? fmt::format("Saved: {}, {:.1f} %.", dollars(saved), 100 * saved / economy.handbook_cost)
                              : fmt::format("{} more than the handbook's sizes, which did not pass when first laid.",
                                            dollars(-saved)));
}

/// How the heaters share the peak, and how they would by other ways to feed the headers.
void set_schemes(Flow& flow, const std::vector<network::HeaderScheme>& schemes, System system) {
    if (schemes.empty()) return;
    flow.heading(1, "How the heaters share the water");
    flow.paragraph(
        "Cold water into each heater at the peak, every heater open, solved from the pieces as laid (the first column) "
        "and "
        "with the headers of the same sizes fed and led off elsewhere. The pipe to those other places is not counted.");
    std::vector<Column> columns{{"Heater", 0.7}};
    for (const auto& scheme : schemes) columns.push_back({scheme.what, 1.6, right});
    std::vector<Row> rows;
    std::size_t heaters = 0;
    for (const auto& scheme : schemes) heaters = std::max(heaters, scheme.heater.size());
    for (std::size_t n = 0; n < heaters; ++n) {
        Row row{std::to_string(n + 1)};
        for (const auto& scheme : schemes)
            row.push_back(n < scheme.heater.size() ? units::print(units::amount(scheme.heater[n]), system) : "");
        rows.push_back(std::move(row));
    }
    Row last{Cell("Least short of most by", true)};
    for (const auto& scheme : schemes)
        last.push_back(
            Cell(scheme.refused.empty() ? fmt::format("{:.1f} %", 100 * scheme.shortfall) : scheme.refused, true));
    rows.push_back(std::move(last));
    flow.table(columns, rows, 7.5);
}

}  // namespace

void set_sizes(Flow& flow, const design::Result& result, const Networks& networks, System system) {
    flow.heading(0, "Sizes");
    std::vector<Row> rows;
    for (const auto& s : result.chosen->built.sizes)
        rows.push_back({s.what, std::string(text::name(s.service)), std::string(text::spoken(s.material)),
                        units::print(s.size) + " in"});
    flow.table({{"What", 3}, {"Service", 1.2}, {"Material", 1.6}, {"Nominal size", 1, right}}, rows);
    set_economy(flow, result.chosen->built.economy, system);
    set_schemes(flow, networks.schemes, system);
    plot_gas(flow, result, system);
    set_vents_by_number(flow, networks.vents, system);
    for (const auto& s : result.chosen->built.sizes) {
        if (s.derivation.empty()) continue;
        flow.heading(2, s.what + ": " + units::print(s.size) + " in " + std::string(text::spoken(s.material)));
        set_derivation(flow, s.derivation, system);
        set_sources(flow, s.sources);
    }
}

void set_checks(Flow& flow, const design::Result& result, System system) {
    std::map<std::string_view, std::vector<const reason::Check*>> by_group;
    for (const auto& check : result.checks) by_group[check.service].push_back(&check);
    for (const auto& group : reason::groups())
        if (const auto found = by_group.find(group.key); found != by_group.end())
            set_group(flow, std::string(group.title), found->second, system);
}

void set_estimate(Flow& flow, const design::Result& result, System system) {
    const auto& e = result.chosen->estimate;
    flow.heading(0, "Parts and estimate");
    flow.paragraph(
        "Prices and minutes of the embedded catalogue are invented for the demo; put your own in the survey or a "
        "catalogue file.");
    flow.fact("Parts", units::print(units::money(e.parts), system));
    flow.fact("Labour", fmt::format("{:.1f} hours, {}", e.hours, units::print(units::money(e.labour), system)));
    flow.fact("Mark-up", units::print(units::money(e.markup), system));
    flow.fact("Total", units::print(units::money(e.total), system));
    flow.fact("Mass", units::print(amount(e.mass_dry * units::kilogram), system) + " dry, " +
                          units::print(amount(e.mass_full * units::kilogram), system) + " full");
    flow.space(6);
    std::vector<Row> rows;
    for (const auto& line : e.lines)
        rows.push_back({line.title, line.size, line.service,
                        line.length > 0
                            ? units::print(amount(line.length * units::metre, units::Kind::long_length), system)
                            : std::to_string(line.count),
                        units::print(units::money(line.price), system), fmt::format("{:.1f}", line.minutes / 60)});
    flow.table({{"Item", 3.6},
                {"Size", 0.9},
                {"Service", 1.6},
                {"Quantity", 1, right},
                {"Price", 1.1, right},
                {"Hours", 0.7, right}},
               rows, 7.5);
}

}  // namespace bw::paper
