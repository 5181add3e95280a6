// SPDX-License-Identifier: MIT
#pragma once
// The building's loop branch by branch: heat, the flow each needs, what its pipe takes, how its valve is set, and what
// comes back with the valves wide open and set.

#include <vector>

#include "proof/water/loop.h"

namespace bw::proof {

struct BranchFigures {
    const survey::LoopBranch* branch = nullptr;
    units::Length insulation{}, return_insulation{};
    units::Length code_insulation{};  ///< least of new hot pipe of its size, by the energy code
    units::Power loss{};
    units::VolumeFlow needed{};               ///< its share of the loop's flow by its heat
    units::Pressure pipe{};                   ///< lost in its pipes at that flow
    units::Pressure valve{};                  ///< to be taken by its balancing valve at that flow
    double setting = 0, open = 0;             ///< flow coefficients: gpm at 1 psi; as set, and wide open
    units::Velocity fastest{};                ///< in its return or its hot pipe at the flow as set
    units::VolumeFlow unset, set{};           ///< flows with every valve wide open, and set, against the pump's curve
    units::Temperature back_unset{}, back{};  ///< what comes back then
};

struct Branches {
    std::vector<BranchFigures> at;  ///< along the survey's
    units::Power loss{};
    units::Pressure index{};    ///< taken by the branch that takes most, its valve wide open
    std::size_t hardest = 0;    ///< that branch
    std::size_t coldest = 0;    ///< by what comes back as set
    std::string unset_refused;  ///< why the flows with every valve open have no solution: the pump past its curve
};

/// `plant` is what the plant's own way takes at the loop's flow; it goes as the flow squared. Fails where the catalogue
/// lacks a pipe or the flows have no solution.
[[nodiscard]] Result<Branches> loop_branches(const View& view, units::Pressure plant, const PumpCurve& pump);

}  // namespace bw::proof
