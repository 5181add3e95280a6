// SPDX-License-Identifier: MIT
#pragma once
// Where on a main the tee to another bank might stand, and what no way on from there can cost less than.

#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

inline constexpr double turn_price = 0.6;  ///< metres of pipe one would rather lay than turn once more
inline constexpr double walk_price = 4;    ///< a metre of main where people walk counts as that many

/// Metres of a way with its turns at their price.
[[nodiscard]] double price_of(Vec from, const std::vector<Vec>& way);

/// A stretch of a main: on a leg that begins at `from`, from `low` to `high` along it, metres.
struct TeeStretch {
    std::size_t leg = 0;
    Vec from, along;
    double low = 0, high = 0;
};
struct TeePlace {
    std::size_t leg = 0;
    Vec middle, side;
    double least = 0;  ///< no way on from it is priced lower
};
/// A few places on a stretch: nearest to the other bank's port and in the middle, the outlet to every side. `turn` is
/// what an elbow takes of a leg, metres.
void add_tee_places(std::vector<TeePlace>& places, const TeeStretch& on, const Port& other, const Item& tee,
                    double turn);

}  // namespace bw::piping
