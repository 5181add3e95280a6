// SPDX-License-Identifier: MIT
#include "network/gas_network.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "code/gas_pipe.h"
#include "flow/solver.h"
#include "matter/air.h"
#include "matter/fuel.h"
#include "network/segments.h"

namespace bw::network {
namespace {

/// 60 degF, at which gas in a building is taken to flow; gas constant of dry air, J/(kg K).
constexpr double temperature = 288.706, air_constant = 287.055;

double zrt(const GasFeed& feed) { return air_constant / feed.specific_gravity * temperature; }

double viscosity(const GasFeed& feed) { return matter::fuel(feed.kind).viscosity; }

double density(const GasFeed& feed) { return code::gas_base_air.value() * feed.specific_gravity; }

double squared(double gauge, const GasFeed& feed) {
    const double absolute = gauge + feed.atmosphere.value();
    return absolute * absolute;
}

flow::Law law_of(const Segment& segment, const GasFeed& feed) {
    const auto local = [&](double heads) {
        return flow::local_by_squared_pressure(segment.bore, heads, zrt(feed), viscosity(feed));
    };
    if (segment.holds) {
        // open only where its inlet is below its setting, a case in which its own loss is not known: one velocity head
        const auto open = local(std::max(segment.local, 1.0));
        return flow::Regulator{squared(*segment.holds, feed), open.resistance, open.linear_below};
    }
    if (segment.length > 0) return flow::by_squared_pressure(segment.stretch(), zrt(feed), viscosity(feed));
    return local(segment.local);
}

GasSplit told(const GasNetwork& network, const GasFeed& feed, const flow::Solution& found) {
    GasSplit out;
    for (const double potential : found.potential)
        out.pressure.push_back(units::Pressure::from_value(std::sqrt(potential)) - feed.atmosphere);
    for (const double flow : found.flow) out.through.push_back(units::VolumeFlow::from_value(flow / density(feed)));
    out.heater.resize(network.heater.size());
    for (std::size_t n = 0; n < network.heater.size(); ++n) {
        if (network.heater[n] < 0) continue;
        out.heater[n] = out.pressure[static_cast<std::size_t>(network.heater[n])];
        if (out.lowest == 0 || out.heater[n] < out.heater[static_cast<std::size_t>(out.lowest) - 1])
            out.lowest = static_cast<int>(n) + 1;
    }
    return out;
}

}  // namespace

Result<GasFeed> gas_feed(const survey::Survey& survey, const demand::Capacity& capacity) {
    const auto& gas = survey.gas;
    const auto air = matter::atmosphere(*survey.altitude);
    if (!air) return tl::unexpected(air.error());
    return GasFeed{*gas.kind, *gas.specific_gravity, *gas.delivery_pressure, *air,
                   capacity.each.input / *gas.heating_value};
}

Result<GasNetwork> gas_network(const plant::Plant& plant, const catalogue::Catalogue& catalogue, const GasFeed& feed) {
    const auto segments = segments_of(plant, catalogue, text::Service::gas, "site.gas");
    if (!segments) return tl::unexpected(segments.error());
    GasNetwork out;
    out.network.least_potential = 0;
    std::vector<int> end(segments->size(), -1);
    for (std::size_t r = 0; r < segments->size(); ++r) {
        const auto& segment = (*segments)[r];
        const int from = segment.before < 0 ? -1 : end[static_cast<std::size_t>(segment.before)];
        end[r] = from;
        if (segment.heater > 0) {
            if (static_cast<int>(out.heater.size()) < segment.heater)
                out.heater.resize(static_cast<std::size_t>(segment.heater), -1);
            out.heater[static_cast<std::size_t>(segment.heater) - 1] = from;
            continue;
        }
        if (from >= 0 && segment.lossless() && !segment.whole()) continue;
        end[r] = from < 0 ? out.network.add_fixed(name_of(plant, segment.end), squared(feed.delivery.value(), feed))
                          : out.network.add_node(name_of(plant, segment.end));
        out.at.push_back(segment.end);
        if (from < 0) continue;
        flow::Link link;
        link.name = name_of(plant, segment);
        link.from = from;
        link.to = end[r];
        link.law = law_of(segment, feed);
        link.one_way = segment.one_way;
        out.network.add_link(std::move(link));
        out.pieces.push_back(segment.pieces);
    }
    if (std::ranges::all_of(out.heater, [](int node) { return node < 0; }))
        return fail("no heater is reached by gas", "pipe from site.gas to the heaters");
    return out;
}

Result<GasFlows> gas_flows(const GasNetwork& network, const GasFeed& feed) {
    auto solver = flow::Solver::analyse(network.network);
    if (!solver) return tl::unexpected(solver.error());
    const double burnt = feed.each.value() * density(feed);
    const auto fire = [&](int only) -> Result<GasSplit> {
        for (std::size_t n = 0; n < network.heater.size(); ++n)
            if (network.heater[n] >= 0)
                solver->set_inflow(network.heater[n], only < 0 || only == static_cast<int>(n) ? -burnt : 0);
        const auto found = solver->solve(flow::Start::warm);
        if (!found) return tl::unexpected(found.error());
        return told(network, feed, **found);
    };
    GasFlows out{fire(-1), {}};
    for (int n = 0; n < static_cast<int>(network.heater.size()); ++n) {
        if (network.heater[static_cast<std::size_t>(n)] < 0)
            out.alone.push_back(fail(fmt::format("no gas reaches heater-{}", n + 1), "pipe to its gas port"));
        else
            out.alone.push_back(fire(n));
    }
    return out;
}

}  // namespace bw::network
