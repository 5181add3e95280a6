// SPDX-License-Identifier: MIT
#include "flow/lawful.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace bw::flow {

namespace {

bool positive(double value) { return std::isfinite(value) && value > 0; }
bool not_negative(double value) { return std::isfinite(value) && value >= 0; }

std::string fault(const Pipe& pipe) {
    if (!not_negative(pipe.friction) || !not_negative(pipe.local) || !positive(pipe.friction + pipe.local))
        return "a pipe without a loss";
    if (!positive(pipe.friction)) return "a pipe without friction; a local loss alone is a power of 2";
    if (!positive(pipe.reynolds)) return "a pipe without a Reynolds number";
    if (!not_negative(pipe.roughness) || pipe.roughness > 0.05) return "a relative roughness outside 0 to 0.05";
    return {};
}

std::string fault(const Power& law) {
    if (!positive(law.resistance)) return "a loss without resistance";
    if (!(law.exponent >= 1 && law.exponent <= 10)) return "an exponent outside 1 to 10";
    if (!positive(law.linear_below)) return "no flow below which the loss is linear";
    return {};
}

std::string fault(const Table& law) {
    if (law.flow.size() < 2 || law.flow.size() != law.loss.size()) return "a table without two points";
    for (std::size_t i = 0; i < law.flow.size(); ++i) {
        if (!std::isfinite(law.flow[i]) || !std::isfinite(law.loss[i])) return "a table with a number that is not one";
        if (i > 0 && !(law.flow[i] > law.flow[i - 1] && law.loss[i] > law.loss[i - 1]))
            return "a table whose flow and loss do not both rise";
    }
    return {};
}

std::string fault(const Regulator& law) {
    if (!std::isfinite(law.setting)) return "a regulator without a setting";
    return fault(Power{law.resistance, 2, law.linear_below});
}

}  // namespace

Result<void> lawful(const Link& link) {
    auto wrong = std::visit([](const auto& law) { return fault(law); }, link.law);
    if (wrong.empty() && !std::isfinite(link.gain)) wrong = "a gain that is not a number";
    if (!wrong.empty()) return fail(fmt::format("{}: {}", link.name, wrong), "a loss that rises with the flow");
    return {};
}

Result<void> lawful(const Network& network) {
    if (std::none_of(network.nodes.begin(), network.nodes.end(), [](const Node& node) { return node.fixed; }))
        return fail("no node has a fixed potential", "at least one source");
    for (const auto& node : network.nodes)
        if (!std::isfinite(node.potential) || !std::isfinite(node.inflow))
            return fail(fmt::format("{}: its potential or inflow is not a number", node.name), "finite numbers");
    const auto inside = [&](int node) { return node >= 0 && node < static_cast<int>(network.nodes.size()); };
    std::vector<const Link*> held(network.nodes.size(), nullptr);
    for (const auto& link : network.links) {
        if (!inside(link.from) || !inside(link.to) || link.from == link.to)
            return fail(fmt::format("{}: it does not lead from one node to another", link.name), "two nodes");
        if (const auto fit = lawful(link); !fit) return fit;
        if (!std::holds_alternative<Regulator>(link.law)) continue;
        auto& other = held[static_cast<std::size_t>(link.to)];
        if (network.nodes[static_cast<std::size_t>(link.to)].fixed || other)
            return fail(fmt::format("{}: its outlet {} is held by {} already", link.name,
                                    network.nodes[static_cast<std::size_t>(link.to)].name,
                                    other ? other->name : std::string("a fixed potential")),
                        "one regulator a node, with a pipe between");
        other = &link;
    }
    return {};
}

}  // namespace bw::flow
