// SPDX-License-Identifier: MIT
#pragma once
// Branch circuits of the heaters. Source: NEC 2017 (NFPA 70).

#include "code/clause.h"

namespace bw::code {

/// Share of a circuit's rating a continuous load may take: 80 %. NEC 210.19(A), 210.20(A).
[[nodiscard]] Clause<Ratio> continuous_load_share();
/// How many heaters one circuit may carry, at least 1 or it fails naming the current.
[[nodiscard]] Result<Ruled<int>> heaters_per_circuit(Current each, Current rating);
/// Disconnecting means within sight of the appliance or lockable. NEC 422.31.
[[nodiscard]] Clause<bool> disconnect_in_sight();
/// Within sight means visible and not more than 50 ft away. NEC 100.
[[nodiscard]] Clause<Length> in_sight_distance();
/// One trip may take at most half the plant: our rule for plants, common practice.
[[nodiscard]] Clause<Ratio> circuit_share_limit();

}  // namespace bw::code
