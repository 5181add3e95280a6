// SPDX-License-Identifier: MIT
#pragma once
// What one model of heater takes in a bank, on the 1/16 in grid, and the heights it may hang at.

#include <cmath>
#include <optional>
#include <vector>

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

/// Height above the heaters that one way of venting takes, the manufacturer's top gap included, metres.
struct VentRoom {
    double to_ceiling = 0;  ///< least, for collar, elbow or tee and the pipe's own radius
    double to_centre = 0;   ///< of its level run above the heaters' tops
    double easy = 0;        ///< as much as lets several pass one another
};
/// By the parts of the catalogue where it has them, else by common practice.
[[nodiscard]] VentRoom vent_room(const catalogue::Heater& heater, const catalogue::Catalogue* parts,
                                 text::Material material, bool common);

/// A height heaters hang at, and how their headers run below.
struct Hang {
    const plant::stations::Section* section = nullptr;
    double bottom = 0;  ///< of the heaters above the floor, metres
};

struct Measures {
    double width = 0;  ///< of a heater, metres
    double height = 0;
    double pitch = 0;                  ///< heater to heater
    double depth = 0;                  ///< of a heater, rounded up to the grid
    double front = 0;                  ///< working space in front
    double side = 0;                   ///< clearance beside a heater
    double vents = 0;                  ///< above the heaters, least of the ways of venting preferred
    double feed_end = 0, cap_end = 0;  ///< lengths of a bank kept free of heaters
    double end_extra = 0;              ///< free length wanted beyond a bank's ends
    double behind_burns = 0;           ///< from the heaters' backs to a wall that burns, where the room has one
    double in_line_gap = 0;            ///< between banks in one line
    std::vector<Hang> hangs;           ///< heights worth trying, best first; none where the ceiling is too low for all

    /// Free behind a rack's frame.
    [[nodiscard]] double behind(const plant::stations::Rack& rack) const {
        return snap_up(rack.paired ? rack.behind : std::max(rack.behind, behind_burns - rack.depth));
    }
    /// Heater and what vents take above it.
    [[nodiscard]] double above() const { return height + vents; }
    /// The lowest any section hangs.
    [[nodiscard]] static Hang lowest();
    /// Length of a bank of so many heaters side by side.
    [[nodiscard]] double bank_length(int columns) const {
        return feed_end + snap_up((columns - 1) * pitch + width) + cap_end;
    }
    /// Most heaters side by side in a length, possibly none.
    [[nodiscard]] int columns_in(double length) const {
        const double left = length - feed_end - cap_end - width;
        return left < -1e-6 ? 0 : 1 + static_cast<int>((left + 1e-6) / pitch);
    }
};

/// Least ceiling the heater can hang under.
[[nodiscard]] double least_ceiling(const Measures& measures);
[[nodiscard]] Measures measure(const survey::Survey& survey, const catalogue::Heater& heater, int count,
                               const catalogue::Catalogue* parts);

}  // namespace bw::layout
