// SPDX-License-Identifier: MIT
#include <algorithm>
#include <array>
#include <cmath>

#include "design/design.h"

namespace bw::design {

namespace {

/// Less is better in each; differences too small to choose by are rounded away.
using Marks = std::array<double, 5>;

Marks marks(const Candidate& c) {
    return {static_cast<double>(c.tally.fail), std::round(c.total_cost / 100), std::round(c.floor_area / 0.1),
            std::round(c.run), std::round(c.shortfall.value_or(1) * 100)};
}

bool betters(const Marks& a, const Marks& b) {
    return a != b && std::ranges::equal(a, b, [](double x, double y) { return x <= y; });
}

}  // namespace

void mark_undominated(std::vector<Candidate>& candidates) {
    for (Candidate& c : candidates)
        c.undominated = c.refused.empty() && std::ranges::none_of(candidates, [mine = marks(c)](const Candidate& o) {
                            return o.refused.empty() && betters(marks(o), mine);
                        });
}

}  // namespace bw::design
