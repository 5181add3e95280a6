// SPDX-License-Identifier: MIT
// What the pieces on the water side must be: valves at each heater, listed for drinking water, copper kept from steel.
#include <map>

#include "code/water.h"
#include "proof/checks.h"
#include "reason/document.h"
#include "text/material.h"

namespace bw::proof {
namespace {

bool is_water(Service service) {
    return service == Service::cold || service == Service::hot || service == Service::recirculation;
}

/// The valve on a heater's own branch, or -1.
int own_valve(const View& view, const network::Tree& tree, int number, Part service_valve) {
    const auto path = network::path_to(tree, number);
    for (auto at = path.rbegin(); at != path.rend(); ++at) {
        const auto& passage = tree.traversals[static_cast<std::size_t>(*at)];
        if (passage.heaters > 1) return -1;
        const auto& piece = view.piece(passage.piece);
        if (piece.part == service_valve || (piece.part == Part::ball_valve && piece.heater == number))
            return passage.piece;
    }
    return -1;
}

void service_valves(const View& view, Checks& checks) {
    for (int n = 1; n <= view.heaters(); ++n) {
        auto check = new_check("water.valves.heater-<n>", {code::heater_isolation().source, practice()}, {{"n", n}});
        const auto &cold = view.tree(Service::cold), &hot = view.tree(Service::hot);
        const int cold_valve = cold ? own_valve(view, *cold, n, Part::service_valve_cold) : -1;
        const int hot_valve = hot ? own_valve(view, *hot, n, Part::service_valve_hot) : -1;
        about(check, view, {view.heater_piece(n), cold_valve, hot_valve});
        const std::string missing = cold_valve < 0 && hot_valve < 0 ? "cold and hot" : cold_valve < 0 ? "cold" : "hot";
        checks.push_back(holds(std::move(check), cold_valve >= 0 && hot_valve >= 0,
                               "It can be shut off, flushed and taken away while the others run.",
                               fmt::format("heater {} has no {} valve of its own.", n, missing)));
    }
}

void reached(const View& view, Checks& checks) {
    for (const auto service : {Service::cold, Service::hot}) {
        auto check = new_check("water.reached.<service>", {by_pieces()}, {named("service", service)});
        const auto& tree = view.tree(service);
        std::vector<int> left_out;
        for (int n = 1; n <= view.heaters(); ++n)
            if (!tree || network::path_to(*tree, n).empty()) left_out.push_back(view.heater_piece(n));
        about(check, view, left_out);
        const auto why = tree ? fmt::format("{} of {} heaters are not reached.", left_out.size(), view.heaters())
                              : units::describe(tree.error());
        checks.push_back(holds(std::move(check), tree && left_out.empty(),
                               "A way of pipe leads from the point of connection to each.", why));
    }
}

void listed(const View& view, Checks& checks) {
    const auto rule = code::drinking_water_materials();
    auto check = new_check("water.materials", {rule.source, reason::cite(reason::Document::nsf_61, {}),
                                               reason::cite(reason::Document::nsf_372, {})});
    std::vector<int> wrong;
    std::map<std::string, int> keys;
    for (int i = 0; i < static_cast<int>(view.plant.pieces.size()); ++i) {
        const auto& piece = view.piece(i);
        const bool wetted = std::any_of(piece.ports.begin(), piece.ports.end(),
                                        [](const auto& port) { return is_water(port.service); });
        if (!wetted || piece.part == Part::connection || piece.part == Part::heater || piece.part == Part::hanger)
            continue;
        const bool ok = view.pipe(i) ? view.pipe(i)->drinking_water : view.item(i) && view.item(i)->drinking_water;
        if (!ok && keys.emplace(piece.item, i).second) wrong.push_back(i);
    }
    about(check, view, wrong);
    const auto names = wrong.empty() ? std::string{} : view.piece(wrong.front()).item;
    checks.push_back(holds(std::move(check), wrong.empty(),
                           "Every pipe, fitting, valve and connector is listed; the heaters by their own listing.",
                           fmt::format("{} kinds of piece are not listed, among them {}.", wrong.size(), names)));
}

bool is_copper(Material m) { return text::family(m) == text::Family::copper; }
bool is_steel(Material m) { return text::family(m) == text::Family::steel; }

void metals(const View& view, Checks& checks) {
    auto check = new_check("water.dielectric", {code::dissimilar_metals().source});
    std::vector<int> wrong;
    int kept_apart = 0;
    for (const auto& joint : view.plant.joints) {
        const int a = joint.a.piece, b = joint.b.piece;
        if (!is_water(view.plant.at(joint.a).service)) continue;
        const bool dielectric = view.piece(a).part == Part::dielectric || view.piece(b).part == Part::dielectric;
        kept_apart += dielectric;
        const auto one = view.material(a), other = view.material(b);
        if (dielectric || !one || !other) continue;
        if ((is_copper(*one) && is_steel(*other)) || (is_steel(*one) && is_copper(*other)))
            wrong.insert(wrong.end(), {a, b});
    }
    about(check, view, wrong);
    const auto first = wrong.empty() ? std::string{}
                                     : fmt::format("{} of copper and steel meet in {} and {}.", wrong.size() / 2,
                                                   view.name(wrong[0]), view.name(wrong[1]));
    checks.push_back(holds(std::move(check), wrong.empty(),
                           fmt::format("No copper is joined straight to steel; {} joint{} made by dielectric fittings.",
                                       kept_apart, kept_apart == 1 ? " is" : "s are"),
                           first));
}

}  // namespace

void check_water_pieces(const View& view, Checks& checks) {
    reached(view, checks);
    service_valves(view, checks);
    listed(view, checks);
    metals(view, checks);
}

}  // namespace bw::proof
