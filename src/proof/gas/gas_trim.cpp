// SPDX-License-Identifier: MIT
// What stands between the gas header and each heater: shut-off valve, union, sediment trap, connector.
#include "code/gas_pipe.h"
#include "code/gas_rules.h"
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::count;

/// The way to one heater as traversals, root first; empty where no gas reaches it.
struct Way {
    const network::Tree* tree = nullptr;
    std::vector<int> at;
    [[nodiscard]] const network::Traversal& operator[](std::size_t i) const {
        return tree->traversals[static_cast<std::size_t>(at[i])];
    }
    [[nodiscard]] std::size_t size() const { return at.size(); }
};

Way way_to(const View& view, int number) {
    const auto& tree = view.tree(Service::gas);
    if (!tree) return {};
    return {&*tree, network::path_to(*tree, number)};
}

bool shuts_gas(const View& view, int piece) {
    const auto part = view.piece(piece).part;
    if (part != Part::gas_valve && part != Part::ball_valve) return false;
    const auto* row = view.item(piece);
    return row && row->gas_listed;
}

/// Where the heater's own shut-off stands on its way: the nearest that no other heater is fed through; -1 for none.
int own_valve(const View& view, const Way& way) {
    for (auto i = static_cast<int>(way.size()) - 1; i >= 0; --i) {
        const auto& passage = way[static_cast<std::size_t>(i)];
        if (passage.heaters > 1) return -1;
        if (shuts_gas(view, passage.piece)) return i;
    }
    return -1;
}

int last_of(const View& view, const Way& way, Part part) {
    for (auto i = static_cast<int>(way.size()) - 1; i >= 0; --i) {
        const auto& passage = way[static_cast<std::size_t>(i)];
        if (passage.heaters > 1) return -1;
        if (view.piece(passage.piece).part == part) return i;
    }
    return -1;
}

void valve(const View& view, int n, const Way& way, Checks& checks) {
    auto check = new_check("gas.valve.heater-<n>",
                           {code::gas_appliance_shutoff().source, code::gas_shutoff_distance().source}, {{"n", n}});
    about(check, view, {view.heater_piece(n)});
    const int at = own_valve(view, way);
    if (at < 0) {
        checks.push_back(holds(
            std::move(check), false, {},
            fmt::format("heater {} has no gas shut-off valve of its own between the header and its gas port.", n)));
        return;
    }
    const auto& passage = way[static_cast<std::size_t>(at)];
    about(check, view, {passage.piece});
    const auto away = (way[way.size() - 1].along - passage.along) * units::metre;
    check.says = fmt::format("{} shuts off heater {} alone, measured along the pipe to its gas port.",
                             view.name(passage.piece), n);
    checks.push_back(at_most(std::move(check), amount(away), amount(code::gas_shutoff_distance().value)));
}

void union_after(const View& view, int n, const Way& way, Checks& checks) {
    auto check = new_check("gas.union.heater-<n>", {code::gas_union().source}, {{"n", n}});
    const int valve_at = own_valve(view, way), at = last_of(view, way, Part::union_joint);
    about(check, view, {view.heater_piece(n), at < 0 ? -1 : way[static_cast<std::size_t>(at)].piece});
    checks.push_back(holds(std::move(check), valve_at >= 0 && at > valve_at,
                           "A union stands after the valve, so the heater comes off with the gas shut.",
                           valve_at < 0 ? fmt::format("heater {} has no shut-off valve a union could stand after.", n)
                           : at < 0     ? fmt::format("heater {} has no gas union.", n)
                                        : fmt::format("heater {}: its union stands before the valve.", n)));
}

/// What hangs in an opening: pipe or nipple, then a cap, nothing else.
bool capped_leg(const View& view, PortRef opening, std::vector<int>& pieces) {
    const auto leg = view.outward(opening, [](int, int) { return true; });
    bool pipe = false;
    for (const auto& s : leg) {
        pieces.push_back(s.piece);
        const auto part = view.piece(s.piece).part;
        if (part == Part::nipple || part == Part::pipe)
            pipe = true;
        else if (part != Part::cap)
            return false;
    }
    return pipe && !leg.empty() && view.piece(leg.back().piece).part == Part::cap;
}

/// Why a tee on the way is no sediment trap; empty when it is one.
std::string no_trap(const View& view, const network::Traversal& passage, std::vector<int>& pieces) {
    const auto& tee = view.piece(passage.piece);
    if (passage.in < 0 || passage.out < 0) return view.name(passage.piece) + " is no way through";
    const auto& in = tee.ports[static_cast<std::size_t>(passage.in)];
    const auto& out = tee.ports[static_cast<std::size_t>(passage.out)];
    for (int p = 0; p < static_cast<int>(tee.ports.size()); ++p) {
        const auto& port = tee.ports[static_cast<std::size_t>(p)];
        if (p == passage.in || p == passage.out || port.service == Service::structure) continue;
        if (port.facing.z > -0.99) return view.name(passage.piece) + "'s spare opening does not look down";
        if (!capped_leg(view, {passage.piece, p}, pieces))
            return view.name(passage.piece) + "'s lower opening is not closed by a nipple and cap";
        if (shape::dot(in.facing, out.facing) < -0.5)
            return "gas goes straight through " + view.name(passage.piece) + " and carries its dirt along";
        return {};
    }
    return view.name(passage.piece) + " has no spare opening";
}

void trap(const View& view, int n, const Way& way, Checks& checks) {
    auto check = new_check("gas.trap.heater-<n>", {code::gas_sediment_trap().source}, {{"n", n}});
    about(check, view, {view.heater_piece(n)});
    const int valve_at = own_valve(view, way);
    std::string why =
        fmt::format("no tee with a capped nipple stands between heater {}'s shut-off valve and its gas port", n);
    for (std::size_t i = valve_at < 0 ? way.size() : static_cast<std::size_t>(valve_at) + 1; i < way.size(); ++i) {
        if (view.piece(way[i].piece).part != Part::tee) continue;
        std::vector<int> pieces{way[i].piece};
        why = no_trap(view, way[i], pieces);
        if (!why.empty()) continue;
        about(check, view, pieces);
        const auto away = (way[way.size() - 1].along - way[i].along) * units::metre;
        step(check, "From the trap to the heater's gas port, along the pipe.", {}, {},
             Term{"L", "distance", amount(away)});
        checks.push_back(
            holds(std::move(check), true,
                  "Downstream of the valve the gas turns in a tee whose bottom opening holds a capped nipple.", {}));
        return;
    }
    checks.push_back(holds(std::move(check), false, {}, why + "."));
}

void connector(const View& view, int n, const Way& way, Checks& checks) {
    auto check = new_check("gas.connector.heater-<n>",
                           {code::gas_connector().source, code::gas_connector_length().source}, {{"n", n}});
    about(check, view, {view.heater_piece(n)});
    std::vector<int> flexibles;
    for (std::size_t i = 0; i < way.size(); ++i)
        if (way[i].heaters <= 1 && view.piece(way[i].piece).part == Part::flexible_gas)
            flexibles.push_back(way[i].piece);
    about(check, view, flexibles);
    if (way.size() == 0 || flexibles.size() > 1) {
        checks.push_back(
            holds(std::move(check), false, {},
                  way.size() == 0
                      ? fmt::format("heater {} is not reached by gas.", n)
                      : fmt::format("heater {} has {} gas connectors in a row, one is allowed.", n, flexibles.size())));
        return;
    }
    if (flexibles.empty()) {
        checks.push_back(holds(std::move(check), true, "Connected by rigid pipe.", {}));
        return;
    }
    const auto* row = view.item(flexibles.front());
    const auto length = view.number(flexibles.front(), "length");
    if (!row || !row->gas_listed || !length) {
        checks.push_back(
            holds(std::move(check), false, {},
                  fmt::format("{} is not a listed gas connector of known length.", view.name(flexibles.front()))));
        return;
    }
    check.says = "One listed connector, no longer than allowed, in the same room as its valve.";
    checks.push_back(
        at_most(std::move(check), amount(*length * units::metre), amount(code::gas_connector_length().value)));
}

}  // namespace

void check_gas_trim(const View& view, Checks& checks) {
    for (int n = 1; n <= view.heaters(); ++n) {
        const auto way = way_to(view, n);
        valve(view, n, way, checks);
        union_after(view, n, way, checks);
        trap(view, n, way, checks);
        connector(view, n, way, checks);
    }
}

}  // namespace bw::proof
