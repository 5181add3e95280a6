// SPDX-License-Identifier: MIT
// The loop inside the plant: its way, what its pipe loses in heat, what its flow takes.
#include <cmath>
#include <map>

#include "code/water.h"
#include "flow/solver.h"
#include "matter/pipe_flow.h"
#include "matter/pipe_heat.h"
#include "network/water_network.h"
#include "proof/water/loop.h"
#include "units/constants.h"

namespace bw::proof {
namespace {

using namespace bw::units;  // NOLINT: quantity names

/// Roughness of a piece without a pipe row of its own: drawn tubing, 0.0015 mm (Moody 1944).
constexpr Length drawn = Length::from_value(1.5e-6);

double centre_line(const Piece& piece) {
    if (piece.cut > 0) return piece.cut;
    return piece.ports.size() < 2 ? 0 : shape::distance(piece.ports[0].at, piece.ports[1].at);
}

Temperature returning(const View& view) { return view.demand.hot - *view.survey.recirculation.drop; }

/// Losses along the return's pieces; the pump adds, so it is left out.
Result<void> along_return(const View& view, const LoopWay& way, const matter::Water& water, PlantWay& out) {
    const auto flow = view.demand.recirculation_flow;
    Length last{};
    for (const auto& s : way.path) {
        const auto& piece = view.piece(s.piece);
        const bool joins = s.piece == way.joins;
        if (piece.part == Part::pump || piece.part == Part::connection) continue;
        const Length bore = joins && last.value() > 0 ? last : piece.bore * metre;
        if (bore.value() <= 0) continue;
        const auto* row = view.pipe(s.piece);
        const auto drop =
            matter::pipe_drop(flow, bore, row ? row->roughness : drawn, (joins ? 0 : centre_line(piece)) * metre,
                              joins ? piece.loss_stem : piece.loss_run, water);
        if (!drop)
            return fail(fmt::format("{}: {}", plant::in_words(piece.id), drop.error().what), drop.error().expected);
        out.back += drop->drop;
        last = bore;
        if (joins || drop->velocity <= out.fastest || !row) continue;
        out.fastest = drop->velocity;
        out.fastest_piece = s.piece;
    }
    return {};
}

/// Pressure lost between where the loop joins and the delivery, along the flow, columns taken off.
Result<Pressure> lost_onward(const network::WaterNetwork& water, const flow::Solution& found, int joins) {
    const auto& links = water.network.links;
    const auto& at = water.pieces;
    int node = water.delivery;
    double lost = 0;
    for (std::size_t steps = 0; steps <= links.size(); ++steps) {
        std::size_t best = links.size();
        for (std::size_t l = 0; l < links.size(); ++l)
            if (links[l].to == node && found.flow[l] > 0 && (best == links.size() || found.flow[l] > found.flow[best]))
                best = l;
        if (best == links.size()) break;
        const auto& link = links[best];
        lost += found.potential[static_cast<std::size_t>(link.from)] - found.potential[static_cast<std::size_t>(node)] +
                link.gain;
        if (std::find(at[best].begin(), at[best].end(), joins) != at[best].end()) return Pressure::from_value(lost);
        node = link.from;
    }
    return fail("the loop joins none of the pieces on the water's way", "a return before the heaters");
}

Result<void> through_heaters(const View& view, const LoopWay& way, const matter::Water& back, PlantWay& out) {
    const auto hot = matter::water(view.demand.hot);
    if (!hot) return tl::unexpected(hot.error());
    const network::WaterFeed feed{*view.survey.supply.pressure, view.demand.recirculation_flow, view.capacity.each.flow,
                                  back, *hot};
    const auto network = network::water_network(view.plant, view.catalogue, view.heater, feed);
    if (!network) return tl::unexpected(network.error());
    auto solver = flow::Solver::analyse(network->network);
    if (!solver) return tl::unexpected(solver.error());
    solver->set_inflow(network->delivery, -(feed.design.value() * feed.hot.density.value()));
    out.open = network::heaters_open_to_loop(view.demand, view.capacity, view.heater);
    const int all = static_cast<int>(network->heater.size());
    std::optional<Error> refused;
    for (int first = 0; first + out.open <= all; ++first) {
        for (int n = 0; n < all; ++n)
            if (const int link = network->heater[static_cast<std::size_t>(n)]; link >= 0)
                solver->set_open(link, n >= first && n < first + out.open);
        const auto found = solver->solve(flow::Start::warm);
        const auto lost = found ? lost_onward(*network, **found, way.joins) : tl::unexpected(found.error());
        if (!lost) {
            refused = lost.error();
            continue;
        }
        if (out.heater > 0 && *lost <= out.onward) continue;
        out.onward = *lost;
        out.heater = first + 1;
    }
    if (out.heater == 0) return tl::unexpected(refused.value_or(Error{"no heater is open", "a heater"}));
    return {};
}

}  // namespace

std::vector<int> LoopWay::of(const View& view, Part part) const {
    std::vector<int> found;
    for (const auto& s : path)
        if (view.piece(s.piece).part == part) found.push_back(s.piece);
    return found;
}

LoopWay loop_way(const View& view) {
    const int site = view.plant.find("site.recirculation");
    if (site < 0) return {};
    const auto walk = view.outward({site, 0}, [&](int piece, int in) {
        const auto& entered = view.piece(piece);
        return entered.part != Part::heater && entered.service == Service::recirculation &&
               entered.ports[static_cast<std::size_t>(in)].service == Service::recirculation;
    });
    for (std::size_t i = 0; i < walk.size(); ++i) {
        if (view.piece(walk[i].piece).service == Service::recirculation) continue;
        return {View::back(walk, static_cast<int>(i)), walk[i].piece};
    }
    return {walk, -1};
}

Length least_insulation(Temperature water, Nominal size) {
    const auto rule = code::insulation_thickness(water, size);
    return rule ? rule->value : Length{};
}

Result<Power> pipe_loss(const View& view, Material material, Nominal size, Length length, Length thickness,
                        Temperature water) {
    const auto* row = view.catalogue.pipe(material, size);
    if (!row)
        return fail(fmt::format("the catalogue has no {} in {}", text::name(material), print(size)),
                    "a size of the catalogue");
    if (water <= loop_air) return Power{};
    const auto kind = thickness.value() > 0 ? matter::Insulation::mineral_fibre : matter::Insulation::none;
    const auto heat =
        matter::pipe_heat({material, row->outside, row->inside, kind, thickness, matter::emissivity(material, kind)},
                          water, loop_air, length);
    if (!heat) return tl::unexpected(heat.error());
    return heat->loss;
}

Result<std::vector<WarmPipe>> warm_pipes(const View& view) {
    std::map<std::pair<Service, Nominal>, Length> lengths;
    for (const auto& piece : view.plant.pieces) {
        if (piece.service != Service::hot && piece.service != Service::recirculation) continue;
        if (piece.bore <= 0 || piece.part == Part::connection || piece.part == Part::heater) continue;
        lengths[{piece.service, piece.size}] += centre_line(piece) * metre;
    }
    const auto material = *view.survey.preferences.water_pipe;
    std::vector<WarmPipe> out;
    for (const auto& [kind, length] : lengths) {
        if (length.value() <= 0) continue;
        WarmPipe pipe{kind.first, kind.second, kind.first == Service::hot ? view.demand.hot : returning(view),
                      length,     {},          {},
                      {}};
        pipe.thickness = least_insulation(pipe.water, pipe.size);
        const auto insulated = pipe_loss(view, material, pipe.size, length, pipe.thickness, pipe.water);
        const auto bare = pipe_loss(view, material, pipe.size, length, {}, pipe.water);
        if (!insulated) return tl::unexpected(insulated.error());
        if (!bare) return tl::unexpected(bare.error());
        pipe.loss = *insulated;
        pipe.bare = *bare;
        out.push_back(pipe);
    }
    return out;
}

Result<PlantWay> plant_way(const View& view, const LoopWay& way) {
    if (way.joins < 0)
        return fail("the loop's return reaches neither cold nor hot line", "a return that joins the plant");
    const auto water = matter::water(returning(view));
    if (!water) return tl::unexpected(water.error());
    PlantWay out;
    if (auto done = along_return(view, way, *water, out); !done) return tl::unexpected(done.error());
    if (auto done = through_heaters(view, way, *water, out); !done) return tl::unexpected(done.error());
    return out;
}

Length head_of(Pressure pressure, const matter::Water& water) {
    return (pressure.value() / (water.density.value() * units::standard_gravity)) * metre;
}

}  // namespace bw::proof
