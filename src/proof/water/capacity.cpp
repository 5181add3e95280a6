// SPDX-License-Identifier: MIT
#include "proof/checks.h"

namespace bw::proof {
namespace {

using units::amount;
using units::count;

void flow(const View& view, Checks& checks) {
    const auto& capacity = view.capacity;
    const auto all_flow = static_cast<double>(view.heaters()) * capacity.each.flow;
    auto all = new_check("capacity.flow", view.heater.sources);
    all.says = fmt::format("{} heaters give {} at the job's temperature rise; {} may be drawn at once.", view.heaters(),
                           us(amount(all_flow)), us(amount(view.demand.peak)));
    all.derivation = capacity.each.derivation;
    step(all, "Heaters standing in the plant, each at what it delivers.", "V = n Vh",
         {{"n", "heaters", count(view.heaters())}, {"Vh", "flow of one heater", amount(capacity.each.flow)}},
         Term{"V", "flow of all heaters", amount(all_flow)});
    depends_on_fields(all, view.survey, {"supply.coldest", "site.altitude", "gas.heating-value"});
    checks.push_back(at_least(std::move(all), amount(all_flow), amount(view.demand.peak)));
}

void firm(const View& view, Checks& checks) {
    const int down = view.capacity.spare > 0 ? view.capacity.spare : 1;
    const int left = std::max(0, view.heaters() - down);
    const auto firm_flow = static_cast<double>(left) * view.capacity.each.flow;
    auto check = new_check("capacity.flow-firm", {practice()},
                           {{"down", {}, fmt::format("{} heater{}", down, down == 1 ? "" : "s")}});
    step(check, "Flow of the heaters that are left.", "V = (n - d) Vh",
         {{"n", "heaters", count(view.heaters())},
          {"d", "heaters down", count(down)},
          {"Vh", "flow of one heater", amount(view.capacity.each.flow)}},
         Term{"V", "flow left", amount(firm_flow)});
    check = at_least(std::move(check), amount(firm_flow), amount(view.demand.peak));
    if (view.capacity.spare > 0) {
        check.says = "The spare may be down at the peak.";
    } else if (check.status != Status::fail) {
        check.says = "No spare was asked for, yet one may be down at the peak.";
    } else {
        check = reason::referred(std::move(check),
                                 fmt::format("No spare: with one heater down {} of {} is left. The owner decides "
                                             "whether that is enough.",
                                             us(amount(firm_flow)), us(amount(view.demand.peak))));
    }
    checks.push_back(std::move(check));
}

/// Heaters on one unbroken chain of link cables; each chain is one group.
std::vector<std::vector<int>> link_groups(const View& view) {
    std::vector<std::vector<int>> groups;
    std::vector<char> taken(static_cast<std::size_t>(view.heaters()) + 1, 0);
    for (int n = 1; n <= view.heaters(); ++n) {
        if (taken[static_cast<std::size_t>(n)] || view.heater_piece(n) < 0) continue;
        std::vector<int> group{n};
        taken[static_cast<std::size_t>(n)] = 1;
        for (const auto* end : {"link-out", "link-in"}) {
            PortRef at = view.heater_port(n, end);
            while (at.piece >= 0) {
                const auto walk = view.outward(at, [&](int p, int) { return view.piece(p).part == Part::link_cable; });
                at = {};
                for (const auto& s : walk) {
                    const auto& met = view.piece(s.piece);
                    if (met.part != Part::heater || taken[static_cast<std::size_t>(met.heater)]) continue;
                    taken[static_cast<std::size_t>(met.heater)] = 1;
                    group.push_back(met.heater);
                    at = view.heater_port(met.heater, end);
                }
            }
        }
        groups.push_back(std::move(group));
    }
    return groups;
}

std::string of_number(std::size_t number, const char* what) {
    return fmt::format("{} {}{}", number, what, number == 1 ? "" : "s");
}

/// Several groups on common headers know nothing of one another.
void together(const View& view, const std::vector<std::vector<int>>& groups, Checks& checks) {
    if (groups.size() < 2) return;
    auto check = new_check("capacity.groups", view.heater.sources);
    about(check, view, view.of(Part::link_plug));
    std::vector<std::string> told;
    for (const auto& group : groups) {
        const auto [low, high] = std::ranges::minmax(group);
        told.push_back(fmt::format("heaters {} to {}, first heater {}", low, high, group.front()));
    }
    step(check, fmt::format("Groups read off the link cables: {}.", fmt::join(told, "; ")));
    const auto says = fmt::format(
        "{} groups, with no link between them: each stages its own heaters by the flow that "
        "comes to it, all groups set to one temperature.",
        groups.size());
    if (view.heater.groups_together) {
        check.says = says + " The manufacturer lets as many stand on common headers as the limit tells.";
        const auto most = count(*view.heater.groups_together);
        checks.push_back(at_most(std::move(check), count(static_cast<int>(groups.size())), most));
        return;
    }
    checks.push_back(reason::referred(
        std::move(check), says + " The catalogue does not say that the manufacturer lets several stand on common "
                                 "headers (groups-together): ask the manufacturer before ordering."));
}

void group(const View& view, Checks& checks) {
    const auto groups = link_groups(view);
    auto check = new_check("capacity.group", view.heater.sources);
    std::vector<std::size_t> sizes;
    for (const auto& heaters : groups) sizes.push_back(heaters.size());
    const auto largest = static_cast<int>(sizes.empty() ? 0 : std::ranges::max(sizes));
    step(check, fmt::format("Groups read off the link cables: {}.", fmt::join(sizes, ", ")));
    about(check, view, view.of(Part::link_cable));
    check.says = fmt::format("The largest of {} has {} heaters.", of_number(groups.size(), "linked group"), largest);
    checks.push_back(at_most(std::move(check), count(largest), count(view.heater.greatest_group)));
    auto whole = new_check("capacity.linked", {practice()});
    about(whole, view, view.of(Part::link_cable));
    const auto least = (view.heaters() + view.heater.greatest_group - 1) / std::max(1, view.heater.greatest_group);
    checks.push_back(holds(std::move(whole), static_cast<int>(groups.size()) <= least,
                           fmt::format("{} heaters in {}, the fewest their maker allows.", view.heaters(),
                                       of_number(groups.size(), "group")),
                           fmt::format("{} heaters stand in {} groups where {} would do: a link cable is missing.",
                                       view.heaters(), groups.size(), least)));
    together(view, groups, checks);
}

void altitude(const View& view, Checks& checks) {
    auto check = new_check("capacity.altitude", view.heater.sources);
    check.says = "Above its limit the maker does not stand by the burner.";
    depends_on_fields(check, view.survey, {"site.altitude"});
    checks.push_back(at_most(std::move(check), amount(*view.survey.altitude, units::Kind::altitude),
                             amount(view.heater.altitude_greatest, units::Kind::altitude)));
}

void number(const View& view, Checks& checks) {
    auto check = new_check("capacity.number", {by_pieces()});
    for (int n = 1; n <= view.heaters(); ++n) about(check, view, {view.heater_piece(n)});
    const auto have = static_cast<int>(view.of(Part::heater).size());
    checks.push_back(holds(std::move(check), have == view.capacity.installed && have == view.heaters(),
                           fmt::format("{} heaters stand, numbered without a gap.", have),
                           fmt::format("{} heaters stand where {} were decided on.", have, view.capacity.installed)));
}

}  // namespace

void check_capacity(const View& view, Checks& checks) {
    number(view, checks);
    flow(view, checks);
    firm(view, checks);
    group(view, checks);
    altitude(view, checks);
}

}  // namespace bw::proof
