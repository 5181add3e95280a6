// SPDX-License-Identifier: MIT
#pragma once
// The hot water loop: what it loses in heat and pressure in the plant and in the building, and what its pump gives.

#include <optional>
#include <string>
#include <vector>

#include "matter/water.h"
#include "network/loop_pump.h"
#include "proof/view.h"

namespace bw::proof {

using network::PumpCurve;

/// Air about the pipe: a room's 70 degF (common practice, no source).
inline constexpr units::Temperature loop_air = units::Temperature::from_value((70 + 459.67) / 1.8);

/// The loop's pieces from the building to the one of the cold or hot line they join; `joins` is -1 where they reach
/// none.
struct LoopWay {
    std::vector<Step> path;
    int joins = -1;
    [[nodiscard]] std::vector<int> of(const View& view, Part part) const;
};
[[nodiscard]] LoopWay loop_way(const View& view);

/// Heat of one size of the plant's own warm pipe, insulated to the energy code's least thickness, and bare.
struct WarmPipe {
    Service service{};
    units::Nominal size;
    units::Temperature water{};
    units::Length length{}, thickness{};  ///< fittings by their centre lines
    units::Power loss{}, bare{};
};
/// Hot and recirculation pieces. Fails where a temperature is outside the methods' range.
[[nodiscard]] Result<std::vector<WarmPipe>> warm_pipes(const View& view);

/// Heat a length of pipe of a material and size loses; thickness zero is bare. Fails where the catalogue lacks the
/// pipe.
[[nodiscard]] Result<units::Power> pipe_loss(const View& view, Material material, units::Nominal size,
                                             units::Length length, units::Length thickness, units::Temperature water);
/// The energy code's least; none below the temperature where its table begins.
[[nodiscard]] units::Length least_insulation(units::Temperature water, units::Nominal size);

/// What the loop's flow takes in the plant.
struct PlantWay {
    units::Pressure back{};    ///< from the building to where it joins, without the pump
    units::Pressure onward{};  ///< from there through the heaters to the delivery
    int open = 0;              ///< heaters that stand open
    int heater = 0;            ///< the first of those by which it takes most
    units::Velocity fastest{};
    int fastest_piece = -1;  ///< of the return
    [[nodiscard]] units::Pressure whole() const { return back + onward; }
};
/// Fails where the loop does not join the plant or the water network cannot be solved.
[[nodiscard]] Result<PlantWay> plant_way(const View& view, const LoopWay& way);

/// A column of the loop's water.
[[nodiscard]] units::Length head_of(units::Pressure pressure, const matter::Water& water);

/// Insulation, the pump's duty, velocities, and where the building's branches were surveyed their heat and balance;
/// gives the coldest water that comes back, where that is known.
[[nodiscard]] std::optional<units::Temperature> check_loop(const View& view, const LoopWay& way,
                                                           std::vector<reason::Check>& checks);

}  // namespace bw::proof
