// SPDX-License-Identifier: MIT
// Water tube through the kernel against published friction and velocity figures.
#include <gtest/gtest.h>

#include <cmath>

#include "flow/pipes.h"
#include "flow/solver.h"

namespace bw::outside {
namespace {

using namespace bw::flow;  // NOLINT

constexpr double inch = 0.0254, foot = 0.3048, gpm = 231 * inch * inch * inch / 60, psi = 6894.757293168;
constexpr double cold_density = 999.0, gravity = 9.80665, pi = 3.14159265358979323846;

/// psi lost in 100 ft.
double lost(const Law& hundred_feet, double flow) {
    Network network;
    const int source = network.add_fixed("source", 200), tap = network.add_node("tap", -flow * gpm);
    network.add_link("tube", source, tap, hundred_feet);
    auto solver = Solver::analyse(network);
    if (!solver) return 0;
    const auto found = solver->solve();
    if (!found) return 0;
    return (200 - (*found)->potential[1]) * cold_density * gravity / psi;
}

struct Row {
    double bore, flow, expected;  ///< in, gpm, psi in 100 ft
};

// P = 4.52 Q^1.85 / (C^1.85 d^4.87) at C = 150, as printed in the Copper Tube Handbook and NFPA 13; the values are
// computed from that formula, whose exponents are rounded. Type L tube, ASTM B88.
constexpr Row handbook[] = {{0.785, 50, 192.51},  {1.025, 10, 2.6739}, {1.025, 20, 9.6394},  {1.505, 5, 0.11425},
                            {1.505, 10, 0.41188}, {1.505, 20, 1.4848}, {1.985, 5, 0.029674}, {1.985, 20, 0.38564},
                            {1.985, 50, 2.1007},  {1.985, 100, 7.5731}};

TEST(OutsideFlowWater, HazenWilliamsAsTheHandbookPrintsIt) {
    for (const auto& row : handbook)
        EXPECT_NEAR(lost(hazen_williams(100 * foot, row.bore * inch, 150), row.flow), row.expected, 0.01 * row.expected)
            << row.bore << " in at " << row.flow << " gpm";
}

// Illinois Plumbing Code, 77 Ill. Adm. Code 890, Table N, read in public text: losses on a fairly smooth basis, about
// C = 125 with the bores of type L; given to 7 %.
constexpr Row state_code[] = {{0.545, 2, 4.2}, {0.785, 8, 9.0}, {1.025, 20, 13.6}, {1.265, 25, 7.0}, {2.465, 105, 4.2}};

TEST(OutsideFlowWater, AStateCodesDesignLosses) {
    for (const auto& row : state_code)
        EXPECT_NEAR(lost(hazen_williams(100 * foot, row.bore * inch, 125), row.flow), row.expected, 0.07 * row.expected)
            << row.bore << " in at " << row.flow << " gpm";
}

// A published copper friction table (general irrigation text), read in public text: types K and L, cold water. It lies
// about 12 % above Darcy-Weisbach for smooth tube.
constexpr Row copper[] = {{0.527, 4, 15.67}, {0.745, 4, 2.78}, {0.745, 6, 5.9},   {0.995, 8, 2.46},
                          {1.245, 20, 4.28}, {0.545, 2, 3.44}, {0.545, 5, 18.77}, {0.785, 5, 3.09}};

TEST(OutsideFlowWater, CopperTableByDarcyWeisbach) {
    for (const auto& row : copper)
        EXPECT_NEAR(lost(by_head({100 * foot, row.bore * inch, 1.5e-6}, 1.12e-6), row.flow), row.expected,
                    0.20 * row.expected)
            << row.bore << " in at " << row.flow << " gpm";
}

}  // namespace
}  // namespace bw::outside
