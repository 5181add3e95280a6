// SPDX-License-Identifier: MIT
// Demand and heaters: every method's answer, the day, the choice, the risk, stores, and words of care.
#include <fmt/format.h>

#include <cmath>

#include "paper/checks.h"
#include "paper/demand_plots.h"
#include "paper/report_parts.h"

namespace bw::paper {

namespace {

using units::amount;
using units::Kind;
using units::System;

constexpr auto right = draw::Anchor::right;

template <class T>
std::string print_if(const std::optional<T>& value, Kind kind, System system) {
    return value ? units::print(amount(*value, kind), system) : std::string("–");
}

std::string chance_text(double chance) {
    if (chance >= 0.9995) return "always";
    if (chance < 1e-9) return "< 1 in a billion";
    if (chance >= 0.0995) return fmt::format("{:.0f} %", 100 * chance);
    if (chance >= 0.001) return fmt::format("{:.1f} %", 100 * chance);
    const double one_in = 1 / chance, unit = std::pow(10.0, std::floor(std::log10(one_in)));
    auto digits = fmt::format("{:.0f}", std::round(one_in / unit) * unit);
    for (auto at = static_cast<std::ptrdiff_t>(digits.size()) - 3; at > 0; at -= 3)
        digits.insert(static_cast<std::size_t>(at), ",");
    return "1 in " + digits;
}

std::string minutes_text(double minutes) {
    if (minutes >= 600) return fmt::format("{:.0f} h", minutes / 60);
    if (minutes >= 0.95) return fmt::format("{:.0f} min", minutes);
    return minutes < 0.01 ? "none" : "under 1 min";
}

std::string sentence(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z')
        text.front() = static_cast<char>(text.front() - 32);
    return text.empty() || text.ends_with('.') ? text : text + ".";
}

std::string standing_of(const demand::Capacity& c, int heaters, std::optional<int> enough) {
    if (heaters == c.installed) return c.spare > 0 ? "installed" : "needed, installed";
    if (heaters == c.needed) return "needed";
    return enough && heaters == *enough ? "enough by chance" : "";
}

void set_method(Flow& flow, const demand::Answer& answer, System system) {
    flow.heading(1, answer.title + (answer.governs ? ": governs" : ""));
    flow.paragraph(sentence(answer.says));
    set_derivation(flow, answer.derivation, system);
    set_sources(flow, answer.sources);
}

void set_methods_table(Flow& flow, const demand::Demand& d, System system) {
    std::vector<Row> rows;
    for (const auto& a : d.answers)
        rows.push_back({{a.title, a.governs},
                        print_if(a.peak, Kind::water_flow, system),
                        print_if(a.probable_hour, Kind::hourly_flow, system),
                        print_if(a.max_day, Kind::volume, system),
                        print_if(a.average_day, Kind::volume, system),
                        print_if(a.storage, Kind::volume, system),
                        a.governs ? "governs" : ""});
    flow.table({{"Method", 3.2},
                {"Peak flow", 1.1, right},
                {"Busiest hour", 1.2, right},
                {"Largest day", 1.2, right},
                {"Average day", 1.2, right},
                {"Storage", 1, right},
                {"", 0.8}},
               rows, 7.5);
}

void set_loads(Flow& flow, const demand::Demand& d, System system) {
    if (d.loads.empty()) return;
    flow.heading(1, "Fixtures in the busiest hour");
    std::vector<Row> rows;
    for (const auto& load : d.loads)
        rows.push_back({std::string(text::name(load.fixture)), std::to_string(load.count),
                        units::print(units::percent(load.busy), system), units::print(amount(load.drawn), system),
                        units::print(amount(load.hot), system), load.why});
    flow.table({{"Fixture", 1.8},
                {"Number", 0.7, right},
                {"Runs", 0.7, right},
                {"Drawn", 0.9, right},
                {"Of that, hot", 0.9, right},
                {"Where the chance comes from", 3.2}},
               rows, 7.5);
}

void set_risk(Flow& flow, const design::Result& result, System system) {
    const auto& c = result.capacity;
    if (c.risk.empty()) return;
    flow.heading(1, "What each heater more or less would mean");
    plot_risk(flow, result, system);
    const auto enough = demand::enough_by_chance(c.risk, 1 - result.demand.percentile);
    std::vector<Row> rows;
    for (const auto& point : c.risk) {
        const bool turning = enough && point.heaters >= *enough - 1 && point.heaters <= *enough;
        if (point.heaters < c.installed - 2 && !turning) continue;
        rows.push_back({{std::to_string(point.heaters), point.heaters == c.installed},
                        units::print(amount(point.flow), system),
                        chance_text(point.short_chance),
                        minutes_text(point.minutes_a_year),
                        units::print(amount(point.coldest), system),
                        standing_of(c, point.heaters, enough)});
    }
    flow.table({{"Heaters", 0.8},
                {"Flow beside the loop", 1.5, right},
                {"Chance of falling short", 1.5, right},
                {"Short in a year", 1.2, right},
                {"Coldest likely outlet", 1.4, right},
                {"", 1.4}},
               rows);
    flow.paragraph(
        "Every day of the year is taken as one of the busiest kind. The coldest likely outlet is what would be sent at "
        "the percentile's demand if all of it were let through; heaters that throttle keep the temperature and give "
        "less water instead.");
    if (enough)
        flow.paragraph(fmt::format(
            "By the chances alone {} heater{} would be enough at the percentile of {:g} %, if the chances are right.",
            *enough, *enough == 1 ? "" : "s", 100 * result.demand.percentile));
    if (!result.demand.without_chance.empty())
        flow.paragraph(fmt::format("No chance is known for {}: the curve leaves them out.",
                                   fmt::join(result.demand.without_chance, ", ")));
}

void set_stores(Flow& flow, const design::Result& result, System system) {
    const auto& c = result.capacity;
    if (c.stores.empty()) return;
    flow.heading(1, "Recovery against storage");
    flow.paragraph(
        "Fewer heaters carry the same day with a store: each hour's water is taken to be drawn at the peak flow from "
        "the start of the hour, and the heaters refill meanwhile; 70 % of a tank is drawn off hot. The plant of this "
        "report is built without a store.");
    std::vector<Row> rows;
    std::string mark;
    for (const auto& s : c.stores) {
        const bool first = mark.empty() && result.survey.preferences.tank && s.tank <= *result.survey.preferences.tank;
        if (first) mark = "with the tank wished for";
        rows.push_back({std::to_string(s.heaters), units::print(amount(s.recovery, Kind::hourly_flow), system),
                        units::print(amount(s.usable), system), units::print(amount(s.tank), system),
                        first                   ? mark
                        : s.heaters == c.needed ? "no store"
                                                : ""});
    }
    flow.table({{"Heaters", 0.8},
                {"Recovery", 1.3, right},
                {"Drawn from the store", 1.5, right},
                {"Tank", 1.2, right},
                {"", 2}},
               rows);
}

}  // namespace

void set_demand(Flow& flow, const design::Result& result, System system) {
    const auto& d = result.demand;
    flow.heading(0, "Demand");
    flow.paragraph(
        "Heaters without a store must meet the flow of the minute, so the peak flow governs, not the peak hour. Hours "
        "and days stand beside it for comparison and for stores.");
    plot_methods(flow, result, system);
    set_methods_table(flow, d, system);
    flow.fact("Fixtures at peak", units::print(amount(d.fixtures), system));
    flow.fact("Block loads together", units::print(amount(d.blocks), system));
    flow.fact("Peak", units::print(amount(d.peak), system) + " at " + units::print(amount(d.hot), system) + ", from " +
                          units::print(amount(d.cold), system));
    flow.fact("Recirculation", units::print(amount(d.recirculation_loss), system) + " lost, " +
                                   units::print(amount(d.recirculation_flow), system));
    flow.heading(1, "How the day runs");
    flow.paragraph(d.day.says);
    plot_day(flow, result, system);
    flow.fact("Largest hour", units::print(amount(d.day.largest_hour), system));
    flow.fact("Day", units::print(amount(d.day.total), system));
    set_loads(flow, d, system);
    flow.heading(1, "How the peak is found");
    set_derivation(flow, d.derivation, system, 0);
    for (const auto& a : d.answers) set_method(flow, a, system);
}

void set_capacity(Flow& flow, const design::Result& result, const catalogue::Catalogue& catalogue, System system) {
    const auto& c = result.capacity;
    flow.heading(0, "Heaters");
    flow.paragraph(c.says);
    std::vector<Row> rows;
    for (const auto& o : c.options) {
        const auto* heater = catalogue.heater(o.heater);
        const std::string title = heater ? heater->title : o.heater;
        if (!o.refused.empty())
            rows.push_back({title, "", "", "", o.refused});
        else
            rows.push_back({{title, o.heater == c.heater},
                            units::print(amount(o.each.flow), system),
                            std::to_string(o.installed),
                            units::print(units::money(o.price), system),
                            o.heater == c.heater ? "chosen" : ""});
    }
    if (c.mixed)
        rows.push_back({fmt::format("{} of {} with {} of {}", c.mixed->of_first, c.mixed->first, c.mixed->of_second,
                                    c.mixed->second),
                        "", std::to_string(c.mixed->of_first + c.mixed->of_second),
                        units::print(units::money(c.mixed->price), system),
                        "for comparison: the plant is built of one model, so that its parts and settings are alike"});
    flow.table(
        {{"Model", 2.6}, {"Flow each", 1, right}, {"Installed", 0.8, right}, {"Heaters' price", 1.2, right}, {"", 2.4}},
        rows);
    set_risk(flow, result, system);
    set_stores(flow, result, system);
    flow.heading(1, "How the number is found");
    set_derivation(flow, c.derivation, system, 0);
    flow.heading(1, "What one heater gives here");
    set_derivation(flow, c.each.derivation, system);
    set_sources(flow, c.each.sources);
}

}  // namespace bw::paper
