// SPDX-License-Identifier: MIT
// A plant's networks are solved once, and everything after reads what was
// found.
#include <gtest/gtest.h>

#include <atomic>

#include "../support/examples.h"
#include "design/solved.h"

namespace bw::network {

std::atomic<int> gas_solved{0}, vents_fed{0};

// the linker puts these in the place of the room's own (tests/CMakeLists.txt)
Result<GasFlows> real_gas_flows(const GasNetwork& network, const GasFeed& feed) __asm__("__real_" BANKWRIGHT_GAS_FLOWS);
Result<GasFlows> counted_gas_flows(const GasNetwork& network,
                                   const GasFeed& feed) __asm__("__wrap_" BANKWRIGHT_GAS_FLOWS);
Result<GasFlows> counted_gas_flows(const GasNetwork& network, const GasFeed& feed) {
    ++gas_solved;
    return real_gas_flows(network, feed);
}

Result<VentFeed> real_vent_feed(const survey::Survey& survey, const catalogue::Heater& heater,
                                const demand::Demand& demand,
                                const demand::Capacity& capacity) __asm__("__real_" BANKWRIGHT_VENT_FEED);
Result<VentFeed> counted_vent_feed(const survey::Survey& survey, const catalogue::Heater& heater,
                                   const demand::Demand& demand,
                                   const demand::Capacity& capacity) __asm__("__wrap_" BANKWRIGHT_VENT_FEED);
Result<VentFeed> counted_vent_feed(const survey::Survey& survey, const catalogue::Heater& heater,
                                   const demand::Demand& demand, const demand::Capacity& capacity) {
    ++vents_fed;
    return real_vent_feed(survey, heater, demand, capacity);
}

}  // namespace bw::network

namespace bw::test {
namespace {

class SolvedOnce : public ::testing::TestWithParam<const char*> {};
INSTANTIATE_TEST_SUITE_P(All, SolvedOnce, ::testing::ValuesIn(example_names));

TEST_P(SolvedOnce, FromTheLayoutToWhatEveryDocumentReads) {
    const auto& chosen = *designed(GetParam()).chosen;
    network::gas_solved = network::vents_fed = 0;
    const auto result =
        design::run_layout(example(GetParam()), demo_catalogue(), chosen.capacity.heater, chosen.layout.id, 2);
    ASSERT_TRUE(result && result->chosen);
    (void)design::solved(*result);
    (void)design::header_schemes(*result);
    (void)design::common_vents(*result);
    EXPECT_EQ(network::gas_solved, 1);
    EXPECT_EQ(network::vents_fed, 1);
}

/// What is carried is what the chosen plant's own pieces give.
TEST_P(SolvedOnce, TheResultCarriesItsOwnPlantsSolution) {
    const auto& result = designed(GetParam());
    const auto& chosen = *result.chosen;
    const auto& heater = *demo_catalogue().heater(chosen.capacity.heater);
    const auto fresh =
        network::solve(chosen.built.plant, demo_catalogue(), {result.survey, heater, result.demand, chosen.capacity});
    const auto& carried = chosen.hydraulics;
    ASSERT_TRUE(fresh.gas && carried.gas && fresh.water && carried.water && fresh.vents && carried.vents);
    EXPECT_EQ(fresh.gas->flows.all->pressure, carried.gas->flows.all->pressure);
    EXPECT_EQ(fresh.water->flows.design->pressure, carried.water->flows.design->pressure);
    ASSERT_EQ(fresh.vents->exhaust->size(), carried.vents->exhaust->size());
    for (std::size_t v = 0; v < fresh.vents->exhaust->size(); ++v)
        EXPECT_EQ((*fresh.vents->exhaust)[v].flows->all->pressure, (*carried.vents->exhaust)[v].flows->all->pressure);
}

/// The check, the drawings and the documents name one figure.
TEST_P(SolvedOnce, ChecksAndDrawingsNameOneFigure) {
    const auto& result = designed(GetParam());
    const auto solved = design::solved(result);
    const auto* lowest = check_of(result, "gas.solved");
    ASSERT_TRUE(lowest && lowest->value);
    std::optional<units::Pressure> least;
    for (const auto& p : solved.heater_gas_pressure)
        if (p) least = std::min(least.value_or(*p), *p);
    ASSERT_TRUE(least);
    EXPECT_EQ(lowest->value->si, least->value());
}

}  // namespace
}  // namespace bw::test
