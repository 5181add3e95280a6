// SPDX-License-Identifier: MIT
#pragma once
// The register of checks: every check that is made anywhere is one row here. A check takes its title and its group from
// its row; the order on page and paper, what may be done about a failing check and docs/checks.md come from the rows.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "reason/reason.h"

namespace bw::reason {

/// The parts of a report, in reading order.
enum class Group { demand, water, gas, vent, air, condensate, electric, structure, room, safety, parts };

struct GroupRow {
    Group group;
    std::string_view key;    ///< "electric", as it stands in `Check::service`
    std::string_view title;  ///< "Electricity"
};
/// In the order of the enumeration.
[[nodiscard]] std::span<const GroupRow> groups();
[[nodiscard]] const GroupRow& row_of(Group group);

/// How a check may end, short of holding.
enum class Ends {
    may_fail,
    only_refers,  ///< where it does not hold, a licensed person or a site confirmation decides
    only_passes,  ///< what does not hold stands under another id
};

/// What changes of the survey mend a check of the row.
enum class Remedy {
    none,
    gas_pipe,
    gas_meter,
    water_pressure,
    hardness,
    sturdier_pipe,
    loop_loss,
    loop_flow,
    spare_heater,
    vent_pipe,
    piped_air,
    freer_place,
    fewer_heaters,
};
/// "more delivery pressure, a larger allowed drop, steel pipe"; empty for none.
[[nodiscard]] std::string_view describe(Remedy remedy);

/// A text that a row cannot leave out.
struct Text : std::string_view {
    template <std::size_t n>
    consteval Text(const char (&text)[n]) : std::string_view(text, n - 1) {}
};

struct CheckRow {
    Text id;     ///< "gas.pressure.heater-<n>"; <n>, <b> and <w> stand for numbers, <service> for one word
    Text title;  ///< "Gas pressure at heater <n> with all firing"
    Ends ends;
    Remedy remedy;
    Text proves;  ///< what holds when it passes
    Text from;    ///< what it reads
    Text source;  ///< *m* from memory, *r* read in public text, *p* common practice
    Text refers;  ///< when a licensed person or a site confirmation decides
};

struct GroupOfRows {
    Group group;
    std::span<const CheckRow> rows;
};
/// Every row, by group, in report order.
[[nodiscard]] std::span<const GroupOfRows> check_register();

/// Where a check stands in the register.
struct Place {
    std::size_t order = 0;  ///< from 0, in report order
    Group group{};
    const CheckRow* row = nullptr;
};
/// The row of a check's id: of those it matches, the one with the longest fixed beginning.
[[nodiscard]] std::optional<Place> place_of(std::string_view id);

/// What a row's <name> stands for: as it stands in the id, and as people say it.
struct Named {
    std::string_view name;  ///< "line"
    std::string id;         ///< "bank-1-branch"
    std::string words;      ///< "bank 1's branches"

    Named(std::string_view what, std::string in_id, std::string in_words)
        : name(what), id(std::move(in_id)), words(std::move(in_words)) {}
    Named(std::string_view what, int number) : Named(what, std::to_string(number), std::to_string(number)) {}
};

/// An undecided check of a row, named by its pattern, with every <name> filled in. That the row exists and that nothing
/// stays open is the caller's duty.
[[nodiscard]] Check new_check(std::string_view pattern, Sources sources, const std::vector<Named>& named = {});

/// Sorts checks into report order; those of one row keep their order. Every id must be in the register.
void in_report_order(std::vector<Check>& checks);

/// docs/checks.md, made from the register.
[[nodiscard]] std::string register_page();

}  // namespace bw::reason
