// SPDX-License-Identifier: MIT
#pragma once
// How far apart pipe is held up.

#include "code/clause.h"

namespace bw::code {

/// Horizontal spacing by the plumbing code. Source: IPC 2018 Table 308.5. Fails for materials the table lacks.
[[nodiscard]] Result<Clause<Length>> hanger_spacing(Material material, Nominal size);
/// Vertical spacing by the plumbing code.
[[nodiscard]] Result<Clause<Length>> hanger_spacing_vertical(Material material, Nominal size);
/// Horizontal spacing of water-filled pipe by the support standard's table, for steel and copper. Source: MSS SP-58.
/// Fails for sizes the table lacks.
[[nodiscard]] Result<Clause<Length>> support_spacing(Material material, Nominal size);

/// Least rod for a single hanger of a pipe size. Source: MSS SP-58, steel pipe; copper tube is given the same. Fails
/// above 12 in.
[[nodiscard]] Result<Clause<Nominal>> hanger_rod(Nominal pipe);
/// Greatest load of a threaded rod up to 650 degF. Source: MSS SP-58. Fails for sizes the table lacks.
[[nodiscard]] Result<Clause<Force>> rod_load(Nominal rod);

/// Plastic vent is held every 4 ft (common practice, no source).
[[nodiscard]] Clause<Length> vent_support_spacing();

/// Runs of at least `long_run` are held within `near_turn` of where they turn (common practice, no source).
inline constexpr Length near_turn = 24.0 * inch, long_run = 48.0 * inch;

}  // namespace bw::code
