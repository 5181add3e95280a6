// SPDX-License-Identifier: MIT
// Simultaneous flow by chance: the exact distribution, a whole survey's demand, and capacity with its risk curve.
#include <benchmark/benchmark.h>

#include "catalogue/catalogue.h"
#include "demand/demand.h"

namespace {

using namespace bw;  // NOLINT

/// Twelve kinds of unlike flow and chance, on a lattice no coarser than 0.01 gpm.
std::vector<demand::FixtureGroup> twelve_kinds(long fixtures) {
    constexpr double busy[] = {0.02, 0.01, 0.01, 0.055, 0.055, 0.005, 0.02, 0.02, 0.02, 0.045, 0.01, 0.03};
    constexpr int steps[] = {153, 547, 201, 350, 550, 130, 220, 203, 151, 197, 300, 41};
    std::vector<demand::FixtureGroup> out;
    for (std::size_t i = 0; i < 12; ++i) out.push_back({fixtures / 12, busy[i], steps[i]});
    return out;
}

void exact_distribution(benchmark::State& state) {
    const auto kinds = twelve_kinds(state.range(0));
    double dropped = 0;
    for (auto _ : state) {
        const auto spread = demand::Spread::of(kinds);
        dropped = spread->dropped();
        benchmark::DoNotOptimize(spread->percentile(0.99));
    }
    state.counters["dropped"] = dropped;
}
BENCHMARK(exact_distribution)->Arg(2000)->Arg(10000)->Arg(100000)->Unit(benchmark::kMillisecond);

survey::Survey hostel() {
    auto survey = survey::read(BANKWRIGHT_SOURCE "/examples/hostel.toml");
    return survey.value();
}

void demand_of_the_hostel(benchmark::State& state) {
    const auto survey = hostel();
    for (auto _ : state) benchmark::DoNotOptimize(demand::peak_demand(survey));
}
BENCHMARK(demand_of_the_hostel)->Unit(benchmark::kMillisecond);

void capacity_of_the_hostel(benchmark::State& state) {
    const auto survey = hostel();
    const auto catalogue = catalogue::load().value();
    const auto demand = demand::peak_demand(survey).value();
    for (auto _ : state) benchmark::DoNotOptimize(demand::capacity(survey, demand, catalogue));
}
BENCHMARK(capacity_of_the_hostel)->Unit(benchmark::kMillisecond);

}  // namespace
