// SPDX-License-Identifier: MIT
#pragma once
// A sketch written out as a layout, and its name.

#include <string>

#include "layout/job.h"

namespace bw::layout {

/// The layout of a sketch: heaters numbered, spaces and floor taken found.
[[nodiscard]] plant::Layout written_out(const Job& job, const Sketch& sketch);

/// m2 of footprint with working space.
[[nodiscard]] double floor_area(const Sketch& sketch);

/// A sketch's place, which names it: the name stays when other layouts come and go.
[[nodiscard]] Place place_of(const Job& job, const Sketch& sketch);

}  // namespace bw::layout
