// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "survey/geometry.h"
#include "survey/room_parts.h"

namespace bw::survey {
namespace {

constexpr std::size_t least_corners = 3, most_corners = 64;
constexpr double shortest_side = 1 * 0.0254, longest_side = 300 * 0.3048, least_area = 9 * 0.3048 * 0.3048;

Result<void> judge_sides(const text::Node& node, const shape::Polygon& corners) {
    const auto items = node.items();
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const double side = wall_length(corners, i);
        if (side >= shortest_side && side <= longest_side * (1 + 1e-9)) continue;
        return items[i].error(
            fmt::format("plan: the side from here to the next corner is {}", units::print_feet_inches(side * metre)),
            "sides of 1 in to 300 ft");
    }
    return {};
}

}  // namespace

std::size_t Plan::wall(int number) const {
    const auto n = corners.size(), i = static_cast<std::size_t>(number - 1);
    return turned ? (n - i) % n : i;
}

int Plan::number(std::size_t wall) const {
    const auto n = corners.size();
    return static_cast<int>(turned ? (n - wall) % n : wall) + 1;
}

Result<Plan> read_plan(const text::Node& node) {
    if (!node.is_array())
        return node.error("plan is not a list", "corners: [[\"0 ft\", \"0 ft\"], [\"20 ft\", \"0 ft\"], ...]");
    const auto items = node.items();
    if (items.size() < least_corners || items.size() > most_corners)
        return node.error(fmt::format("plan has {} corners", items.size()),
                          fmt::format("{} to {} corners", least_corners, most_corners));
    Plan plan;
    for (const auto& item : items) {
        const auto corner = read_corner(item);
        if (!corner) return fail("plan: " + corner.error().what, corner.error().expected, corner.error().place);
        plan.corners.push_back(*corner);
    }
    if (auto fine = judge_sides(node, plan.corners); !fine) return tl::unexpected(fine.error());
    if (shape::crosses_itself(plan.corners))
        return node.error("the room's plan crosses or touches itself", "corners in order, going round the room once");
    const double area = shape::signed_area(plan.corners);
    if (std::abs(area) < least_area)
        return node.error(fmt::format("the room's plan is {:.1f} ft2", std::abs(area) / (0.3048 * 0.3048)),
                          "at least 9 ft2");
    plan.turned = area < 0;
    if (plan.turned) {
        // the first wall stays first: its corners swap, the others follow backwards
        std::reverse(plan.corners.begin(), plan.corners.end());
        std::rotate(plan.corners.begin(), plan.corners.end() - 2, plan.corners.end());
    }
    return plan;
}

}  // namespace bw::survey
