// SPDX-License-Identifier: MIT
// The cheapest sizes of a sixteen-heater plant as laid, all services. Budget 200 ms.
#include <benchmark/benchmark.h>

#include <array>

#include "job.h"
#include "layout/layout.h"
#include "piping/size/economy.h"

namespace {

using namespace bw;

void least_cost_sizes(benchmark::State& state) {
    const auto given = bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str());
    auto survey = given->survey;
    survey.preferences.engineered_gas = {state.range(0) != 0, false};
    const auto demand = demand::peak_demand(survey);
    const auto capacity = demand::capacity(survey, *demand, given->catalogue);
    const auto& heater = *given->catalogue.heater(capacity->heater);
    const auto layouts = layout::candidates(survey, heater, capacity->installed);
    const piping::SizingInputs brief{survey, *demand, *capacity};
    const auto ground = std::make_shared<const piping::LayingInputs>(
        *piping::laying_inputs(brief, given->catalogue, heater, layouts.candidates.front()));
    const piping::Builder bare(ground);
    piping::Builder b(ground, piping::swell_of(*demand));
    b.sizes = piping::decide_sizes(brief, bare, piping::guess_gas_lengths(b))->sizes;
    piping::add_heaters(b);
    piping::add_banks(b);
    const std::array order{text::Service::cold, text::Service::gas, text::Service::hot};
    (void)piping::add_mains(b, order, piping::Thoroughness::searched);
    if (!b.ok()) return state.SkipWithError(b.error()->what.c_str());
    const auto handbook = piping::decide_sizes(brief, bare, *piping::measure_gas_lengths(b));
    for (auto _ : state) {
        auto sized = *handbook;
        const auto economy = piping::economize(brief, b, sized, nullptr);
        state.counters["handbook"] = economy.handbook_cost;
        state.counters["cost"] = economy.cost;
        state.counters["tried"] = economy.tried;
    }
}
BENCHMARK(least_cost_sizes)->ArgName("engineered")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

}  // namespace
