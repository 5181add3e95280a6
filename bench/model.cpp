// SPDX-License-Identifier: MIT
// The model files and the sheets. Budgets on one core, sixteen heaters: glTF 30 ms, IFC 500 ms, STEP 3 s, sheets 3 s.
#include "model/model.h"

#include <benchmark/benchmark.h>

#include "draw/sheets.h"
#include "job.h"

namespace {

/// One model file of the sixteen heaters, with its size.
template <class Write>
void model_file(benchmark::State& state, Write write) {
    const auto given = bw::bench::sixteen();
    if (!given) return state.SkipWithError(describe(given.error()).c_str());
    const auto result = bw::design::run(given->survey, given->catalogue);
    if (!result || !result->chosen) return state.SkipWithError("no plant to model");
    double bytes = 0;
    for (auto _ : state) {
        const auto file = write(*result, given->catalogue);
        if (!file) return state.SkipWithError(describe(file.error()).c_str());
        bytes = static_cast<double>(file->size());
    }
    state.counters["pieces"] = static_cast<double>(result->chosen->built.plant.pieces.size());
    state.counters["bytes"] = bytes;
}
BENCHMARK_CAPTURE(model_file, gltf, [](const auto& r, const auto&) { return bw::model::gltf(r); })
    -> Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(model_file, ifc, [](const auto& r, const auto& c) { return bw::model::ifc(r, c); })
    -> Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(model_file, step, [](const auto& r, const auto&) { return bw::model::step(r); })
    -> Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(model_file, sheets, [](const auto& r, const auto& c) {
    return bw::draw::sheets(r, c, bw::units::System::us, bw::draw::Paper::tabloid).map([](auto s) { return s.pdf; });
}) -> Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(model_file, dxf, [](const auto& r, const auto& c) {
    return bw::draw::dxf(r, c, bw::units::System::us);
}) -> Unit(benchmark::kMillisecond);

}  // namespace
