// SPDX-License-Identifier: MIT
#include "cli/summary.h"

#include <fmt/format.h>

#include <algorithm>

#include "units/printable.h"

namespace bw::cli {

namespace {

using units::amount;

/// The verdict never says 'proved' while a point needs somebody's word.
std::string verdict(const design::Tally& t) {
    if (t.fail > 0)
        return fmt::format("{} {} FAIL: not to be built as it is", t.fail, t.fail == 1 ? "check" : "checks");
    if (t.refer > 0)
        return fmt::format("no check fails; {} {} a licensed person or a site confirmation", t.refer,
                           t.refer == 1 ? "point needs" : "points need");
    return "proved";
}

void failing(std::string& out, const design::Result& result) {
    for (const auto& check : result.checks)
        if (check.status == reason::Status::fail)
            out += fmt::format("  FAIL {}: {} {}\n", check.id, check.title, check.says);
}

}  // namespace

std::string summary(const design::Result& result, units::System system) {
    const auto& c = result.capacity;
    std::string out =
        fmt::format("{}\n  peak {}, {} heaters {} ({} needed, {} spare)\n", result.survey.job,
                    units::print(amount(result.demand.peak), system), c.installed, c.heater, c.needed, c.spare);
    if (result.chosen)
        out += fmt::format("  {}: {}\n  {} pieces, parts {}, {:.0f} hours\n", result.chosen->layout.id,
                           result.chosen->layout.in_words(system), result.chosen->built.plant.pieces.size(),
                           units::print(units::money(result.chosen->estimate.parts), system),
                           result.chosen->estimate.hours);
    const auto t = design::tally(result.checks);
    out += fmt::format("  checks: {} pass, {} tight, {} fail, {} refer; {}\n", t.pass, t.tight, t.fail, t.refer,
                       verdict(t));
    failing(out, result);
    if (const auto n = result.survey.assumed.size(); n > 0)
        out += fmt::format("  {} assumed {} in the report, to be confirmed on site\n", n,
                           n == 1 ? "value stands" : "values stand");
    return out;
}

std::string package_summary(const std::string& where, const Files& files) {
    const auto folder = units::printable(where);
    std::string out = "  written to " + folder + ":";
    for (const auto& [name, text] : files)
        if (!name.starts_with("sheet-")) out += fmt::format(" {} ({} kB)", name, (text.size() + 1023) / 1024);
    return out + "\n  report: " + folder + "/report.pdf\n";
}

namespace {

/// To the foot or the metre.
std::string rounded_length(double metres, units::System system) {
    return system == units::System::si ? fmt::format("{:.0f} m", metres) : fmt::format("{:.0f} ft", metres / 0.3048);
}

}  // namespace

std::string comparison(const design::Result& result, units::System system) {
    std::size_t widest = 0;
    for (const auto& c : result.candidates) widest = std::max(widest, c.layout.size());
    std::string out = fmt::format("{}\n  {:<{}} {:<12} {:>7} {:>14} {:>12} {:>12} {:>12} {:>12} {:>9} {:>7} {:>6}\n",
                                  result.survey.job, "layout", widest, "heater", "heaters", "floor length",
                                  "floor area", "pipe, vent", "parts", "total", "shortfall", "failing", "refer");
    int built = 0, best = 0;
    for (const auto& c : result.candidates) {
        out +=
            fmt::format("{}{} {:<{}} {:<12} {:>7} {:>14} ", c.chosen ? '>' : ' ', c.undominated ? '*' : ' ', c.layout,
                        widest, c.heater, c.heaters, units::print(amount(c.floor_length * units::metre), system));
        if (!c.refused.empty()) {
            out += "not built: " + c.refused + "\n";
            continue;
        }
        ++built;
        best += c.undominated ? 1 : 0;
        out += fmt::format("{:>12} {:>12} {:>12} {:>12} {:>9} {:>7} {:>6}\n",
                           units::print(amount(c.floor_area * units::square_metre, units::Kind::floor_area), system),
                           rounded_length(c.run, system), units::print(units::money(c.parts_cost), system),
                           units::print(units::money(c.total_cost), system),
                           c.shortfall ? units::print(units::percent(*c.shortfall), system) : "unknown", c.tally.fail,
                           c.tally.refer);
    }
    out += fmt::format(
        "  {} places fit the room, {} were built and proved; > is chosen, {} marked * are bettered in "
        "everything by none.\n  `place = \"...\"` under [preferences] keeps to one of them.\n",
        result.weighed, built, best);
    for (const auto& s : result.shortfalls)
        out += fmt::format("  no fit, {}: {} {}\n", s.arrangement, s.what, s.remedy);
    return out;
}

}  // namespace bw::cli
