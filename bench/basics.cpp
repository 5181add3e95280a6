// SPDX-License-Identifier: MIT
// What the whole job does thousands of times.
#include <benchmark/benchmark.h>

#include "catalogue/catalogue.h"
#include "code/gas_pipe.h"
#include "matter/combustion.h"
#include "matter/pipe_flow.h"
#include "reckon/reckon.h"
#include "survey/survey.h"
#include "text/toml.h"
#include "units/parse.h"

namespace {

using namespace bw::units;  // NOLINT

void parse_a_length(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(parse("6 ft 3-1/2 in", Kind::length));
}
BENCHMARK(parse_a_length);

void print_a_length(benchmark::State& state) {
    const auto length = 75.5 * inch;
    for (auto _ : state) benchmark::DoNotOptimize(print_feet_inches(length));
}
BENCHMARK(print_a_length);

void read_a_survey(benchmark::State& state) {
    const auto text = bw::text::read_file(std::string(BANKWRIGHT_SOURCE) + "/examples/hostel.toml");
    if (!text) return state.SkipWithError("the example cannot be read");
    for (auto _ : state) benchmark::DoNotOptimize(bw::survey::parse(*text, "hostel.toml"));
}
BENCHMARK(read_a_survey);

void load_the_catalogue(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(bw::catalogue::load());
}
BENCHMARK(load_the_catalogue)->Unit(benchmark::kMillisecond);

void properties_of_water(benchmark::State& state) {
    const auto temperature = fahrenheit(120);
    for (auto _ : state) benchmark::DoNotOptimize(bw::matter::water(temperature));
}
BENCHMARK(properties_of_water);

void drop_in_a_water_pipe(benchmark::State& state) {
    const auto water = *bw::matter::water(fahrenheit(60));
    const auto flow = 40.0 * gallon_per_minute;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            bw::matter::pipe_drop(flow, 1.985 * inch, 0.0015 * millimetre, 10.0 * foot, 0.5, water));
}
BENCHMARK(drop_in_a_water_pipe);

void drop_in_a_gas_pipe(benchmark::State& state) {
    const bw::code::GasFeed feed{bw::text::Gas::natural, 0.6, 7.0 * inch_water};
    const auto flow = 1000.0 * cubic_foot_per_hour;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            bw::code::gas_drop_by(bw::code::GasEquation::low_pressure, feed, 2.067 * inch, 10.0 * foot, flow));
}
BENCHMARK(drop_in_a_gas_pipe);

void combustion_of_propane(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(bw::matter::combustion(bw::text::Gas::propane, 0.25));
}
BENCHMARK(combustion_of_propane);

void reckon_a_gas_pipe(benchmark::State& state) {
    const auto catalogue = bw::catalogue::load();
    if (!catalogue) return state.SkipWithError("the catalogue cannot be read");
    const std::vector<std::pair<std::string, std::string>> given{{"material", "steel-40"},
                                                                 {"size", "1-1/4 in"},
                                                                 {"length", "60 ft"},
                                                                 {"inlet", "7 inH2O"},
                                                                 {"drop", "0.5 inH2O"}};
    for (auto _ : state) benchmark::DoNotOptimize(bw::reckon::reckon("gas-pipe", given, *catalogue));
}
BENCHMARK(reckon_a_gas_pipe);

}  // namespace
