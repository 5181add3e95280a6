// SPDX-License-Identifier: MIT
#pragma once
// What a link takes from the potential for the flow it carries. Plain numbers in any one coherent set of units: a
// potential (head in m, pressure in Pa, squared pressure in Pa2) and a flow (m3/s or kg/s). Every law rises with the
// flow, so a network has one solution.

#include <variant>
#include <vector>

namespace bw::flow {

/// How the Darcy friction factor is found.
enum class Friction {
    colebrook,    ///< laminar to Re 2,000, Colebrook 1939 from 4,000, a straight line in f between
    swamee_jain,  ///< laminar to 2,000, Swamee-Jain 1976 from 4,000, the cubic of Dunlop 1991 between
};

/// Loss = (friction f(Re) + local) q|q|, with Re = reynolds |q|. Darcy-Weisbach, for a liquid or a gas.
struct Pipe {
    double friction = 0;   ///< potential lost a unit of flow squared at a friction factor of 1
    double local = 0;      ///< the same, for local losses
    double reynolds = 0;   ///< Reynolds number a unit of flow
    double roughness = 0;  ///< relative to the bore
    Friction form = Friction::colebrook;
};

/// Loss = resistance q|q|^(exponent-1): a local loss or an open valve (exponent 2), Hazen-Williams (1.852), the
/// power laws of gas pipe tables. Below `linear_below` the loss goes on a straight line to zero, since a power's slope
/// vanishes there; keep it far below any flow of interest.
struct Power {
    double resistance = 0;
    double exponent = 2;
    double linear_below = 0;
};

/// Loss by straight lines between given points; flow and loss rise along the table (a fan or pump has losses below
/// zero that rise towards zero). A table that starts at no flow and no loss is mirrored for flow backwards; any other
/// is used only within its flows. A solution outside the flows is refused.
struct Table {
    std::vector<double> flow, loss;
};

/// Holds its outlet at `setting` while the inlet is above it; otherwise stands open with resistance q^2, and never
/// lets flow back.
struct Regulator {
    double setting = 0;
    double resistance = 0;
    double linear_below = 0;
};

using Law = std::variant<Pipe, Power, Table, Regulator>;

}  // namespace bw::flow
