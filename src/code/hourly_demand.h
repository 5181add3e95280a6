// SPDX-License-Identifier: MIT
#pragma once
// The handbook's hourly hot-water table: gallons an hour at 140 degF by fixture and building, with demand and storage
// factors.

#include <map>
#include <optional>
#include <vector>

#include "code/clause.h"

namespace bw::code {

using text::Building;
using text::Fixture;

/// A cell of the table.
struct HourlyRate {
    VolumeFlow least{}, greatest{};            ///< equal unless the table prints a range
    std::optional<VolumeFlow> other_printing;  ///< what another printed copy has, where copies disagree
    Source source;
    [[nodiscard]] VolumeFlow used() const { return greatest; }
};
/// Fails where the table prints no value for the pair. `fixture` is one of the table's ten (see hourly_row).
[[nodiscard]] Result<HourlyRate> hourly_rate(Building building, Fixture fixture);
/// The ten fixtures the table has, in its order.
[[nodiscard]] const std::vector<Fixture>& hourly_fixtures();
/// The row a survey fixture counts under; nullopt where the table has none (clothes washers, bidets, closets).
[[nodiscard]] std::optional<Fixture> hourly_row(Fixture fixture);

struct HourlyFactors {
    Ratio demand = 0, storage = 0;
    Source demand_source, storage_source;
};
[[nodiscard]] HourlyFactors hourly_factors(Building building);

struct HourlyDemand {
    VolumeFlow possible{}, probable{};  ///< at 140 degF
    Volume storage{};                   ///< usable tank the probable hour asks for
};
/// Counts by the table's fixtures. Fails on a negative count, no fixture at all, or a pair the table leaves blank.
[[nodiscard]] Result<Ruled<HourlyDemand>> hourly_demand(Building building, const std::map<Fixture, int>& counts);

}  // namespace bw::code
