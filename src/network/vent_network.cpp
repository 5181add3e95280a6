// SPDX-License-Identifier: MIT
#include "network/vent_network.h"

#include <fmt/format.h>

#include <algorithm>

#include "flow/solver.h"
#include "network/segments.h"

namespace bw::network {
namespace {

using text::Service;

const VentGas& gas_of(Service service, const VentFeed& feed) {
    return service == Service::exhaust ? feed.flue : feed.air;
}

class Writer {
public:
    Writer(const plant::Plant& plant, const VentFeed& feed, VentNetwork& out)
        : plant_(plant), feed_(feed), out_(out), gas_(gas_of(out.service, feed)) {}

    void write(const std::vector<Segment>& segments) {
        choose_outdoors(segments);
        std::vector<int> end(segments.size(), -1);
        for (std::size_t r = 0; r < segments.size(); ++r) {
            const auto& segment = segments[r];
            if (segment.before < 0) {
                end[r] = out_.network.add_fixed(name_of(plant_, segment.end), 0);
                out_.at.push_back(segment.end);
                continue;
            }
            end[r] = end[static_cast<std::size_t>(segment.before)];
            if (segment.heater > 0) {
                out_.mouths.push_back({segment.heater, end[r], -1});
                bore_.push_back(segments[static_cast<std::size_t>(segment.before)].bore);
                continue;
            }
            if (segment.lossless()) continue;
            const int node = out_.network.add_node(name_of(plant_, segment.end));
            out_.at.push_back(segment.end);
            add(segment, end[r], node);
            end[r] = node;
        }
        add_leaks();
        std::ranges::sort(out_.mouths, {}, &VentNetwork::Mouth::number);
    }

private:
    [[nodiscard]] double height(int node) const { return plant_.at(out_.at[static_cast<std::size_t>(node)]).at.z; }

    /// The air outdoors that lifts least: warm where the way out stands above the heaters, else cold.
    void choose_outdoors(const std::vector<Segment>& segments) {
        bool above = true;
        for (const auto& segment : segments)
            if (segment.heater > 0)
                above = above && plant_.at(segment.end).at.z <= plant_.at(segments.front().end).at.z;
        outdoors_ = (above ? feed_.light_air : feed_.heavy_air).value();
    }

    /// The tree segments inwards, as air does; exhaust flows against it.
    void add(const Segment& segment, int outer, int inner) {
        const bool inwards = out_.service == Service::intake;
        const double density = gas_.density.value(), viscosity = gas_.viscosity.value();
        flow::Link link;
        link.name = name_of(plant_, segment);
        link.from = inwards ? outer : inner;
        link.to = inwards ? inner : outer;
        // piped air is outdoor air itself: no column of it weighs against another
        if (!inwards) link.gain = flow::buoyancy(outdoors_, density, height(link.to) - height(link.from));
        if (segment.length > 0)
            link.law = flow::by_mass(segment.stretch(), density, viscosity);
        else
            link.law = flow::local_by_mass(segment.bore, segment.local, density, viscosity);
        out_.network.add_link(std::move(link));
        out_.pieces.push_back(segment.pieces);
        if (!inwards) std::ranges::reverse(out_.pieces.back());
    }

    void add_leaks() {
        const int room = out_.network.add_fixed("the room", 0);
        for (std::size_t m = 0; m < out_.mouths.size(); ++m) {
            auto& mouth = out_.mouths[m];
            flow::Link link;
            link.name = fmt::format("heater-{} to the room", mouth.number);
            link.from = mouth.node;
            link.to = room;
            link.law = flow::local_by_mass(bore_[m], 1, gas_.density.value(), gas_.viscosity.value());
            link.open = false;
            mouth.leak = out_.network.add_link(std::move(link));
            out_.pieces.emplace_back();
        }
    }

    const plant::Plant& plant_;
    const VentFeed& feed_;
    VentNetwork& out_;
    const VentGas& gas_;
    double outdoors_ = 0;
    std::vector<double> bore_;  ///< by mouth, as they were met
};

/// What one heater does while the others are at full fire.
enum class Odd { none, shut, least, open };

class Cases {
public:
    Cases(const VentNetwork& network, const VentFeed& feed, flow::Solver& solver)
        : network_(network), gas_(gas_of(network.service, feed)), solver_(solver) {}

    Result<VentSplit> solve(std::size_t which, Odd odd) {
        const double sign = network_.service == Service::exhaust ? 1 : -1;
        for (std::size_t m = 0; m < network_.mouths.size(); ++m) {
            const auto& mouth = network_.mouths[m];
            const auto here = m == which ? odd : Odd::none;
            const auto fired = here == Odd::none ? gas_.full : here == Odd::least ? gas_.least : units::MassFlow{};
            solver_.set_inflow(mouth.node, sign * fired.value());
            solver_.set_open(mouth.leak, here == Odd::open);
        }
        const auto found = solver_.solve(flow::Start::cold);
        if (!found) return tl::unexpected(found.error());
        VentSplit out;
        for (const double potential : (*found)->potential)
            out.pressure.push_back(units::Pressure::from_value(potential));
        for (const double flow : (*found)->flow) out.through.push_back(units::MassFlow::from_value(flow));
        for (const auto& mouth : network_.mouths) {
            out.port.push_back(out.pressure[static_cast<std::size_t>(mouth.node)]);
            out.leak += out.through[static_cast<std::size_t>(mouth.leak)];
        }
        return out;
    }

    std::vector<Result<VentSplit>> each(Odd odd) {
        std::vector<Result<VentSplit>> out;
        for (std::size_t m = 0; m < network_.mouths.size(); ++m) out.push_back(solve(m, odd));
        return out;
    }

private:
    const VentNetwork& network_;
    const VentGas& gas_;
    flow::Solver& solver_;
};

}  // namespace

Result<std::vector<VentNetwork>> vent_networks(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                               Service service, const VentFeed& feed) {
    const std::string point = fmt::format("site.{}", text::name(service));
    std::vector<VentNetwork> all;
    for (int n = 1;; ++n) {
        const std::string root = n == 1 ? point : fmt::format("{}-{}", point, n);
        const int terminal = plant.find(root);
        if (terminal < 0) break;
        const auto segments = segments_of(plant, catalogue, service, root);
        if (!segments) return tl::unexpected(segments.error());
        VentNetwork out;
        out.service = service;
        Writer(plant, feed, out).write(*segments);
        const auto mouth = plant.mate({terminal, 0});
        out.terminal = mouth.piece < 0 ? terminal : mouth.piece;
        if (!out.mouths.empty()) all.push_back(std::move(out));
    }
    return all;
}

Result<VentFlows> vent_flows(const VentNetwork& network, const VentFeed& feed) {
    auto solver = flow::Solver::analyse(network.network);
    if (!solver) return tl::unexpected(solver.error());
    Cases cases(network, feed, *solver);
    VentFlows out{cases.solve(0, Odd::none), {}, {}, {}};
    if (network.service == Service::intake) return out;
    out.idle = cases.each(Odd::shut);
    out.least = cases.each(Odd::least);
    out.open = cases.each(Odd::open);
    return out;
}

}  // namespace bw::network
