// SPDX-License-Identifier: MIT
#pragma once
// What the networks read off the pieces say of each piece, and which way each port flows.

#include <optional>
#include <vector>

#include "design/design.h"
#include "network/header_schemes.h"
#include "network/vent_by_number.h"

namespace bw::design {

/// At design conditions: the peak drawn, every heater firing. Pressures are gauge, at the ends of the run without
/// branches that the piece belongs to, in the direction of flow.
struct State {
    units::Pressure start{}, end{};
    std::optional<units::VolumeFlow> flow;     ///< of water as it is cold; of gas at 60 degF and one atmosphere
    std::optional<units::MassFlow> mass_flow;  ///< of flue gas or air
};

enum class Flow { unknown, in, out };

struct Solved {
    std::vector<std::optional<State>> piece;  ///< by piece; a tee has the greatest of its flows
    std::vector<std::optional<units::VolumeFlow>> heater_water, heater_gas;  ///< by number - 1
    std::vector<std::optional<units::Pressure>> heater_gas_pressure;         ///< by number - 1
    std::vector<std::optional<units::Pressure>> heater_cold, heater_hot;     ///< by number - 1, gauge at its ports
    std::vector<std::vector<Flow>> port;                                     ///< by piece and port
};

/// Of the chosen plant. A network without a solution leaves its pieces without a state.
[[nodiscard]] Solved solved(const Result& result);

/// How the heaters would share the peak by other ways to feed their headers; empty where the water has no solution.
[[nodiscard]] std::vector<network::HeaderScheme> header_schemes(const Result& result);

/// What an idle heater's damper must hold in a common vent, by number firing.
struct CommonVent {
    std::string terminal;  ///< id of the piece at its way out
    std::vector<network::FiringPressure> rows;
};
[[nodiscard]] std::vector<CommonVent> common_vents(const Result& result);

}  // namespace bw::design
