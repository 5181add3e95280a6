// SPDX-License-Identifier: MIT
#include "network/water_network.h"

#include <fmt/format.h>

#include <algorithm>

#include "network/segments.h"
#include "units/constants.h"

namespace bw::network {
namespace {

using text::Service;

constexpr double gravity = units::standard_gravity, atmosphere = units::atmosphere_pascal;

class Writer {
public:
    Writer(const plant::Plant& plant, const WaterFeed& feed, WaterNetwork& out)
        : plant_(plant), feed_(feed), out_(out) {
        out_.network.least_potential = -atmosphere;
    }

    /// Nodes and links of one service; by heater number - 1 the node at its port.
    std::vector<int> write(const std::vector<Segment>& segments, Service service) {
        const bool cold = service == Service::cold;
        const auto& water = cold ? feed_.cold : feed_.hot;
        std::vector<int> end(segments.size(), -1), heater;
        for (std::size_t r = 0; r < segments.size(); ++r) {
            const auto& segment = segments[r];
            if (segment.before < 0) {
                end[r] = cold ? out_.network.add_fixed(name_of(plant_, segment.end), feed_.supply.value())
                              : out_.network.add_node(name_of(plant_, segment.end));
                out_.at.push_back(segment.end);
                (cold ? out_.source : out_.delivery) = end[r];
                continue;
            }
            const int from = end[static_cast<std::size_t>(segment.before)];
            end[r] = from;
            if (segment.heater > 0) {
                if (static_cast<int>(heater.size()) < segment.heater)
                    heater.resize(static_cast<std::size_t>(segment.heater), -1);
                heater[static_cast<std::size_t>(segment.heater) - 1] = from;
                continue;
            }
            if (segment.lossless() && !segment.whole()) continue;
            end[r] = out_.network.add_node(name_of(plant_, segment.end));
            out_.at.push_back(segment.end);
            add(segment, from, end[r], water, cold);
        }
        return heater;
    }

    /// Height of a node above the floor.
    [[nodiscard]] double height(int node) const { return plant_.at(out_.at[static_cast<std::size_t>(node)]).at.z; }

private:
    void add(const Segment& segment, int start, int end, const matter::Water& water, bool along) {
        const double density = water.density.value(), viscosity = water.viscosity.value();
        flow::Link link;
        link.name = name_of(plant_, segment);
        link.from = along ? start : end;
        link.to = along ? end : start;
        link.one_way = segment.one_way;
        link.gain = density * gravity * (height(link.from) - height(link.to));
        const auto local = flow::local_by_mass(segment.bore, std::max(segment.local, 1.0), density, viscosity);
        if (segment.holds)
            link.law = flow::Regulator{*segment.holds, local.resistance, local.linear_below};
        else if (segment.length > 0)
            link.law = flow::by_mass(segment.stretch(), density, viscosity);
        else
            link.law = flow::local_by_mass(segment.bore, segment.local, density, viscosity);
        out_.network.add_link(std::move(link));
        out_.stretch.push_back(segment.length > 0 && !segment.holds ? segment.stretch() : flow::Stretch{});
        out_.pieces.push_back(segment.pieces);
        if (!along) std::reverse(out_.pieces.back().begin(), out_.pieces.back().end());
    }

    const plant::Plant& plant_;
    const WaterFeed& feed_;
    WaterNetwork& out_;
};

/// A heater's curve in kg/s of the water it meets.
flow::Table curve_of(const catalogue::Heater& heater, const matter::Water& cold) {
    flow::Table table;
    for (const auto& point : heater.pressure_drop) {
        table.flow.push_back(point.x.value() * cold.density.value());
        table.loss.push_back(point.y.value());
    }
    return table;
}

}  // namespace

Result<WaterNetwork> water_network(const plant::Plant& plant, const catalogue::Catalogue& catalogue,
                                   const catalogue::Heater& heater, const WaterFeed& feed) {
    const auto cold = segments_of(plant, catalogue, Service::cold, "site.cold");
    if (!cold) return tl::unexpected(cold.error());
    const auto hot = segments_of(plant, catalogue, Service::hot, "site.hot");
    if (!hot) return tl::unexpected(hot.error());
    WaterNetwork out;
    Writer writer(plant, feed, out);
    const auto inlet = writer.write(*cold, Service::cold), outlet = writer.write(*hot, Service::hot);
    out.heater.assign(std::max(inlet.size(), outlet.size()), -1);
    bool any = false;
    for (std::size_t n = 0; n < std::min(inlet.size(), outlet.size()); ++n) {
        if (inlet[n] < 0 || outlet[n] < 0) continue;
        flow::Link link;
        link.name = fmt::format("heater-{}", n + 1);
        link.from = inlet[n];
        link.to = outlet[n];
        link.law = curve_of(heater, feed.cold);
        const double density = (feed.cold.density.value() + feed.hot.density.value()) / 2;
        link.gain = density * gravity * (writer.height(link.from) - writer.height(link.to));
        out.heater[n] = out.network.add_link(std::move(link));
        out.stretch.emplace_back();
        out.pieces.push_back({plant.find(fmt::format("heater-{}", n + 1))});
        any = true;
    }
    if (!any) return fail("no heater stands between cold and hot water", "heaters joined to both");
    return out;
}

}  // namespace bw::network
