// SPDX-License-Identifier: MIT
#pragma once
// The fuel gases of the trade, one row each.

#include "reason/reason.h"
#include "text/row.h"
#include "text/vocabulary.h"
#include "units/quantity.h"

namespace bw::matter {

using text::Column;
using text::Gas;
using namespace bw::units;  // NOLINT

/// What is taken where a survey does not say, in the survey's own syntax, and why.
struct Usual {
    std::string_view written, why;
};

struct Range {
    double least, greatest;
};

/// A fuel gas as delivered where nothing better is known, and the hydrocarbon that stands for it in combustion. A
/// utility's own figures go before these.
struct Fuel {
    Column<Gas> gas;
    Column<std::string_view> burns;    ///< "Propane burns"
    Column<std::string_view> formula;  ///< of its burning
    Column<int> carbon, hydrogen;      ///< atoms in one molecule: natural gas burns as methane here
    Column<HeatingValue> higher;       ///< gross, per volume at 60 degF and one atmosphere
    Column<HeatingValue> nameplate;    ///< that the printed pipe tables and the nameplates are written for
    Column<Ratio> specific_gravity;    ///< of air, that of the code's tables
    Column<double> cr, y;              ///< constants of the code's sizing equations at that specific gravity
    Column<double> viscosity;          ///< Pa s, as those equations take it (IFGC 2018 Appendix A, from memory)
    Column<bool> tabled_by_heat;       ///< the code's tables give kBtu/h rather than ft3/h
    Column<Usual> usual_heating_value, usual_gravity, usual_delivery;
    Column<Range> heating_values;  ///< Btu/ft3 that a survey may give
    Column<Range> gravities;       ///< that a survey may give
    reason::Sources sources;
};

[[nodiscard]] const Fuel& fuel(Gas gas);

/// Volume of gas at 60 degF and one atmosphere that brings a heat input.
[[nodiscard]] inline VolumeFlow gas_flow(Power input, HeatingValue higher) { return input / higher; }

}  // namespace bw::matter
