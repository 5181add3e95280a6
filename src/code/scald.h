// SPDX-License-Identifier: MIT
#pragma once
// How long water of a temperature takes to burn.

#include "code/clause.h"

namespace bw::code {

struct ScaldTime {
    Time time{};
    std::string says;  ///< "about 10 s"
};
/// Time to a burn of the second degree on adult skin, between the published points by a straight line of the
/// logarithm; above the last point no longer than its time. Fails below 116.6 degF, where the points begin.
/// Source: burn times after Moritz and Henriques 1947.
[[nodiscard]] Result<Ruled<ScaldTime>> scald_time(Temperature temperature);

}  // namespace bw::code
