// SPDX-License-Identifier: MIT
// The plant in its room, sixteen heaters. Budgets on one core: all clashes of 1,500 pieces 20 ms; laying and routing
// the chosen plant 50 ms.
#include <benchmark/benchmark.h>

#include "design/design.h"
#include "job.h"
#include "proof/checks.h"

namespace {

struct Proved {
    bw::bench::Job job;
    bw::design::Result result;

    [[nodiscard]] const bw::design::Proved& chosen() const { return *result.chosen; }
    [[nodiscard]] bw::proof::View view() const {
        const auto* heater = job.catalogue.heater(chosen().capacity.heater);
        return bw::proof::View({result.survey, job.catalogue, *heater, result.demand, chosen().capacity,
                                chosen().layout, chosen().built, chosen().hydraulics});
    }
};

std::optional<Proved> sixteen(benchmark::State& state) {
    auto given = bw::bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str()), std::nullopt;
    auto result = bw::design::run(given->survey, given->catalogue);
    if (!result || !result->chosen) return state.SkipWithError("no plant"), std::nullopt;
    return Proved{std::move(*given), std::move(*result)};
}

void every_clash(benchmark::State& state) {
    const auto proved = sixteen(state);
    if (!proved) return;
    const auto view = proved->view();
    for (auto _ : state) {
        const bw::proof::CollisionGrid bodies(view.plant, view.survey.room);
        benchmark::DoNotOptimize(bodies.all().data());
        bw::proof::Checks checks;
        bw::proof::check_clash(view, checks);
        benchmark::DoNotOptimize(checks.data());
    }
    state.counters["pieces"] = static_cast<double>(view.plant.pieces.size());
    state.counters["solids"] = static_cast<double>(view.bodies().all().size());
}
BENCHMARK(every_clash)->Unit(benchmark::kMillisecond);

void laying_and_routing(benchmark::State& state) {
    const auto proved = sixteen(state);
    if (!proved) return;
    const auto& chosen = proved->chosen();
    for (auto _ : state)
        benchmark::DoNotOptimize(bw::piping::build(proved->result.survey, proved->job.catalogue, proved->result.demand,
                                                   chosen.capacity, chosen.layout));
}
BENCHMARK(laying_and_routing)->Unit(benchmark::kMillisecond);

void supports_movement_and_fall(benchmark::State& state) {
    const auto proved = sixteen(state);
    if (!proved) return;
    const auto view = proved->view();
    for (auto _ : state) {
        bw::proof::Checks checks;
        bw::proof::check_hanging(view, checks);
        bw::proof::check_movement(view, checks);
        bw::proof::check_fall(view, checks);
        benchmark::DoNotOptimize(checks.data());
    }
}
BENCHMARK(supports_movement_and_fall)->Unit(benchmark::kMillisecond);

}  // namespace
