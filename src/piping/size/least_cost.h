// SPDX-License-Identifier: MIT
#pragma once
// The cheapest sizes of a tree of pipe, and the cheapest of several choices that passes a test: both exact.

#include <functional>
#include <optional>
#include <vector>

namespace bw::piping {

/// What laying a stretch in one size costs, and what is lost along it, in any one unit that adds up.
struct Offer {
    double cost = 0, loss = 0;
};

/// A stretch of a tree that is laid in one of a row of rising sizes.
struct Stretch {
    /// Which sizes it may have behind the stretch before it.
    enum class Behind { any, same, no_larger };

    int before = -1;                           ///< the stretch upstream, which stands earlier in the list; -1: the root
    std::vector<std::optional<Offer>> offers;  ///< by size; none where the size may not be taken
    Behind behind = Behind::no_larger;
};

struct LeastCost {
    std::vector<int> size;  ///< by stretch
    double cost = 0;
    double loss = 0;  ///< on the way that loses most
};

/// What the change of size before a stretch costs where it may be no larger; infinite where it may not be.
using Change = std::function<double(std::size_t stretch, int from, int to)>;

/// Sizes of least cost by which no way from the root loses more than `most`; nullopt where none do. Exact: dynamic
/// programming from the ends to the root, keeping for every size each pair of cost and loss that no other betters in
/// both.
[[nodiscard]] std::optional<LeastCost> least_cost(const std::vector<Stretch>& stretches, double most,
                                                  const Change& change);

struct Cheapest {
    std::optional<std::vector<int>> option;  ///< of each list; none where none passes, or `most` were tried
    double bound = 0;                        ///< nothing that passes costs less
    int tried = 0;
};

/// One option of each list, all together as cheap as can be and passing. `costs` rise along every list. Tries them by
/// rising cost, so the first that passes is the cheapest.
[[nodiscard]] Cheapest cheapest(const std::vector<std::vector<double>>& costs, int most,
                                const std::function<bool(const std::vector<int>&)>& passes);

}  // namespace bw::piping
