// SPDX-License-Identifier: MIT
// Water divides by the sizes themselves: choices of headers and mains are solved by rising cost until one passes.

#include <algorithm>

#include "code/water.h"
#include "flow/solver.h"
#include "network/water_network.h"
#include "piping/size/economy.h"
#include "piping/size/least_cost.h"
#include "piping/size/price.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

constexpr double kept_back = 0.05;  ///< of a limit, so that no check is tight
constexpr int most_tried = 400;
constexpr int sizes_up = 4;  ///< beyond the least for the velocity
/// IPC 2018 Table 604.3 asks 20 psi at mixing valves (from memory).
const units::Pressure least_left = code::mixing_valve_pressure().value;

/// One header, or one main: its groups from the feed on, and the sizes they may have together.
struct List {
    Service service{};
    std::vector<Group> groups;
    std::vector<std::vector<Nominal>> sizes;  ///< by rising cost
    std::vector<double> costs;
};

class Water {
public:
    Water(const SizingInputs& brief, const Builder& b, const Sizes& handbook, const Sizes* floor)
        : brief_(brief), b_(b), handbook_(handbook), floor_(floor), prices_(brief, b) {}

    std::optional<CheapestSizes> solve() {
        for (const Service service : {Service::cold, Service::hot})
            if (!read(service)) return std::nullopt;
        const auto feed =
            network::water_feed(brief_.demand, brief_.capacity, b_.ground.heaters, *brief_.survey.supply.pressure);
        if (!feed) return std::nullopt;
        feed_ = *feed;
        auto network = network::water_network(b_.built.plant, b_.catalogue, b_.heater, feed_);
        if (!network) return std::nullopt;
        network_ = std::move(*network);
        network_.network.nodes[static_cast<std::size_t>(network_.delivery)].inflow =
            -(feed_.design.value() * feed_.hot.density.value());
        find_resized();
        auto solver = flow::Solver::analyse(network_.network);
        if (!solver) return std::nullopt;
        solver_.emplace(std::move(*solver));
        std::vector<std::vector<double>> costs;
        for (const auto& list : lists_) costs.push_back(list.costs);
        // where no sizes leave pressure enough the supply is to blame: then the heaters at least share alike
        auto found = cheapest(costs, most_tried, [&](const std::vector<int>& option) { return passes(option, true); });
        const bool enough = found.option.has_value();
        if (!enough)
            found = cheapest(costs, most_tried, [&](const std::vector<int>& option) { return passes(option, false); });
        if (!found.option) return std::nullopt;
        CheapestSizes out{handbook_, found.tried, enough};
        for (std::size_t i = 0; i < lists_.size(); ++i) {
            const auto& sizes = lists_[i].sizes[static_cast<std::size_t>((*found.option)[i])];
            for (std::size_t k = 0; k < sizes.size(); ++k)
                set_size(out.sizes, lists_[i].service, lists_[i].groups[k], sizes[k]);
        }
        return out;
    }

private:
    bool read(Service service) {
        const auto& plant = b_.built.plant;
        const auto tree =
            network::trace_service(plant, service, plant.find(service == Service::cold ? "site.cold" : "site.hot"));
        if (!tree) return false;
        const auto reaches = reaches_of(b_, *tree);
        const auto pieces = pieces_by_group(reaches);
        std::map<std::pair<Group::Role, int>, List> lists;
        std::map<Group, int> heaters;
        for (const auto& reach : reaches) heaters[reach.group] = std::max(heaters[reach.group], reach.heaters);
        for (const auto& [group, of_group] : pieces) {
            for (const int i : of_group) group_of_[i] = {service, group};
            if (group.role == Group::Role::branch) continue;
            auto& list = lists[{group.role, group.bank}];
            list.service = service;
            list.groups.push_back(group);
        }
        for (auto& [key, list] : lists) {
            if (!fill(list, pieces, heaters)) return false;
            lists_.push_back(std::move(list));
        }
        return true;
    }

    /// All sizes that never grow away from the feed and carry the flow within the velocity limit.
    bool fill(List& list, const std::map<Group, std::vector<int>>& pieces, const std::map<Group, int>& heaters) {
        Line line = piping::line_of(b_, list.service);
        const auto temperature = list.service == Service::hot ? brief_.demand.hot : brief_.demand.cold;
        const auto limit = code::water_velocity_limit(line.material, temperature);
        if (!limit) return false;
        std::vector<std::pair<double, std::vector<Nominal>>> all{{0, {}}};
        for (const auto& group : list.groups) {
            const auto flow = water_flow(brief_, heaters.at(group));
            std::vector<std::pair<double, std::vector<Nominal>>> longer;
            int fast_enough = 0;
            for (const auto* row : b_.catalogue.sizes(line.material)) {
                if (row->size < handbook_.water_branch) continue;  // a header has tees of its heaters' branches
                if (floor_ && row->size < size_of(*floor_, list.service, group)) continue;
                if (flow / (0.25 * units::pi * row->inside * row->inside) > limit->value) continue;
                if (row->size > size_of(handbook_, list.service, group) && ++fast_enough > sizes_up) break;
                line.size = row->size;
                const auto cost =
                    prices_.of(pieces.at(group), size_of(b_.sizes, list.service, group), line, branch_of(group));
                if (!cost) continue;
                for (const auto& [so_far, sizes] : all) {
                    if (!sizes.empty() && sizes.back() < row->size) continue;
                    Line before = line;
                    before.size = sizes.empty() ? row->size : sizes.back();
                    if (before.size != row->size &&
                        !may_change(b_, b_.layout.banks[static_cast<std::size_t>(group.bank) - 1], list.service,
                                    group.length, before.size, row->size))
                        continue;
                    auto more = sizes;
                    more.push_back(row->size);
                    longer.emplace_back(so_far + *cost + prices_.change(before, row->size), std::move(more));
                }
            }
            all = std::move(longer);
        }
        std::ranges::sort(all);
        for (auto& [cost, sizes] : all) {
            list.costs.push_back(cost);
            list.sizes.push_back(std::move(sizes));
        }
        return !all.empty();
    }

    /// Links of pipe in the size of a group; what is of another size, or led to by a tee's outlet, stays.
    void find_resized() {
        resized_.resize(network_.stretch.size());
        for (std::size_t link = 0; link < network_.stretch.size(); ++link) {
            if (network_.stretch[link].length <= 0) continue;
            for (const int i : network_.pieces[link]) {
                const auto& piece = b_.built.plant.pieces[static_cast<std::size_t>(i)];
                if (piece.cut <= 0) continue;
                const auto& [service, group] = group_of_.at(i);
                if (piece.size == size_of(b_.sizes, service, group)) resized_[link] = group_of_.at(i);
                break;
            }
        }
    }

    [[nodiscard]] std::optional<Nominal> branch_of(const Group& group) const {
        if (group.role != Group::Role::header) return std::nullopt;
        return handbook_.water_branch;
    }

    bool passes(const std::vector<int>& option, bool by_pressure) {
        std::map<std::pair<Service, Group>, const catalogue::Pipe*> laid;
        for (std::size_t i = 0; i < lists_.size(); ++i)
            for (std::size_t k = 0; k < lists_[i].groups.size(); ++k)
                laid[{lists_[i].service, lists_[i].groups[k]}] =
                    b_.catalogue.pipe(piping::line_of(b_, lists_[i].service).material,
                                      lists_[i].sizes[static_cast<std::size_t>(option[i])][k]);
        for (std::size_t link = 0; link < network_.stretch.size(); ++link) {
            auto stretch = network_.stretch[link];
            const auto group = resized_[link];
            const auto found = group ? laid.find(*group) : laid.end();
            if (found == laid.end() || !found->second) continue;
            stretch.bore = found->second->inside.value();
            stretch.roughness = found->second->roughness.value();
            const auto& water = found->first.first == Service::cold ? feed_.cold : feed_.hot;
            if (!solver_->set_law(static_cast<int>(link),
                                  flow::by_mass(stretch, water.density.value(), water.viscosity.value())))
                return false;
        }
        const auto solved = solver_->solve(flow::Start::warm);
        return solved && shares_alike(**solved) && (!by_pressure || leaves_pressure(**solved));
    }

    [[nodiscard]] bool shares_alike(const flow::Solution& solution) const {
        double least = 1e30, most = 0;
        for (const int link : network_.heater) {
            if (link < 0) continue;
            least = std::min(least, solution.flow[static_cast<std::size_t>(link)]);
            most = std::max(most, solution.flow[static_cast<std::size_t>(link)]);
        }
        return 1 - least / most <= (1 - kept_back) * network::most_unlike;
    }

    [[nodiscard]] bool leaves_pressure(const flow::Solution& solution) const {
        const auto at = [&](int node) { return solution.potential[static_cast<std::size_t>(node)]; };
        if (at(network_.delivery) < (1 + kept_back) * least_left.value()) return false;
        return std::ranges::all_of(network_.heater, [&](int link) {
            return link < 0 || at(network_.network.links[static_cast<std::size_t>(link)].from) >=
                                   (1 + kept_back) * b_.heater.water_pressure_least.value();
        });
    }

    const SizingInputs& brief_;
    const Builder& b_;
    const Sizes& handbook_;
    const Sizes* floor_;
    Prices prices_;
    std::vector<List> lists_;
    std::map<int, std::pair<Service, Group>> group_of_;              ///< by piece
    std::vector<std::optional<std::pair<Service, Group>>> resized_;  ///< by link
    network::WaterFeed feed_{};
    network::WaterNetwork network_;
    std::optional<flow::Solver> solver_;
};

}  // namespace

std::optional<CheapestSizes> thrifty_water(const SizingInputs& brief, const Builder& b, const Sizes& handbook,
                                           const Sizes* floor) {
    return Water(brief, b, handbook, floor).solve();
}

}  // namespace bw::piping
