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

/// What the survey leaves open is tried the other way before the layout is refused.
void try_the_other(const Builder& b, Material material, VentChoice& choice, Result<Plans>& exhaust) {
    const bool common = choice.style == VentStyle::common;
    const auto style = common ? VentStyle::single : VentStyle::common;
    auto plans = plan(b, Service::exhaust, style, b.ground.room.exhaust, material);
    if (!plans) return;
    exhaust = std::move(plans);
    choice.style = style;
    choice.says = common ? "single vents: a common one finds no way out" : "common vent: single ones find no way out";
}

}  // namespace

void add_vents(Builder& b) {
    if (!b.ok()) return;
    const Material material = b.ground.vent_pipe;
    if (!material_listed(b, material)) return;
    VentChoice choice = choose_vents(b);
    auto exhaust = plan(b, Service::exhaust, choice.style, b.ground.room.exhaust, material);
    if (!exhaust && b.ground.vent == survey::VentWish::any) try_the_other(b, material, choice, exhaust);
    if (!exhaust) return b.give_up(exhaust.error().what, exhaust.error().expected);
    lay(b, *exhaust, material, choice);
    if (choice.room_air) return cap_intakes(b, material);
    auto intake = plan(b, Service::intake, choice.style, b.ground.room.intake, material);
    if (!intake) return b.give_up(intake.error().what, intake.error().expected);
    lay(b, *intake, material, choice);
}

}  // namespace bw::piping
