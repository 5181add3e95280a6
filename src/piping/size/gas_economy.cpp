// SPDX-License-Identifier: MIT
// Gas is a tree whose flows are known: the cheapest sizes are found exactly.

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "code/gas_pipe.h"
#include "network/gas_loss.h"
#include "piping/main/main_parts.h"
#include "piping/size/economy.h"
#include "piping/size/least_cost.h"
#include "piping/size/price.h"
#include "units/constants.h"

namespace bw::piping {
namespace {

using units::Length;
using units::Pressure;
using units::VolumeFlow;

constexpr double kept_back = 0.05;  ///< of a limit, so that no check is tight
/// Where no table holds the size up: faster gas is heard (common practice, no source).
const units::Velocity fastest = 60.0 * units::foot_per_second;

/// One pressure from its inlet to its ends: before the regulator, or behind it.
struct Zone {
    bool before_regulator = false;
    code::GasFeed feed;
    code::GasEquation equation{};
    double most = 0;  ///< what a way may lose
};

/// A loss of the zone's: of pressure, or of its square where the code's equation is in squares.
double in_zone(const Zone& zone, Pressure entering, Pressure lost) {
    if (zone.equation == code::GasEquation::low_pressure) return lost.value();
    constexpr double atmosphere = units::atmosphere_pascal;
    const double first = entering.value() + atmosphere, last = first - lost.value();
    return first * first - last * last;
}

/// Pieces of one bore in a row: by the code's equation over pipe and the pipe its fittings count as, and by velocity
/// heads of what it does not list.
struct Run {
    double length = 0, heads = 0;

    void add(const Piece& piece, const network::Traversal& passage, Length bore) {
        if (passage.in < 0 || passage.out < 0 || piece.part == Part::regulator) return;
        const Vec way = piece.ports[static_cast<std::size_t>(passage.out)].at -
                        piece.ports[static_cast<std::size_t>(passage.in)].at;
        const auto fitting = network::gas_fitting(piece, passage, bore);
        length += std::abs(way.x) + std::abs(way.y) + std::abs(way.z) + fitting.as_pipe.value();
        heads += fitting.velocity_heads;
    }

    [[nodiscard]] std::optional<double> loss(const Zone& zone, Length bore, VolumeFlow flow) const {
        Pressure lost = network::lost_by_heads(heads, zone.feed.specific_gravity, bore, flow);
        if (length > 0) {
            const auto drop = code::gas_drop_by(zone.equation, zone.feed, bore, Length::from_value(length), flow);
            if (!drop) return std::nullopt;
            lost += *drop;
        }
        return in_zone(zone, zone.feed.inlet, lost);
    }
};

class Gas {
public:
    Gas(const SizingInputs& brief, const Builder& b, const Sizes& handbook, const Sizes* floor,
        std::vector<Reach> reaches)
        : brief_(brief),
          b_(b),
          handbook_(handbook),
          floor_(floor),
          reaches_(std::move(reaches)),
          pieces_(pieces_by_group(reaches_)),
          prices_(brief, b),
          line_(piping::line_of(b, Service::gas)),
          rows_(b.catalogue.sizes(line_.material)) {
        for (const auto& reach : reaches_) heaters_[reach.group] = std::max(heaters_[reach.group], reach.heaters);
        std::ranges::sort(rows_, {}, [](const auto* row) { return row->inside.value(); });
    }

    std::optional<Sizes> solve() {
        for (const double back : {kept_back, 0.0}) {
            sizes_ = handbook_;
            const auto zones = zones_of(back);
            if (zones.empty()) return std::nullopt;
            if (std::ranges::all_of(zones, [&](const Zone& zone) { return solve(zone); })) return sizes_;
        }
        return std::nullopt;
    }

private:
    std::vector<Zone> zones_of(double back) const {
        const auto& gas = brief_.survey.gas;
        const auto* inlet = b_.heater.inlet(*gas.kind);
        if (!inlet) return {};
        const Pressure delivery = *gas.delivery_pressure, allowed = (1 - back) * *gas.allowed_drop;
        const Pressure least = (1 + back) * inlet->least;
        const auto zone = [&](Pressure entering, Pressure most) {
            Zone z{false, {*gas.kind, *gas.specific_gravity, entering}, code::gas_equation(entering), 0};
            z.most = in_zone(z, entering, most);
            return z;
        };
        for (const auto& piece : b_.built.plant.pieces) {
            if (piece.part != Part::regulator) continue;
            const auto* row = b_.catalogue.item(piece.item);
            const auto outlet = row ? row->number("outlet") : std::nullopt;
            if (!outlet) return {};
            auto first = zone(delivery, allowed);
            first.before_regulator = true;
            return {first, zone(Pressure::from_value(*outlet), Pressure::from_value(*outlet) - least)};
        }
        return {zone(delivery, std::min(delivery - least, allowed))};
    }

    /// The branches have one size for all heaters, so each is tried.
    bool solve(const Zone& zone) {
        std::optional<LeastCost> best;
        std::vector<std::size_t> of_zone;
        for (std::size_t i = 0; i < reaches_.size(); ++i)
            if (in(zone, reaches_[i])) of_zone.push_back(i);
        if (of_zone.empty()) return false;
        const Change change = [&](std::size_t stretch, int from, int to) {
            Line line = line_;
            line.size = rows_[static_cast<std::size_t>(from)]->size;
            const Nominal smaller = rows_[static_cast<std::size_t>(to)]->size;
            const Group& group = reaches_[of_zone[stretch]].group;
            if (group.role == Group::Role::header && group.length > 0 &&
                !may_change(b_, b_.layout.banks[static_cast<std::size_t>(group.bank) - 1], Service::gas, group.length,
                            line.size, smaller))
                return std::numeric_limits<double>::infinity();
            return prices_.change(line, smaller);
        };
        for (std::size_t branch = 0; branch < rows_.size(); ++branch) {
            if (!zone.before_regulator && !allowed({Group::Role::branch}, branch)) continue;
            if (best && at_least(zone, branch) >= best->cost) continue;
            auto found = least_cost(stretches(zone, of_zone, branch), zone.most, change);
            if (found && (!best || found->cost < best->cost - 1e-9)) best = std::move(found);
            if (zone.before_regulator) break;
        }
        if (!best) return false;
        for (std::size_t k = 0; k < of_zone.size(); ++k)
            set_size(sizes_, Service::gas, reaches_[of_zone[k]].group,
                     rows_[static_cast<std::size_t>(best->size[k])]->size);
        return true;
    }

    /// Nothing with branches of that size costs less: every group as cheap as it can be by itself.
    [[nodiscard]] double at_least(const Zone& zone, std::size_t branch) {
        double sum = 0;
        for (const auto& [group, pieces] : pieces_) {
            if ((group.role == Group::Role::service) != zone.before_regulator) continue;
            double cheapest = 1e30;
            for (std::size_t row = 0; row < rows_.size(); ++row) {
                if (group.role == Group::Role::branch ? row != branch : !allowed(group, row)) continue;
                cheapest = std::min(cheapest, cost_of(group, row, branch).value_or(1e30));
            }
            sum += cheapest;
        }
        return sum;
    }

    [[nodiscard]] static bool in(const Zone& zone, const Reach& reach) {
        return reach.heaters > 0 && (reach.group.role == Group::Role::service) == zone.before_regulator;
    }

    /// Not below what the heater's port, an earlier round or the code's table asks, where the table governs.
    [[nodiscard]] bool allowed(const Group& group, std::size_t row) const {
        const Nominal size = rows_[row]->size;
        if (floor_ && size < size_of(*floor_, Service::gas, group)) return false;
        if (!*brief_.survey.preferences.engineered_gas) return size >= size_of(handbook_, Service::gas, group);
        const auto* port = b_.heater.port("gas");
        if (flow_of(heaters_.at(group)) / (0.25 * units::pi * rows_[row]->inside * rows_[row]->inside) > fastest)
            return false;
        // a header has tees of its heaters' branches
        return group.role == Group::Role::service || !port || size >= port->size;
    }

    [[nodiscard]] VolumeFlow flow_of(int heaters) const {
        return static_cast<double>(heaters) * brief_.capacity.each.input / *brief_.survey.gas.heating_value;
    }

    std::vector<Stretch> stretches(const Zone& zone, const std::vector<std::size_t>& of_zone, std::size_t branch) {
        std::vector<int> place(reaches_.size(), -1);
        std::vector<Stretch> out;
        std::map<Group, bool> priced;
        for (const std::size_t i : of_zone) {
            const auto& reach = reaches_[i];
            const bool is_branch = reach.group.role == Group::Role::branch;
            Stretch stretch;
            const bool first = !std::exchange(priced[reach.group], true);
            for (int up = reach.before; up >= 0 && stretch.before < 0;
                 up = reaches_[static_cast<std::size_t>(up)].before)
                stretch.before = place[static_cast<std::size_t>(up)];
            stretch.behind = is_branch                       ? Stretch::Behind::any
                             : stretch.before >= 0 && !first ? Stretch::Behind::same
                                                             : Stretch::Behind::no_larger;
            for (std::size_t row = 0; row < rows_.size(); ++row) {
                const bool may = is_branch ? row == branch : allowed(reach.group, row);
                stretch.offers.push_back(may ? offer(zone, i, row, branch, first) : std::nullopt);
            }
            place[i] = static_cast<int>(out.size());
            out.push_back(std::move(stretch));
        }
        return out;
    }

    /// The whole group's cost is asked with its first reach.
    std::optional<Offer> offer(const Zone& zone, std::size_t i, std::size_t row, std::size_t branch, bool first) {
        const auto lost = loss(zone, i, row);
        if (!lost) return std::nullopt;
        Offer out{0, *lost};
        if (!first) return out;
        const auto cost = cost_of(reaches_[i].group, row, branch);
        if (!cost) return std::nullopt;
        out.cost = *cost;
        return out;
    }

    std::optional<double> cost_of(const Group& group, std::size_t row, std::size_t branch) {
        const auto key = std::tuple(group, row, branch);
        if (const auto known = costs_.find(key); known != costs_.end()) return known->second;
        Line line = line_;
        line.size = rows_[row]->size;
        const bool header = group.role == Group::Role::header;
        return costs_[key] = prices_.of(pieces_.at(group), size_of(b_.sizes, Service::gas, group), line,
                                        header ? std::optional(rows_[branch]->size) : std::nullopt);
    }

    /// What is lost along a reach in a size. What is laid in another size than its group stays as it is.
    std::optional<double> loss(const Zone& zone, std::size_t i, std::size_t row) {
        const auto key = std::pair(i, row);
        if (const auto known = losses_.find(key); known != losses_.end()) return known->second;
        const auto& reach = reaches_[i];
        const Nominal laid = size_of(b_.sizes, Service::gas, reach.group);
        std::map<double, Run> by_bore;
        for (const auto& passage : reach.traversals) {
            const auto& piece = b_.built.plant.pieces[static_cast<std::size_t>(passage.piece)];
            const bool stays = piece.size != laid && piece.bore > 0;
            const double bore = stays ? piece.bore : rows_[row]->inside.value();
            by_bore[bore].add(piece, passage, Length::from_value(bore));
        }
        const VolumeFlow flow = flow_of(reach.heaters);
        std::optional<double> out = 0;
        for (const auto& [bore, run] : by_bore) {
            const auto lost = run.loss(zone, Length::from_value(bore), flow);
            out = lost ? std::optional(*out + *lost) : std::nullopt;
            if (!out) break;
        }
        return losses_[key] = out;
    }

    const SizingInputs& brief_;
    const Builder& b_;
    const Sizes& handbook_;
    const Sizes* floor_;
    std::vector<Reach> reaches_;
    std::map<Group, std::vector<int>> pieces_;
    std::map<Group, int> heaters_;
    Prices prices_;
    Line line_;
    std::vector<const catalogue::Pipe*> rows_;                                            ///< by rising bore
    std::map<std::pair<std::size_t, std::size_t>, std::optional<double>> losses_;         ///< by reach and row
    std::map<std::tuple<Group, std::size_t, std::size_t>, std::optional<double>> costs_;  ///< by row, and branch's row
    Sizes sizes_;
};

}  // namespace

std::optional<CheapestSizes> thrifty_gas(const SizingInputs& brief, const Builder& b, const Sizes& handbook,
                                         const Sizes* floor) {
    const auto tree = network::trace_service(b.built.plant, Service::gas, b.built.plant.find("site.gas"));
    if (!tree) return std::nullopt;
    auto sizes = Gas(brief, b, handbook, floor, reaches_of(b, *tree)).solve();
    if (!sizes) return std::nullopt;
    return CheapestSizes{std::move(*sizes)};
}

}  // namespace bw::piping
