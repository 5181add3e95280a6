// SPDX-License-Identifier: MIT
#include "proof/checks.h"

namespace bw::proof {

void check_lawful(const View& view, Checks& checks) {
    auto check = new_check("plant.lawful", {by_pieces()});
    const auto broken = plant::unlawful(view.plant);
    constexpr std::size_t shown = 20;
    for (std::size_t i = 0; i < std::min(broken.size(), shown); ++i) step(check, broken[i]);
    check.value = units::count(static_cast<double>(broken.size()));
    check.limit = units::count(0);
    check.sense = Sense::at_most;
    check.status = broken.empty() ? Status::pass : Status::fail;
    check.says = broken.empty() ? "Ids are unique, every port is joined once to one of its size and service at its "
                                  "place, every piece is reached, every cut is on the sixteenth."
                                : fmt::format("{} faults, the first: {}", broken.size(), broken.front());
    checks.push_back(std::move(check));
}

}  // namespace bw::proof
