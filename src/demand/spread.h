// SPDX-License-Identifier: MIT
#pragma once
// How much runs at once: the exact distribution of a sum of independent fixtures, each running or not.

#include <optional>
#include <vector>

#include "units/error.h"
#include "units/quantity.h"

namespace bw::demand {

using namespace bw::units;  // NOLINT: quantity names are the language of this header

/// The step of the lattice on which flows are added.
inline constexpr VolumeFlow lattice_step = 0.01 * gallon_per_minute;
inline constexpr int most_steps = 100'000;         ///< of one fixture: 1,000 gpm
inline constexpr long most_fixtures = 10'000'000;  ///< of one kind
/// A kind of fixture: `count` of them, each running with chance `busy` at a flow of `steps` lattice steps.
struct FixtureGroup {
    long count = 0;
    double busy = 0;
    int steps = 0;
};

/// Distribution of the flow at a moment. Flows stand on a lattice of `stride` steps from `first`.
/// Every kept chance is a sum of positive products, so it keeps its relative accuracy far into the tail; what is left
/// out at both ends is counted in `dropped` and stays below 1e-15.
class Spread {
public:
    /// Nothing runs, surely.
    Spread();
    /// Adds kinds; those of no fixture or no flow add nothing. Fails on a chance outside [0, 1], a count or flow out of
    /// range.
    [[nodiscard]] static Result<Spread> of(const std::vector<FixtureGroup>& kinds);

    [[nodiscard]] double dropped() const { return dropped_; }
    [[nodiscard]] VolumeFlow mean() const { return mean_ * lattice_step; }
    [[nodiscard]] VolumeFlow deviation() const;
    /// Mean number of fixtures running (Hunter's number), and the chance that none runs.
    [[nodiscard]] double running() const { return running_; }
    [[nodiscard]] double idle() const { return idle_; }

    /// Least lattice flow that is not exceeded with chance `share`; 0 < share < 1.
    [[nodiscard]] VolumeFlow percentile(double share) const;
    /// The same among the moments at which at least one fixture runs; nothing where none ever does.
    [[nodiscard]] VolumeFlow percentile_if_running(double share) const;
    /// Chance that the flow is above `flow`.
    [[nodiscard]] double above(VolumeFlow flow) const;
    /// mean + z deviation, the normal approximation (Wistort).
    [[nodiscard]] VolumeFlow normal_percentile(double share) const;
    /// Chance of one lattice point, for drawing and tests.
    [[nodiscard]] double at(long step) const;
    [[nodiscard]] long first() const { return first_; }
    [[nodiscard]] long last() const;
    [[nodiscard]] long stride() const { return stride_; }

private:
    long first_ = 0, stride_ = 1;
    std::vector<double> chance_, tail_;  ///< tail: of this point and all above
    double dropped_ = 0, mean_ = 0, variance_ = 0, running_ = 0, idle_ = 1;
};

/// Number of standard deviations above the mean that a normal variable stays below with chance `share`, 0 < share < 1.
[[nodiscard]] double normal_quantile(double share);
/// Mean number running from which the normal approximation is within its limit.
inline constexpr double normal_from = 5;

}  // namespace bw::demand
