// SPDX-License-Identifier: MIT
#include "proof/water/water_run.h"

#include "matter/pipe_flow.h"
#include "network/segments.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

/// Roughness of a piece without a pipe row of its own: drawn tubing, 0.0015 mm (Moody 1944).
constexpr Length drawn = Length::from_value(1.5e-6);

}  // namespace

VolumeFlow water_flow_each(const View& view) {
    const int running = std::max(1, view.heaters() - view.capacity.spare);
    return std::min(view.demand.peak / static_cast<double>(running), view.capacity.each.flow);
}

Result<WaterRun> water_run(const View& view, Service service) {
    const auto& tree = view.tree(service);
    if (!tree) return tl::unexpected(tree.error());
    const auto water = matter::water(service == Service::cold ? view.demand.cold : view.demand.hot);
    if (!water) return tl::unexpected(water.error());
    WaterRun run{{}, *water};
    run.at.resize(tree->traversals.size());
    const auto each = water_flow_each(view), all = view.demand.peak;
    std::vector<double> bore(tree->traversals.size());
    for (std::size_t i = 0; i < tree->traversals.size(); ++i) {
        const auto& passage = tree->traversals[i];
        auto& here = run.at[i];
        const auto before = passage.before >= 0 ? static_cast<std::size_t>(passage.before) : 0;
        if (passage.before >= 0) here.so_far = run.at[before].so_far;
        const auto loss = network::loss_through(view.plant, passage, bore[before]);
        bore[i] = loss.bore;
        const auto part = view.piece(passage.piece).part;
        if (passage.heaters < 1 || part == Part::heater || part == Part::connection) continue;
        here.flow = std::min(static_cast<double>(passage.heaters) * each, all);
        const auto* row = view.pipe(passage.piece);
        const auto drop = matter::pipe_drop(here.flow, loss.bore * metre, row ? row->roughness : drawn,
                                            loss.length * metre, loss.velocity_heads, *water);
        if (!drop)
            return fail(fmt::format("{}: {}", view.name(passage.piece), drop.error().what), drop.error().expected);
        here.velocity = drop->velocity;
        here.lost = drop->drop;
        here.so_far += here.lost;
    }
    return run;
}

}  // namespace bw::proof
