// SPDX-License-Identifier: MIT
#pragma once
// Forces an earthquake puts on what is fastened to a building, and whether they tip it. Source: ASCE 7-16 13.3.1.

#include "code/clause.h"

namespace bw::code {

/// A component and where it is fastened.
struct Fastened {
    Force weight{};           ///< operating: full of water
    double sds = 0;           ///< design spectral acceleration at short periods, in g
    double ap = 1, rp = 2.5;  ///< amplification and response factors of the component, Table 13.6-1
    double ip = 1;            ///< component importance factor
    double height_ratio = 0;  ///< of the point of fastening over the roof's: 0 at or below the base, 1 at the roof
};

struct SeismicForce {
    Force force{};  ///< horizontal, either way along both axes; within its bounds
    Force lower{}, upper{};
    Force computed{};  ///< before the bounds
    Force vertical{};  ///< up or down with it
};

/// Fp = 0.4 ap SDS Wp (1 + 2 z/h) / (Rp/Ip), not above 1.6 SDS Ip Wp nor below 0.3 SDS Ip Wp; vertical 0.2 SDS Wp.
/// Refused outside: weight above nothing, SDS above 0 to 4, ap 1 to 2.5, Rp 1 to 12, Ip 1 to 1.5, z/h 0 to 1.
[[nodiscard]] Result<Ruled<SeismicForce>> seismic_force(const Fastened& component);

/// Factors of a component kind, ASCE 7-16 Table 13.6-1, from memory but for Rp of heaters.
struct ComponentFactors {
    double ap = 1, rp = 2.5;
    std::string says;
    Source source;
};
[[nodiscard]] ComponentFactors water_heater_factors();  ///< ap 1, Rp 2.5
[[nodiscard]] ComponentFactors pipe_factors(bool b31, bool threaded);

/// A free-standing thing pushed sideways.
struct FreeStanding {
    Force weight{};
    Force force{};            ///< sideways at its centre of gravity
    Length height{};          ///< of that above the feet
    Length base{};            ///< between the two rows of feet
    int anchors = 1;          ///< in the row that would lift
    Force vertical{};         ///< taken off the weight
    double weight_share = 1;  ///< of the weight that may be counted on to hold it down
};
struct Overturning {
    Force uplift{};       ///< of each anchor in the row; nothing where none lifts
    bool stable = false;  ///< stands without anchors
};
/// Moments about the other row: T n b = F h - (s W - Fv) b/2. Refused where a length, weight or number is not above
/// nothing.
[[nodiscard]] Result<Ruled<Overturning>> overturning(const FreeStanding& standing);

}  // namespace bw::code
