// SPDX-License-Identifier: MIT
#pragma once
// What one model of heater takes in a bank, on the 1/16 in grid.

#include <cmath>
#include <optional>

#include "catalogue/catalogue.h"
#include "plant/layout.h"
#include "plant/stations.h"
#include "survey/survey.h"

namespace bw::layout {

using plant::stations::grid;

/// Nearest grid points not below and not above, forgiving a thousandth of a step of rounding.
[[nodiscard]] inline double snap_up(double metres) { return std::ceil(metres / grid - 1e-3) * grid; }
[[nodiscard]] inline double snap_down(double metres) { return std::floor(metres / grid + 1e-3) * grid; }
[[nodiscard]] inline double snap_near(double metres) { return std::round(metres / grid) * grid; }

struct Measures {
    double width = 0;        ///< of a heater, metres
    double pitch = 0;        ///< heater to heater
    double depth = 0;        ///< of a heater, rounded up to the grid
    double front = 0;        ///< working space in front
    double vent_room = 0;    ///< above the heater's top clearance
    double above = 0;        ///< heater's height, top clearance and vent room
    double bottom = 0;       ///< of the heaters above the floor; meaningful when the ceiling is high enough. Under a
                             ///< sloping ceiling the greatest: where it stands lower, heaters hang lower
    bool hangs_lower = false;  ///< the ceiling slopes: how low depends on the place
    double end_extra = 0;    ///< free length wanted beyond a bank's ends
    double behind = 0;       ///< free behind a rack's frame
    double combustible = 0;  ///< clearance to combustible construction

    [[nodiscard]] double top() const { return bottom + above; }
    /// The heaters' bottom under so much height, no higher than usual.
    [[nodiscard]] double bottom_under(double ceiling) const;
    /// Length of a bank of so many heaters side by side.
    [[nodiscard]] double bank_length(int columns) const {
        return plant::feed_end + snap_up((columns - 1) * pitch + width) + plant::cap_end;
    }
    /// Most heaters side by side in a length, possibly none.
    [[nodiscard]] int columns_in(double length) const {
        const double left = length - plant::feed_end - plant::cap_end - width;
        return left < -1e-6 ? 0 : 1 + static_cast<int>((left + 1e-6) / pitch);
    }
};

/// Least ceiling the heater can hang under.
[[nodiscard]] double least_ceiling(const Measures& measures);
[[nodiscard]] Measures measure(const survey::Survey& survey, const catalogue::Heater& heater);

}  // namespace bw::layout
