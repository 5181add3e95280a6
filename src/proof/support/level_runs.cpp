// SPDX-License-Identifier: MIT
#include "proof/support/level_runs.h"

#include <algorithm>

namespace bw::proof {

std::vector<LevelRun> level_runs(const View& view, Service service) {
    return network::level_runs(view.plant, [&](int i) {
        const auto& piece = view.piece(i);
        return view.pipe(i) && piece.service == service && piece.part != Part::cable;
    });
}

double longest_gap(const LevelRun& run) {
    double at = 0, gap = 0;
    for (const auto& hold : run.held) {
        gap = std::max(gap, hold.at - at);
        at = hold.at;
    }
    return std::max(gap, run.length - at);
}

}  // namespace bw::proof
