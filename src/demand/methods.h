// SPDX-License-Identifier: MIT
#pragma once
// The methods behind peak_demand, one file each, and the little they share.

#include <vector>

#include "demand/demand.h"

namespace bw::demand {

/// Fixture units on the hot column: one answer for each curve, the governing one marked. Empty when the survey has no
/// fixture that takes hot water. Fails past the end of the governing curve.
[[nodiscard]] Result<std::vector<Answer>> fixture_unit_answers(const survey::Survey& survey);

/// Block loads together at full flow, each converted to water at the distribution temperature. nullopt: no blocks.
[[nodiscard]] Result<std::optional<Answer>> block_answer(const survey::Survey& survey);

/// The hourly fixture method, beside the others for comparison and for tanks. nullopt: nothing its table counts.
[[nodiscard]] Result<std::optional<Answer>> hourly_answer(const survey::Survey& survey);

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
