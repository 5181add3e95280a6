// SPDX-License-Identifier: MIT
#pragma once
// Water supply fixture units: how many a fixture's hot side counts, and what flow a sum of them stands for.

#include <optional>

#include "code/clause.h"

namespace bw::code {

enum class UnitCurve { ipc_flush_tank, ipc_flushometer, nspc_flush_tank, nspc_flushometer };

/// "IPC 2018 Table E103.3(3), flush tanks".
[[nodiscard]] std::string title(UnitCurve curve);
/// Least and greatest units of a curve as printed.
struct UnitRange {
    double least = 0, greatest = 0;
};
[[nodiscard]] UnitRange range(UnitCurve curve);

/// Flow for a sum of units: printed points, straight lines between, refused outside them.
[[nodiscard]] Result<Ruled<VolumeFlow>> flow_for_units(double units, UnitCurve curve);

/// What one fixture's hot side counts.
struct HotUnits {
    double units = 0;
    std::string row;  ///< the table row it was mapped to
    Source source;
};
/// nullopt: the fixture takes no hot water. Source: IPC 2018 Table E103.3(2), hot column.
[[nodiscard]] std::optional<HotUnits> hot_units(text::Fixture fixture);

}  // namespace bw::code
