// SPDX-License-Identifier: MIT
// The whole job. Budgets: survey to proved plant of sixteen heaters 50 ms on one core; the wide search, two hundred
// places or more weighed, 1 s; the package 3 s on one core.
#include <benchmark/benchmark.h>

#include "design/design.h"
#include "draw/sheets.h"
#include "job.h"
#include "paper/paper.h"

namespace {

void survey_to_proved_plant(benchmark::State& state) {
    const auto given = bw::bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str());
    double heaters = 0, pieces = 0, checks = 0;
    for (auto _ : state) {
        const auto result = bw::design::run(given->survey, given->catalogue);
        if (!result) return state.SkipWithError(describe(result.error()).c_str());
        if (!result->chosen)
            return state.SkipWithError(result->checks.empty() ? "no layout fits" : result->checks.front().says.c_str());
        heaters = result->chosen->capacity.installed;
        pieces = static_cast<double>(result->chosen->built.plant.pieces.size());
        checks = static_cast<double>(result->checks.size());
    }
    state.counters["heaters"] = heaters;
    state.counters["pieces"] = pieces;
    state.counters["checks"] = checks;
}
BENCHMARK(survey_to_proved_plant)->Unit(benchmark::kMillisecond);

/// What an edit asks for: the layout is kept.
void one_layout(benchmark::State& state) {
    const auto given = bw::bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str());
    const auto first = bw::design::run(given->survey, given->catalogue);
    if (!first || !first->chosen) return state.SkipWithError("no plant");
    for (auto _ : state)
        benchmark::DoNotOptimize(bw::design::run_layout(given->survey, given->catalogue, first->capacity.heater,
                                                        first->chosen->layout.id, static_cast<int>(state.range(0))));
}
BENCHMARK(one_layout)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

void wide_search(benchmark::State& state) {
    const auto given = bw::bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str());
    auto effort = bw::design::wide();
    effort.threads = static_cast<int>(state.range(0));
    for (auto _ : state) {
        const auto result = bw::design::run(given->survey, given->catalogue, effort);
        if (!result || !result->chosen) return state.SkipWithError("no plant");
        state.counters["weighed"] = result->weighed;
        state.counters["tried"] = static_cast<double>(result->candidates.size());
    }
}
BENCHMARK(wide_search)->Arg(1)->Arg(2)->Unit(benchmark::kMillisecond)->UseRealTime();

void documents_of_the_package(benchmark::State& state) {
    const auto given = bw::bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str());
    const auto result = bw::design::run(given->survey, given->catalogue);
    if (!result || !result->chosen) return state.SkipWithError("no plant to document");
    const auto us = bw::units::System::us;
    for (auto _ : state) {
        benchmark::DoNotOptimize(bw::paper::report(*result, given->catalogue, us));
        benchmark::DoNotOptimize(bw::draw::sheets(*result, given->catalogue, us, bw::draw::Paper::tabloid));
        benchmark::DoNotOptimize(bw::design::to_json(*result, us));
        benchmark::DoNotOptimize(bw::paper::parts_csv(result->chosen->estimate, us));
    }
}
BENCHMARK(documents_of_the_package)->Unit(benchmark::kMillisecond);

}  // namespace
