// SPDX-License-Identifier: MIT
#include "reason/register/register.h"

#include <algorithm>
#include <array>
#include <cassert>

#include "reason/register/rows.h"

namespace bw::reason {
namespace {

constexpr std::array group_rows{
    GroupRow{Group::demand, "demand", "Demand and capacity"},
    GroupRow{Group::water, "water", "Water"},
    GroupRow{Group::gas, "gas", "Gas"},
    GroupRow{Group::vent, "vent", "Exhaust and intake"},
    GroupRow{Group::air, "air", "Combustion air"},
    GroupRow{Group::condensate, "condensate", "Condensate"},
    GroupRow{Group::electric, "electric", "Electricity"},
    GroupRow{Group::structure, "structure", "Supports and structure"},
    GroupRow{Group::room, "room", "Room"},
    GroupRow{Group::safety, "safety", "Safety"},
    GroupRow{Group::parts, "parts", "Parts"},
};

struct RemedyRow {
    Remedy remedy;
    std::string_view says;
};
constexpr std::array remedy_rows{
    RemedyRow{Remedy::none, ""},
    RemedyRow{Remedy::gas_pipe,
              "more delivery pressure, a larger allowed drop, sizing by pressures solved, steel pipe"},
    RemedyRow{Remedy::gas_meter, "a larger meter and service"},
    RemedyRow{Remedy::water_pressure, "a booster, a larger service, one heater more"},
    RemedyRow{Remedy::hardness, "a softener"},
    RemedyRow{Remedy::sturdier_pipe, "stainless pipe"},
    RemedyRow{Remedy::loop_loss, "a larger allowance for the loop's loss"},
    RemedyRow{Remedy::loop_flow, "another flow or temperature drop of the loop"},
    RemedyRow{Remedy::spare_heater, "one heater more"},
    RemedyRow{Remedy::vent_pipe, "other vent pipe, single vents"},
    RemedyRow{Remedy::piped_air, "outdoor air piped to the heaters"},
    RemedyRow{Remedy::freer_place, "another arrangement, heater or kind of vent"},
    RemedyRow{Remedy::fewer_heaters, "another arrangement, heater or kind of vent, no spare heater"},
};

template <class Rows>
constexpr bool in_enumeration_order(const Rows& rows, auto member) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (static_cast<std::size_t>(rows[i].*member) != i) return false;
    return true;
}
static_assert(in_enumeration_order(group_rows, &GroupRow::group));
static_assert(in_enumeration_order(remedy_rows, &RemedyRow::remedy));
static_assert(group_rows.size() == static_cast<std::size_t>(Group::parts) + 1);
static_assert(remedy_rows.size() == static_cast<std::size_t>(Remedy::fewer_heaters) + 1);

std::string_view fixed_beginning(const CheckRow& row) { return row.id.substr(0, row.id.find('<')); }

bool is_number(std::string_view text) {
    return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

/// Whether a text may stand for a <name>.
bool may_stand_for(std::string_view name, std::string_view text) {
    if (name == "n" || name == "b" || name == "w") return is_number(text);
    if (name == "service") return !text.empty() && text.find('.') == text.npos;
    return !text.empty();
}

bool matches(std::string_view pattern, std::string_view id) {
    const auto open = pattern.find('<');
    if (open == pattern.npos) return pattern == id;
    if (id.substr(0, open) != pattern.substr(0, open)) return false;
    const auto close = pattern.find('>', open);
    const auto name = pattern.substr(open + 1, close - open - 1), rest = pattern.substr(close + 1);
    const auto left = id.substr(open);
    for (std::size_t length = 1; length <= left.size(); ++length)
        if (may_stand_for(name, left.substr(0, length)) && matches(rest, left.substr(length))) return true;
    return false;
}

enum class In { id, title };

std::string filled(std::string_view pattern, const std::vector<Named>& named, In in) {
    std::string text;
    for (std::size_t at = 0; at < pattern.size();) {
        if (pattern[at] != '<') {
            text += pattern[at++];
            continue;
        }
        const auto close = pattern.find('>', at);
        const auto one = std::ranges::find(named, pattern.substr(at + 1, close - at - 1), &Named::name);
        assert(one != named.end() && "a <name> of the row was left open");
        text += in == In::id ? one->id : one->words;
        at = close + 1;
    }
    return text;
}

}  // namespace

std::span<const GroupRow> groups() { return group_rows; }

const GroupRow& row_of(Group group) { return group_rows[static_cast<std::size_t>(group)]; }

std::string_view describe(Remedy remedy) { return remedy_rows[static_cast<std::size_t>(remedy)].says; }

std::span<const GroupOfRows> check_register() {
    static const std::array rows{
        GroupOfRows{Group::demand, demand_rows()},     GroupOfRows{Group::water, water_rows()},
        GroupOfRows{Group::gas, gas_rows()},           GroupOfRows{Group::vent, vent_rows()},
        GroupOfRows{Group::air, air_rows()},           GroupOfRows{Group::condensate, condensate_rows()},
        GroupOfRows{Group::electric, electric_rows()}, GroupOfRows{Group::structure, structure_rows()},
        GroupOfRows{Group::room, room_rows()},         GroupOfRows{Group::safety, safety_rows()},
        GroupOfRows{Group::parts, parts_rows()},
    };
    return rows;
}

std::optional<Place> place_of(std::string_view id) {
    std::optional<Place> best;
    std::size_t order = 0;
    for (const auto& [group, rows] : check_register())
        for (const auto& row : rows) {
            const Place here{order++, group, &row};
            if (!id.starts_with(fixed_beginning(row)) || !matches(row.id, id)) continue;
            if (!best || fixed_beginning(*best->row).size() < fixed_beginning(row).size()) best = here;
        }
    return best;
}

Check new_check(std::string_view pattern, Sources sources, const std::vector<Named>& named) {
    for (const auto& [group, rows] : check_register())
        for (const auto& row : rows) {
            if (row.id != pattern) continue;
            Check check;
            check.id = filled(row.id, named, In::id);
            check.title = filled(row.title, named, In::title);
            check.service = row_of(group).key;
            check.sources = std::move(sources);
            return check;
        }
    assert(false && "no such row in the register of checks");
    return {};
}

void in_report_order(std::vector<Check>& checks) {
    std::vector<std::pair<std::size_t, Check>> placed;
    placed.reserve(checks.size());
    for (auto& check : checks) {
        const auto place = place_of(check.id);
        assert(place && "a check that is not in the register");
        placed.emplace_back(place->order, std::move(check));
    }
    std::ranges::stable_sort(placed, {}, &std::pair<std::size_t, Check>::first);
    for (std::size_t i = 0; i < placed.size(); ++i) checks[i] = std::move(placed[i].second);
}

}  // namespace bw::reason
