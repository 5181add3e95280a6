// SPDX-License-Identifier: MIT
#pragma once
// Small networks of water at about 20 degC, by head in m and flow in m3/s.

#include <gtest/gtest.h>

#include "flow/pipes.h"
#include "flow/solver.h"

namespace bw::flow {

constexpr double water_viscosity = 1.0e-6;

inline Pipe tube(double length, double bore, double local = 0) {
    return by_head({length, bore, 1.5e-6, local}, water_viscosity);
}

inline Power fitting(double bore, double local) { return local_by_head(bore, local, water_viscosity); }

/// The solution, or a failed test.
inline Solution solved(const Network& network) {
    auto solver = Solver::analyse(network);
    if (!solver) {
        ADD_FAILURE() << describe(solver.error());
        return {};
    }
    const auto found = solver->solve();
    if (found) return **found;
    ADD_FAILURE() << describe(found.error());
    return {};
}

/// What a network is refused for; empty when it is solved.
inline std::string refusal(const Network& network) {
    auto solver = Solver::analyse(network);
    if (!solver) return describe(solver.error());
    const auto found = solver->solve();
    return found ? std::string() : describe(found.error());
}

}  // namespace bw::flow
