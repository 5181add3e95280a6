// SPDX-License-Identifier: MIT
#pragma once
// Chances on a lattice, and their sums. All terms are positive, so nothing cancels.

#include <vector>

namespace bw::demand {

/// Chances of first, first + 1, … ; `dropped` is the chance left out below and above.
struct Piled {
    long first = 0;
    std::vector<double> chance{1.0};
    double dropped = 0;
    long step = 1;  ///< lattice points one count stands for
    [[nodiscard]] long span() const { return step * static_cast<long>(chance.size()); }
};

/// How many of `count` run, each with chance `busy`; each end is cut where less than `edge` lies beyond.
[[nodiscard]] Piled binomial(long count, double busy, double edge);

/// a + step b, cut likewise.
[[nodiscard]] Piled convolved(const Piled& a, const Piled& b, long step, double edge);

}  // namespace bw::demand
