// SPDX-License-Identifier: MIT
#pragma once
// Where on a trunk the tee to another bank stands: the place from which the way on is the cheapest.

#include <optional>
#include <vector>

#include "piping/main/main_router.h"

namespace bw::piping {

/// A main up to where it parts: its open end, and what is to be set into it.
struct Trunk {
    Line line;  ///< of the open end's size
    PortRef from;
    std::vector<InlineItem> things;
};

/// The tee wanted: in a run of a size, with an outlet of another or the next larger there is.
struct TeeWanted {
    Nominal run, outlet;
    double after = 0;  ///< straight pipe it leaves on the trunk's last leg, metres
};

struct TeeChoice {
    const Item* tee = nullptr;
    std::size_t leg = 0;  ///< of the trunk's path
    Vec middle, side;
    std::vector<Vec> path;  ///< from the tee's outlet to the other bank
    double price = 0;       ///< of that path, metres

    [[nodiscard]] Vec outlet() const { return middle + tee->stem.value() * side; }
};

/// The choice on a trunk's path that leaves the trunk's things their room before the tee; nullopt where none leads to
/// the other bank's port.
[[nodiscard]] std::optional<TeeChoice> choose_tee(const Builder& b, const MainRouter& router, const Trunk& trunk,
                                                  const std::vector<Vec>& path, const Port& other,
                                                  const TeeWanted& wanted);

}  // namespace bw::piping
