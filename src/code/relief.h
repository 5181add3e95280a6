// SPDX-License-Identifier: MIT
#pragma once
// Relief valves and their discharge. Source: IPC 2018 504.

#include <vector>

#include "code/clause.h"

namespace bw::code {

/// Greatest set pressure: 150 psi, or the weakest part's rating where that is less. IPC 504.4.1/504.5.
[[nodiscard]] Ruled<Pressure> relief_set_limit(Pressure weakest_part);
/// Least steam-rated capacity: the heater's full input.
[[nodiscard]] Ruled<Power> relief_capacity(Power heater_input);
/// Temperature setting of a combined valve: 210 degF.
[[nodiscard]] Clause<Temperature> relief_temperature_limit();
/// Rules of the discharge pipe (504.6), in order.
[[nodiscard]] std::vector<Clause<bool>> relief_discharge_rules();
/// No shut-off between heater and relief valve nor in its discharge. IPC 504.6, 504.5.
[[nodiscard]] Clause<bool> relief_no_valve();
/// End of the discharge above the floor or receptor: not more than 6 in, not less than two pipe diameters.
[[nodiscard]] Clause<Length> relief_discharge_height();

}  // namespace bw::code
