// SPDX-License-Identifier: MIT
#pragma once
// The way of the gas to one heater, with what is lost on it while every heater fires.

#include <vector>

#include "catalogue/catalogue.h"
#include "code/gas_pipe.h"

namespace bw::proof {

class PlantIndex;

/// Pieces in a row of one bore, carrying one flow.
struct GasSection {
    units::Length bore{}, length{}, equivalent{};  ///< equivalent: straight pipe that loses as much as its fittings
    double velocity_heads = 0;  ///< of what the code gives no equivalent length for, by the catalogue
    units::VolumeFlow flow{};
    units::Pressure entering{}, drop{};  ///< drop: whole
    units::Pressure by_heads{};          ///< the part of it that `velocity_heads` take
    code::GasEquation equation{};
    std::vector<int> pieces;
    int regulator_after = -1;  ///< the regulator it ends at; -1 for none
};

struct GasRun {
    std::vector<int> pieces;  ///< from the point of connection to the heater, in order
    std::vector<GasSection> sections;
    units::Pressure running{};  ///< at the heater with all firing
    units::Pressure rest{};     ///< at the heater with nothing firing: delivery, or the last regulator's lock-up
    units::Pressure before_regulator{};  ///< lost from the point of connection to the first regulator or the heater
    std::vector<int> regulators;         ///< pieces, in order
    std::vector<units::Pressure> regulator_inlets;  ///< while running, beside `regulators`
};

/// What the heater needs and stands of the survey's gas; nullptr where it does not burn it.
[[nodiscard]] const catalogue::GasInlet* gas_inlet(const PlantIndex& view);
/// One heater's gas at the input left at this altitude, by the local heating value.
[[nodiscard]] units::VolumeFlow gas_flow_each(const PlantIndex& view);
/// Fails naming the heater where no gas reaches it, a regulator names no outlet, or the pipe cannot carry the flow.
[[nodiscard]] Result<GasRun> trace_gas(const PlantIndex& view, int heater_number);

}  // namespace bw::proof
