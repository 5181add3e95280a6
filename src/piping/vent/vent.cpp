// SPDX-License-Identifier: MIT
#include "piping/vent/vent.h"

#include <fmt/format.h>

namespace bw::piping {
namespace {

using Plans = std::vector<FluePlan>;

bool material_listed(Builder& b, Material material) {
    if (std::ranges::find(b.heater.vent_materials, material) != b.heater.vent_materials.end()) return true;
    std::string listed;
    for (const auto each : b.heater.vent_materials)
        listed += (listed.empty() ? "" : ", ") + std::string(text::name(each));
    b.give_up(fmt::format("vents: {} is not listed for {}", text::name(material), b.heater.key),
              "preferences.vent-pipe to be one of: " + listed);
    return false;
}

Result<Plans> plan(const Builder& b, Service service, VentStyle style, const survey::Connection& outlet,
                   Material material) {
    if (!outlet.given)
        return fail(fmt::format("{}: the survey names no place where it leaves the room", text::name(service)),
                    service == Service::exhaust ? "connections.exhaust" : "connections.intake");
    const auto all = flues(b, service, style, material);
    if (all.empty()) return fail(fmt::format("{}: no heater to serve", text::name(service)), "a layout with heaters");
    return style == VentStyle::common ? plan_common(b, all, outlet, material) : plan_single(b, all, outlet, material);
}

void record(Builder& b, const FluePlan& plan, Material material, const VentChoice& choice) {
    Sizing sizing;
    sizing.what = plan.flue.name;
    sizing.service = plan.flue.service;
    sizing.material = material;
    sizing.size = plan.size;
    sizing.derivation = plan.derivation;
    sizing.derivation.insert(sizing.derivation.begin(), reason::Step{.says = choice.says});
    if (plan.flue.service == Service::intake && plan.flue.shared)
        sizing.derivation.push_back(
            {.says = "The air pipe is held to the common vent's limits: air is less in volume than the "
                     "exhaust it becomes."});
    sizing.sources = b.heater.sources;
    sizing.sources.push_back({.clause = "terminals at least 12 in apart; fall 1/4 in a foot to the drain",
                              .standing = reason::Standing::common_practice});
    b.built.sizes.push_back(std::move(sizing));
}

void lay(Builder& b, const Plans& plans, Material material, const VentChoice& choice) {
    int outlet = 0;
    for (const auto& each : plans) {
        record(b, each, material, choice);
        if (each.flue.shared)
            lay_common(b, each, material, ++outlet);
        else
            lay_single(b, each, material, ++outlet);
    }
}

/// Screened caps on the heaters' own air ports.
void cap_intakes(Builder& b, Material material) {
    for (const auto& [bank, stand] : standings(b.layout)) {
        const PortRef port = heater_port(b, stand->number, Service::intake);
        if (port == nowhere) continue;
        const Line line{.service = Service::intake,
                        .material = material,
                        .size = b.at(port).size,
                        .name = fmt::format("intake-{}", stand->number),
                        .heater = stand->number,
                        .bank = bank->number};
        b.end(line, port, b.item(Part::intake_terminal, line), "terminal");
    }
}

struct Both {
    Plans exhaust, intake;
};

/// What is planned takes its place for what is planned after it.
void take_all(Builder& b, const Plans& plans, Material material) {
    constexpr int planned = 1 << 23;
    for (const auto& each : plans) {
        const Line line{.service = each.flue.service, .material = material, .size = each.size, .name = each.flue.name};
        for (const auto& body : each.bodies) b.space.take(body, planned);
        take(b.space, each.course, {radius_of(b, line), mouth_of(b, line)}, planned, line.service, behind(each));
    }
}

/// Ways for both, the first service's found first, the other's past it.
Result<Both> in_order(Builder& b, Service first, VentStyle exhaust_style, VentStyle intake_style, Material material) {
    const auto style = [&](Service s) { return s == Service::exhaust ? exhaust_style : intake_style; };
    const auto outlet = [&](Service s) -> const survey::Connection& {
        return s == Service::exhaust ? b.ground.room.exhaust : b.ground.room.intake;
    };
    const Service second = first == Service::exhaust ? Service::intake : Service::exhaust;
    const ClearanceMap before = b.space;
    take_starts(b.space, b, second, material);
    auto one = plan(b, first, style(first), outlet(first), material);
    b.space = before;
    if (!one) return tl::unexpected(one.error());
    take_starts(b.space, b, first, material);
    take_all(b, *one, material);
    auto other = plan(b, second, style(second), outlet(second), material);
    b.space = before;
    if (!other) return tl::unexpected(other.error());
    return first == Service::exhaust ? Both{std::move(*one), std::move(*other)}
                                     : Both{std::move(*other), std::move(*one)};
}

std::string says_other(VentStyle exhaust, VentStyle intake) {
    if (exhaust == VentStyle::common && intake == VentStyle::single)
        return "common vent with an air pipe to each heater: a common air pipe finds no way";
    return exhaust == VentStyle::common ? "common vent: single ones find no way out"
                                        : "single vents: a common one finds no way out";
}

/// As chosen, exhaust or air first; what the survey leaves open is tried other ways before the layout is refused.
Result<Both> plan_both(Builder& b, VentChoice& choice, Material material) {
    const bool common = choice.style == VentStyle::common;
    const auto other = common ? VentStyle::single : VentStyle::common;
    std::vector<std::pair<VentStyle, VentStyle>> styles{{choice.style, choice.style}};
    if (b.ground.vent == survey::VentPreference::any) {
        if (common) styles.emplace_back(VentStyle::common, VentStyle::single);
        styles.emplace_back(other, other);
        if (!common) styles.emplace_back(VentStyle::common, VentStyle::single);
    }
    std::optional<Error> why;
    for (const auto& [exhaust, intake] : styles)
        for (const Service first : {Service::exhaust, Service::intake}) {
            auto both = in_order(b, first, exhaust, intake, material);
            if (!both) {
                if (!why) why = both.error();
                continue;
            }
            if (std::pair(exhaust, intake) != styles.front()) choice.says = says_other(exhaust, intake);
            choice.style = exhaust;
            return both;
        }
    return tl::unexpected(std::move(*why));
}

/// Exhaust alone, where the heaters burn the room's air.
Result<Plans> plan_exhaust(const Builder& b, VentChoice& choice, Material material) {
    auto exhaust = plan(b, Service::exhaust, choice.style, b.ground.room.exhaust, material);
    if (exhaust || b.ground.vent != survey::VentPreference::any) return exhaust;
    const auto style = choice.style == VentStyle::common ? VentStyle::single : VentStyle::common;
    auto plans = plan(b, Service::exhaust, style, b.ground.room.exhaust, material);
    if (!plans) return exhaust;
    choice.style = style;
    choice.says = says_other(style, style);
    return plans;
}

}  // namespace

void add_vents(Builder& b) {
    if (!b.ok()) return;
    const Material material = b.ground.vent_pipe;
    if (!material_listed(b, material)) return;
    VentChoice choice = choose_vents(b);
    if (choice.room_air) {
        const auto exhaust = plan_exhaust(b, choice, material);
        if (!exhaust) return b.give_up(exhaust.error().what, exhaust.error().expected);
        lay(b, *exhaust, material, choice);
        return cap_intakes(b, material);
    }
    const auto both = plan_both(b, choice, material);
    if (!both) return b.give_up(both.error().what, both.error().expected);
    lay(b, both->exhaust, material, choice);
    lay(b, both->intake, material, choice);
}

}  // namespace bw::piping
