// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "catalogue/ports.h"
#include "catalogue/read.h"
#include "text/material.h"

namespace bw::catalogue {

namespace {

constexpr double poorest = 0.5, best = 1.0;

Result<void> wrong(const Heater& h, std::string_view what, std::string expected) {
    return fail(fmt::format("{}: {}", h.key, what), std::move(expected));
}

Result<void> judge_curves(const Heater& h) {
    for (std::size_t i = 0; i < h.efficiency.size(); ++i) {
        const auto& [t, share] = h.efficiency[i];
        if (share < poorest || share > best)
            return wrong(h, fmt::format("efficiency {:.1f} %", 100 * share),
                         "50 % to 100 %, on the gross heating value");
        if (i > 0 && t <= h.efficiency[i - 1].x)
            return wrong(h, fmt::format("efficiency point {} is no warmer than the one before", i + 1),
                         "rising return temperatures");
    }
    const auto& drop = h.pressure_drop;
    if (drop.front().x != VolumeFlow{} || drop.front().y != Pressure{})
        return wrong(h, "pressure-drop does not start at nothing", "a first point of 0 gpm, 0 psi");
    for (std::size_t i = 1; i < drop.size(); ++i)
        if (drop[i].x <= drop[i - 1].x || drop[i].y <= drop[i - 1].y)
            return wrong(h, fmt::format("pressure-drop point {} does not rise", i + 1),
                         "more flow and more loss at each point");
    if (drop.back().x < h.flow_greatest)
        return wrong(h, "pressure-drop stops short of flow-greatest", "a point at or beyond it");
    return {};
}

Result<void> judge_ranges(const Heater& h) {
    if (h.input_least >= h.input_greatest)
        return wrong(h, "input-least is not below input-greatest", "least < greatest");
    if (h.flow_least >= h.flow_greatest) return wrong(h, "flow-least is not below flow-greatest", "least < greatest");
    if (h.water_pressure_least >= h.water_pressure_greatest)
        return wrong(h, "water-pressure-least is not below water-pressure-greatest", "least < greatest");
    if (h.setpoint_greatest > h.water_greatest)
        return wrong(h, "setpoint-greatest is above water-greatest", "setpoint <= water");
    if (h.gas.empty()) return wrong(h, "burns no gas", "at least one table in 'gas'");
    for (std::size_t i = 0; i < h.gas.size(); ++i) {
        if (h.gas[i].least >= h.gas[i].greatest)
            return wrong(h, fmt::format("gas {}: least is not below greatest", text::name(h.gas[i].gas)),
                         "least < greatest");
        for (std::size_t j = 0; j < i; ++j)
            if (h.gas[j].gas == h.gas[i].gas)
                return wrong(h, fmt::format("gas {} stands twice", text::name(h.gas[i].gas)), "each gas once");
    }
    return {};
}

bool is_vent(Material m) { return text::family(m) == text::Family::vent; }

Result<void> judge_vents(const Heater& h) {
    if (h.vents.empty()) return wrong(h, "no vent size", "at least one table in 'vents'");
    for (std::size_t i = 1; i < h.vents.size(); ++i)
        if (h.vents[i].size <= h.vents[i - 1].size)
            return wrong(h, "vents are not in rising sizes", "each size once, rising");
    for (std::size_t i = 1; i < h.common_vents.size(); ++i)
        if (h.common_vents[i].size <= h.common_vents[i - 1].size || h.common_vents[i].most < h.common_vents[i - 1].most)
            return wrong(h, "common-vents do not rise", "each size once, rising, and no fewer heaters on a larger one");
    if (h.common_vents.empty() != h.common_vent_listing.empty())
        return wrong(h,
                     h.common_vents.empty() ? "a common-vent-listing without common-vents"
                                            : "common-vents without a common-vent-listing",
                     "both, as the maker's listing says, or neither");
    if (h.vent_materials.empty()) return wrong(h, "no vent-materials", "vent-polypropylene, vent-cpvc or vent-pvc");
    for (const auto m : h.vent_materials)
        if (!is_vent(m))
            return wrong(h, fmt::format("{} is no vent material", text::name(m)),
                         "vent-polypropylene, vent-cpvc or vent-pvc");
    return {};
}

bool plain_key(std::string_view key) {
    return !key.empty() && key.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == key.npos;
}

}  // namespace

Result<void> judge(const Heater& h) {
    if (!plain_key(h.key)) return fail(fmt::format("heater key '{}'", h.key), "small letters, digits and hyphens");
    for (auto* part : {judge_ranges, judge_curves, judge_ports, judge_vents})
        if (auto ok = part(h); !ok) return ok;
    return {};
}

}  // namespace bw::catalogue
