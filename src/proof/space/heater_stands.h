// SPDX-License-Identifier: MIT
#pragma once
// The heaters where they stand.

#include <vector>

#include "proof/view.h"

namespace bw::proof {

struct HeaterStand {
    int number = 0;  ///< 1-based
    int piece = -1;
    shape::Box box;    ///< its body
    shape::Vec front;  ///< the way it looks
    int wall = -1;     ///< it hangs on, or -1
};
/// Every heater that has a body, bank by bank.
[[nodiscard]] std::vector<HeaterStand> heater_stands(const View& view);

}  // namespace bw::proof
