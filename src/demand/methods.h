// SPDX-License-Identifier: MIT
#pragma once
// The methods behind peak_demand and capacity, one file each, and the little they share.

#include <vector>

#include "demand/demand.h"

namespace bw::demand {

/// Fixture units on the hot column: one answer for each curve that reaches so far. Empty when the survey has no fixture
/// that takes hot water.
[[nodiscard]] Result<std::vector<Answer>> fixture_unit_answers(const survey::Survey& survey);

/// The fixtures that take hot water, with the chance that each runs in the busiest hour.
struct Loads {
    std::vector<FixtureLoad> loads;
    std::vector<std::string> without_chance;  ///< known to no table and not given
    reason::Sources sources;
};
/// Chances, first found: the survey's; for dwellings the Peak Water Demand Study's; the share of the handbook's
/// probable hour the fixture must run; for washers elsewhere the study's.
[[nodiscard]] Result<Loads> fixture_loads(const survey::Survey& survey);
/// Hot water of a fixture's drawn flow, where the hot pipe holds water of `hot`.
[[nodiscard]] Result<VolumeFlow> hot_part(const survey::Survey& survey, text::Fixture fixture, VolumeFlow drawn,
                                          Temperature hot);
/// Hot flow of all fixtures wide open. nullopt: none takes hot water, or one's flow is in no table.
[[nodiscard]] Result<std::optional<Answer>> all_open_answer(const survey::Survey& survey);
/// Distribution of their hot flow with every chance times `share`.
[[nodiscard]] Result<Spread> spread_of(const std::vector<FixtureLoad>& loads, double share);
/// The exact answer first, then the conditioned one and the normal approximation. Empty without loads.
[[nodiscard]] std::vector<Answer> probability_answers(const Loads& loads, const Spread& spread, double share);

/// Block loads at full flow, each converted to water at the distribution temperature, on the day's timetable.
struct BlockLoads {
    Answer answer;
    std::vector<VolumeFlow> minutes;  ///< of the day
};
/// nullopt: no blocks. Blocks without times run in the busiest hour.
[[nodiscard]] Result<std::optional<BlockLoads>> block_loads(const survey::Survey& survey, int busiest);

/// The hourly fixture method, beside the others for comparison and for tanks. nullopt: nothing its table counts.
[[nodiscard]] Result<std::optional<Answer>> hourly_answer(const survey::Survey& survey);
/// Use by people, rooms or dwellings served. nullopt: none counted.
[[nodiscard]] Result<std::optional<Answer>> occupancy_answer(const survey::Survey& survey);
/// Gallons at the distribution temperature that hold the heat of one at 140 degF.
[[nodiscard]] Result<Ratio> gallons_for_140(const survey::Survey& survey);

/// Shape of a day in a kind of building: share of the busiest hour, by the hour. Common practice, no source.
[[nodiscard]] const std::array<double, 24>& day_shape(text::Building building);
[[nodiscard]] int busiest_hour(text::Building building);
/// The day's stretches and volumes, once the answers stand.
[[nodiscard]] Day day_of(const survey::Survey& survey, const Demand& demand, const std::optional<BlockLoads>& blocks);
/// The distributions for the shares that occur in the day; that of the busiest hour, share 1, is known.
[[nodiscard]] Result<std::vector<Level>> levels_of(const std::vector<FixtureLoad>& loads, const Day& day,
                                                   Spread busiest);

/// What so many heaters deliver beside the loop, by heat and by the flow they can pass.
[[nodiscard]] Result<VolumeFlow> delivered(const Demand& demand, const HeaterOutput& each, int heaters);
[[nodiscard]] Result<std::vector<RiskPoint>> risk_curve(const Demand& demand, const HeaterOutput& each, int heaters);
[[nodiscard]] Result<std::vector<StoreOption>> store_options(const Demand& demand, const HeaterOutput& each,
                                                             int needed);
/// The largest day's water spread over all its hours: no store makes up for less.
[[nodiscard]] VolumeFlow least_recovery(Volume day);
/// Whole volume of a tank of which so much is drawn off hot: the handbook's 70 %.
[[nodiscard]] Volume tank_for(Volume usable);
[[nodiscard]] std::vector<reason::Check> advice(const survey::Survey& survey, const Demand& demand,
                                                const catalogue::Heater& heater, const Capacity& capacity);

/// Heaters that carry `times` the peak and the loop's loss, by heat and by the flow they can pass.
[[nodiscard]] int heaters_for(const Demand& demand, const HeaterOutput& each, Power peak_heat, double times);
/// One model's number without what stands beside it: risk, stores, mixed models and advice.
[[nodiscard]] Result<Capacity> sized(const survey::Survey& survey, const Demand& demand,
                                     const catalogue::Heater& heater);
/// The cheapest pair of models that carries the peak, with as many of the larger down as the cheapest single model has
/// spare; nothing where one model is no dearer, or the survey asks for one.
[[nodiscard]] std::optional<Mixed> mixed_plant(const survey::Survey& survey, const Demand& demand,
                                               const catalogue::Catalogue& catalogue);
[[nodiscard]] double price_of(const survey::Survey& survey, const catalogue::Heater& heater);

struct LoopLoad {
    Power loss{};
    VolumeFlow flow{};
    reason::Derivation derivation;
};
/// What the recirculation loop loses and carries; zero where there is none.
[[nodiscard]] Result<LoopLoad> loop_load(const survey::Survey& survey);

/// Share of hot water in a mix: (tm - tc) / (th - tc). Fails unless tc < tm <= th.
[[nodiscard]] Result<Ratio> hot_share(Temperature cold, Temperature mixed, Temperature hot);

[[nodiscard]] std::string say(VolumeFlow flow);
[[nodiscard]] std::string say(Temperature temperature);
[[nodiscard]] std::string say(Power power);

}  // namespace bw::demand
