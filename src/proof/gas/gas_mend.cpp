// SPDX-License-Identifier: MIT
#include "proof/gas/gas_mend.h"

#include <cmath>
#include <limits>
#include <map>

#include "code/gas_pipe.h"
#include "code/gas_rules.h"
#include "flow/solver.h"
#include "proof/base/new_check.h"
#include "proof/view.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names
using network::GasFeed;

std::string print(Pressure p) { return us(amount(p, Kind::gas_pressure)); }

/// A stretch of pipe that is changed to another size as one: a main, a bank's header, its branches.
struct Line {
    int bank = 0;
    bool branch = false;
    Nominal size;
    auto operator<=>(const Line&) const = default;

    [[nodiscard]] std::string name() const {
        return (bank > 0 ? fmt::format("bank {}'s ", bank) : std::string("the main's ")) + (branch     ? "branches"
                                                                                            : bank > 0 ? "header"
                                                                                                       : "pipe");
    }
};

/// A plant whose gas pipe may be changed, fed from high above and free to fall below nothing so that every trial has a
/// solution: what pipe takes from the squared pressure does not depend on the pressure it starts from.
class Trial {
public:
    Trial(const View& view, const GasFeed& feed) : view_(view), feed_(feed), plant_(view.plant) {
        high_.delivery += 1e6 * pascal;
    }

    /// Squared pressure lost to the heater that loses most, Pa2; empty where nothing can be solved.
    std::optional<double> most_lost() {
        auto read = network::gas_network(plant_, view_.catalogue, high_);
        if (!read) return {};
        network_ = std::move(*read);
        network_.network.least_potential = -std::numeric_limits<double>::infinity();
        const double burnt = high_.each.value() * code::gas_base_air.value() * high_.specific_gravity;
        for (const int node : network_.heater)
            if (node >= 0) network_.network.nodes[static_cast<std::size_t>(node)].inflow = -burnt;
        auto solver = flow::Solver::analyse(network_.network);
        if (!solver) return {};
        const auto found = solver->solve();
        if (!found) return {};
        potential_ = (*found)->potential;
        lowest_ = -1;
        for (const int node : network_.heater)
            if (node >= 0 && (lowest_ < 0 || at(node) < at(lowest_))) lowest_ = node;
        return squared(high_.delivery) - at(lowest_);
    }
    [[nodiscard]] Pressure delivery() const { return high_.delivery; }
    /// The setting of the last regulator that would leave the lowest heater a pressure, given the setting there is.
    [[nodiscard]] Pressure setting_for(Pressure least, Pressure setting) const {
        return Pressure::from_value(std::sqrt(squared(least) + squared(setting) - at(lowest_))) - feed_.atmosphere;
    }
    [[nodiscard]] double squared(Pressure gauge) const {
        const double p = (gauge + feed_.atmosphere).value();
        return p * p;
    }
    /// The line that takes most of what is lost on the way of the lowest heater and has a larger size, made one size
    /// larger.
    std::optional<std::pair<Line, Nominal>> enlarge() {
        std::map<Line, double> lost;
        int node = lowest_;
        for (std::size_t l = network_.network.links.size(); l-- > 0;) {
            const auto& link = network_.network.links[l];
            if (link.to != node) continue;
            node = link.from;
            const auto& piece = plant_.pieces[static_cast<std::size_t>(network_.pieces[l].front())];
            if (piece.part == Part::regulator) break;  // what is lost before it does not reach the heater
            if (is_whole(piece.part)) continue;
            lost[{piece.bank, piece.heater > 0, piece.size}] += at(link.from) - at(link.to);
        }
        const Line* worst = nullptr;
        for (const auto& [line, loss] : lost)
            if (next(line) && (!worst || loss > lost[*worst])) worst = &line;
        if (!worst) return {};
        const auto* row = next(*worst);
        for (auto& piece : plant_.pieces) {
            if (piece.service != Service::gas || piece.bore <= 0 || is_whole(piece.part)) continue;
            if (Line{piece.bank, piece.heater > 0, piece.size} != *worst) continue;
            piece.size = row->size;
            piece.bore = row->inside.value();
            if (piece.part == Part::pipe || piece.part == Part::nipple) piece.item = row->key;
        }
        return std::pair{*worst, row->size};
    }

private:
    [[nodiscard]] double at(int node) const { return potential_[static_cast<std::size_t>(node)]; }
    static bool is_whole(Part part) {
        return part == Part::regulator || part == Part::flexible_gas || part == Part::connection ||
               part == Part::heater;
    }
    [[nodiscard]] const catalogue::Pipe* next(const Line& line) const {
        for (const auto* row : view_.catalogue.sizes(*view_.survey.preferences.gas_pipe))
            if (row->size > line.size) return row;
        return nullptr;
    }

    const View& view_;
    GasFeed feed_, high_ = feed_;
    plant::Plant plant_;
    network::GasNetwork network_;
    std::vector<double> potential_;
    int lowest_ = -1;  ///< node of the heater with least
};

/// The pipe that would do at this delivery pressure: each line once, from its size to its last.
std::string larger_pipe(Trial& trial, double lost, double may) {
    std::vector<std::pair<Line, Nominal>> changed;
    constexpr int most = 30;
    for (int i = 0; i < most && lost > may; ++i) {
        const auto step = trial.enlarge();
        const auto now = step ? trial.most_lost() : std::nullopt;
        if (!now) return {};
        lost = *now;
        const auto same = [&](const auto& c) {
            return c.first.bank == step->first.bank && c.first.branch == step->first.branch &&
                   c.second == step->first.size;
        };
        if (const auto at = std::find_if(changed.begin(), changed.end(), same); at != changed.end())
            at->second = step->second;
        else
            changed.push_back(*step);
    }
    if (lost > may) return {};
    std::string text;
    for (const auto& [line, size] : changed)
        text += fmt::format("{}{} {} instead of {}", text.empty() ? "" : ", ", line.name(), units::print(size),
                            units::print(line.size));
    return text;
}

/// Behind regulators the setting stands in place of the delivery pressure.
std::string regulated_mend(const View& view, Trial& trial, Pressure least) {
    const GasRun* worst = nullptr;
    for (int n = 1; n <= view.heaters(); ++n)
        if (const auto& run = view.gas_run(n);
            run && !run->regulators.empty() && (!worst || run->running < worst->running))
            worst = &*run;
    if (!worst) return {};
    std::string text;
    const auto setting = view.number(worst->regulators.back(), "outlet").value_or(0) * pascal;
    if (const auto short_by = setting - worst->regulator_inlets.back(); short_by.value() > 0)
        text = fmt::format(
            "The regulator has {} too little before it to hold its setting: so much more delivery "
            "pressure, or larger pipe before it.",
            print(short_by));
    const auto lost = trial.most_lost();
    const double may = trial.squared(trial.delivery()) - trial.squared(least);
    if (!lost || *lost <= may) return text;
    text += fmt::format("{}A regulator set {} higher would do.", text.empty() ? "" : " ",
                        print(trial.setting_for(least, setting) - setting));
    if (const auto pipe = larger_pipe(trial, *lost, may); !pipe.empty())
        text += fmt::format(" Larger pipe behind it that would do: {}.", pipe);
    return text;
}

}  // namespace

std::string gas_mend(const View& view, Pressure least) {
    const auto& solved = view.hydraulics.gas;
    if (!solved) return {};
    const auto* feed = &solved->feed;
    Trial trial(view, *feed);
    if (!view.of(Part::regulator).empty()) return regulated_mend(view, trial, least);
    const auto lost = trial.most_lost();
    const double may = trial.squared(feed->delivery) - trial.squared(least);
    if (!lost || *lost <= may) return {};
    const auto needed = Pressure::from_value(std::sqrt(trial.squared(least) + *lost)) - feed->atmosphere;
    const auto* inlet = gas_inlet(view);
    const auto greatest = inlet ? inlet->greatest : Pressure{};
    std::string text;
    if (needed <= greatest)
        text =
            fmt::format("A delivery pressure of {}, {} more, would do.", print(needed), print(needed - feed->delivery));
    else if (needed <= code::gas_indoor_pressure_limit().value)
        text = fmt::format(
            "Without larger pipe it takes {} at the point of connection, {} more, which is above the "
            "heaters' greatest: elevated pressure with a line regulator before them.",
            print(needed), print(needed - feed->delivery));
    else
        text = "No pressure that may stand in the building would do without larger pipe.";
    if (const auto pipe = larger_pipe(trial, *lost, may); !pipe.empty())
        text += fmt::format(" Larger pipe that would do: {}.", pipe);
    else
        text += " At this delivery pressure no pipe of the catalogue would do.";
    return text;
}

}  // namespace bw::proof
