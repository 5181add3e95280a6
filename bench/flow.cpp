// SPDX-License-Identifier: MIT
// The flow kernel. Budgets on one core: the ladder 32 us from cold, 12 us warm (demand moved by 2 % between
// solutions); ladders of 8 to 512 heaters in time proportional to their links within 1.5 times.
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "flow/solver.h"
#include "inp.h"

namespace {

using namespace bw::flow;

/// Like data/ladder-16.inp, for any number of heaters; headers grow so that their velocity stays.
Network ladder(int heaters) {
    Network network;
    const double header = 0.0779 * std::sqrt(heaters / 16.0);
    const int in = network.add_fixed("in", 45), out = network.add_node("out", -0.00035 * heaters);
    int cold = network.add_node("c1"), hot = network.add_node("h1");
    network.add_link("supply", in, cold, bench::by_head(12, header, 4.6e-5, 3));
    network.add_link("delivery", hot, out, bench::by_head(15, header, 4.6e-5, 4));
    for (int i = 1; i <= heaters; ++i) {
        int at = cold;
        for (int j = 1; j <= 5; ++j) {
            const int next = j == 5 ? hot : network.add_node(fmt::format("b{}.{}", i, j));
            network.add_link(fmt::format("branch{}.{}", i, j), at, next,
                             j == 3 ? bench::by_head(6, 0.0155, 1.5e-6, 38) : bench::by_head(0.4, 0.0255, 1.5e-6, 1.6));
            at = next;
        }
        if (i == heaters) break;
        const int next_cold = network.add_node(fmt::format("c{}", i + 1)),
                  next_hot = network.add_node(fmt::format("h{}", i + 1));
        network.add_link(fmt::format("cold{}", i), cold, next_cold, bench::by_head(0.55, header, 4.6e-5, 0.6));
        network.add_link(fmt::format("hot{}", i), next_hot, hot, bench::by_head(0.55, header, 4.6e-5, 0.6));
        cold = next_cold;
        hot = next_hot;
    }
    return network;
}

/// A planar grid of side x side nodes with two fixed corners; sizes by a fixed rule, also in tools/reference/pace.mjs.
Network grid(int side) {
    Network network;
    const auto name = [](int i, int j) { return fmt::format("n{}.{}", i, j); };
    for (int i = 0; i < side; ++i)
        for (int j = 0; j < side; ++j) {
            const bool corner = (i == 0 && j == 0) || (i == side - 1 && j == side - 1);
            if (corner)
                network.add_fixed(name(i, j), i == 0 ? 60 : 55);
            else
                network.add_node(name(i, j), -0.00001 * (1 + (7 * i + 13 * j) % 10));
        }
    int made = 0;
    const auto pipe = [&](int from, int to) {
        const int k = made++;
        network.add_link(fmt::format("p{}", k), from, to,
                         bench::by_head(20 + k * 37 % 61, (100 + 25 * (k * 53 % 9)) / 1000.0, 1e-4, 0));
    };
    for (int i = 0; i < side; ++i)
        for (int j = 0; j < side; ++j) {
            if (j + 1 < side) pipe(i * side + j, i * side + j + 1);
            if (i + 1 < side) pipe(i * side + j, (i + 1) * side + j);
        }
    return network;
}

void solve(benchmark::State& state, const Network& network, Start start) {
    auto solver = Solver::analyse(network);
    if (!solver) return state.SkipWithError(describe(solver.error()).c_str());
    int drawn = 0;
    while (network.nodes[static_cast<std::size_t>(drawn)].inflow == 0) ++drawn;
    const double demand = network.nodes[static_cast<std::size_t>(drawn)].inflow;
    double iterations = 0;
    bool more = false;
    for (auto _ : state) {
        if (start == Start::warm) solver->set_inflow(drawn, demand * ((more = !more) ? 1.02 : 1.0));
        const auto found = solver->solve(start);
        if (!found) return state.SkipWithError(describe(found.error()).c_str());
        iterations = (*found)->iterations;
    }
    state.counters["iterations"] = iterations;
    state.counters["links"] = static_cast<double>(network.links.size());
}

void ladder_cold(benchmark::State& state) {
    solve(state, bench::read_inp(BANKWRIGHT_SOURCE "/bench/data/ladder-16.inp"), Start::cold);
}
BENCHMARK(ladder_cold)->Unit(benchmark::kMicrosecond);

void ladder_warm(benchmark::State& state) {
    solve(state, bench::read_inp(BANKWRIGHT_SOURCE "/bench/data/ladder-16.inp"), Start::warm);
}
BENCHMARK(ladder_warm)->Unit(benchmark::kMicrosecond);

void ladders(benchmark::State& state) {
    solve(state, ladder(static_cast<int>(state.range(0))), Start::cold);
    state.counters["ns/link"] =
        benchmark::Counter(state.counters["links"] * static_cast<double>(state.iterations()) * 1e-9,
                           benchmark::Counter::kIsRate | benchmark::Counter::kInvert);
}
BENCHMARK(ladders)->RangeMultiplier(2)->Range(8, 512)->Unit(benchmark::kMicrosecond);

/// 71 x 71 nodes, 9,940 links.
void planar_grid(benchmark::State& state) { solve(state, grid(71), Start::cold); }
BENCHMARK(planar_grid)->Unit(benchmark::kMillisecond);

void planar_grid_analysed(benchmark::State& state) {
    const auto network = grid(71);
    for (auto _ : state) {
        auto solver = Solver::analyse(network);
        if (!solver) return state.SkipWithError(describe(solver.error()).c_str());
        benchmark::DoNotOptimize(solver);
    }
}
BENCHMARK(planar_grid_analysed)->Unit(benchmark::kMillisecond);

}  // namespace
