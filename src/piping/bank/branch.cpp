// SPDX-License-Identifier: MIT
// One heater's branch: header tee, arm, riser, flexible connector.

#include <fmt/format.h>

#include <cmath>

#include "code/gas_rules.h"
#include "piping/bank/banks.h"

namespace bw::piping {
namespace {

/// Nipple that makes the sediment trap's pocket, and its clause: IFGC 408.4 (3 in least).
constexpr double pocket = 3 * inch_m;

/// Height between riser's end and port that the shortest fitting connector spans, with the riser as low as it may be.
struct Fit {
    double least = 0, most = 0;
};
std::vector<Fit> fits(const Builder& b, const BranchSpec& recipe, Nominal size, double aside) {
    std::vector<Fit> found;
    for (const Item* row : b.catalogue.of(recipe.flexible)) {
        if (row->size && *row->size != size) continue;
        if (!row->services.empty() && std::ranges::find(row->services, recipe.line.service) == row->services.end())
            continue;
        const double length = row->number("length").value_or(0);
        if (aside > row->number("offset-greatest").value_or(0) || aside > 0.7 * length) continue;
        const double most = std::sqrt(std::pow(length * (1 - 1.0 / 64), 2) - aside * aside);
        const double least = std::sqrt(std::max(0.0, std::pow(length * 0.7, 2) - aside * aside));
        found.push_back({least, most});
    }
    std::ranges::sort(found, {}, &Fit::most);
    return found;
}

/// Height of the riser's end below the port: as far as the shortest connector reaches, else nearer so that the riser
/// keeps its least length.
std::optional<double> drop_to(const std::vector<Fit>& choices, double room) {
    for (const Fit& choice : choices) {
        const double drop = std::min(choice.most, room);
        const double on_grid = snap_down(drop);
        if (on_grid >= choice.least - 1e-6) return on_grid;
    }
    return std::nullopt;
}

class Laying {
public:
    Laying(Builder& b, const plant::Bank& bank, const BranchSpec& recipe, const Branch& branch)
        : b_(b),
          recipe_(recipe),
          branch_(branch),
          line_(recipe.line),
          front_(bank.place.turn({0, branch.side, 0})),
          out_(recipe.toward * front_),
          way_(bank.place.turn({branch.riser > branch.tee ? 1.0 : -1.0, 0, 0})) {
        line_.heater = branch.stand->number;
        line_.name = fmt::format("heater-{}.{}", branch.stand->number, text::name(line_.service));
    }

    void lay(PortRef open) {
        open = arm(open);
        if (!b_.ok()) return;
        const Item* reducer = end_size() == line_.size ? nullptr : b_.item(Part::reducer, line_, end_size());
        const double reducing = reducer ? 2 * reducer->run.value() : 0;
        const double needed = riser_length(b_, recipe_) + reducing;
        const Port& target = b_.at(branch_.port);
        const double room = target.at.z - b_.at(open).at.z - needed;
        const double aside = span_between(b_.at(open), target).aside;
        const auto drop = drop_to(fits(b_, recipe_, end_size(), aside), room);
        if (!drop) {
            b_.give_up(fmt::format(
                           "{}: no flexible connector of the catalogue spans the last {:.1f} in up and {:.1f} in aside "
                           "to the heater",
                           line_.name, room / inch_m, aside / inch_m),
                       "a connector of another length, or the heater hung higher");
            return;
        }
        // what the connector's choice leaves over lengthens the first pipe of the riser
        const double spare = snap_down(room - *drop);
        open = b_.pipe(line_, open, shortest(line_.material, line_.size) + spare);
        for (std::size_t i = 0; i < recipe_.riser.size(); ++i) {
            const auto& [item, name] = recipe_.riser[i];
            open = b_.fit(line_, open, item, name, out_if_relief(item), i + 1 == recipe_.riser.size());
        }
        if (reducer) open = b_.attach(line_, open, reducer);
        Line end = line_;
        end.size = end_size();
        b_.flexible(end, recipe_.flexible, open, branch_.port, "flexible");
    }

private:
    [[nodiscard]] Nominal end_size() const { return b_.at(branch_.port).size; }
    [[nodiscard]] Vec out_if_relief(const Item* item) const {
        return item->part == Part::service_valve_hot ? front_ : Vec{};
    }

    /// From the header tee's outlet to an open end that looks up under the heater's port.
    PortRef arm(PortRef open) {
        if (!b_.ok()) return nowhere;
        const Item* bend = b_.item(Part::elbow, line_);
        if (!bend) return nowhere;
        // tee's axis to the riser's
        const double reach = recipe_.toward * (branch_.out - branch_.side * recipe_.axis);
        const double straight = reach - outlet_from_axis(open) - bend->run.value();
        open = b_.pipe(line_, open, straight);
        if (!branch_.arm) return b_.elbow(line_, open, shape::up);
        open = b_.elbow(line_, open, way_);
        const double length = std::abs(branch_.riser - branch_.tee);
        const double spare = length - arm_length(b_, recipe_);
        open = b_.pipe(line_, open, shortest(line_.material, line_.size) + spare);
        for (const auto& [item, name] : recipe_.arm) {
            open = b_.fit(line_, open, item, name);
        }
        if (!recipe_.arm.empty() && !b_.on_pipe(open)) open = b_.nipple(line_, open);
        return recipe_.trap ? trap(open) : b_.elbow(line_, open, shape::up);
    }

    [[nodiscard]] double outlet_from_axis(PortRef open) const { return shape::dot(b_.at(open).at, out_) - axis_; }

    PortRef trap(PortRef open) {
        const Fork fork = b_.tee_by_branch(line_, open, shape::up, "trap");
        b_.cap(line_,
               b_.pipe(line_, fork.branch, std::max(pocket, shortest(line_.material, line_.size)), "trap-pocket"),
               "trap-cap");
        return fork.on;
    }

    Builder& b_;
    const BranchSpec& recipe_;
    const Branch& branch_;
    Line line_;
    Vec front_, out_, way_;  ///< to where one stands, from the header to the riser, along the arm

public:
    double axis_ = 0;  ///< the header's axis along `out`
};

}  // namespace

void lay_branch(Builder& b, const plant::Bank& bank, const BranchSpec& recipe, const Branch& branch, PortRef outlet) {
    if (!b.ok() || outlet == nowhere) return;
    Laying laying(b, bank, recipe, branch);
    laying.axis_ = shape::dot(bank.place({branch.tee, recipe.axis, recipe.level}),
                              bank.place.turn({0, recipe.toward * branch.side, 0}));
    laying.lay(outlet);
}

}  // namespace bw::piping
