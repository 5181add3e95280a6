// SPDX-License-Identifier: MIT
#pragma once
#include "draw/frame.h"
#include "draw/labels.h"
#include "draw/solids.h"

namespace bw::draw {

/// What is dimensioned in plan, room coordinates in metres: walls, banks, working space.
struct PlanStations {
    std::vector<double> across, up;
};
[[nodiscard]] PlanStations plan_stations(const SheetContext& context);

/// The room from above with the plant in it. Returns the scale's name.
std::string draw_plan(Canvas& canvas, const SheetContext& context);

/// One side of a bank as somebody standing in front of it sees it. Side 1 exists on two-sided racks only.
std::string draw_front(Canvas& canvas, const SheetContext& context, const plant::Bank& bank, int side);
/// A bank seen along its headers from the feed end.
std::string draw_end(Canvas& canvas, const SheetContext& context, const plant::Bank& bank);

/// The plant from above the corner whence most heaters show their fronts.
struct IsometricView {
    Axes axes;
    At low, high;  ///< metres along the view's right and up
};
/// `area` is what it is to fill; of its shape depends how much of the room is taken in.
[[nodiscard]] IsometricView isometric_view(const SheetContext& context, const Area& area);
/// The plant without its smallest parts, and the lines of the room. `points_per_metre` as with `scene_of`.
[[nodiscard]] Scene isometric_scene(const SheetContext& context, const Axes& axes, double points_per_metre = 0);

/// The whole plant from above a corner, hidden lines removed.
std::string draw_isometric(Canvas& canvas, const SheetContext& context);

/// The inks of the services the plant has.
void write_services(NotesColumn& notes, const plant::Plant& plant);

}  // namespace bw::draw
