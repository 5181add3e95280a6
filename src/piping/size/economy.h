// SPDX-License-Identifier: MIT
#pragma once
// The cheapest sizes of gas and water pipe that pass, read off a plant laid in the handbook's.

#include "piping/size/reaches.h"
#include "piping/size/sizing.h"

namespace bw::piping {

/// The cheapest sizes found.
struct CheapestSizes {
    Sizes sizes;
    int tried = 0;       ///< choices of water headers solved
    bool passes = true;  ///< else the heaters share alike, but no sizes leave pressure enough
};

/// Sizes of one service that lose little enough, cheapest first; `floor` are sizes no group may fall below. nullopt
/// where none pass, or the laid plant cannot be read: the handbook's then stay.
[[nodiscard]] std::optional<CheapestSizes> thrifty_gas(const SizingInputs& brief, const Builder& b,
                                                       const Sizes& handbook, const Sizes* floor);
[[nodiscard]] std::optional<CheapestSizes> thrifty_water(const SizingInputs& brief, const Builder& b,
                                                         const Sizes& handbook, const Sizes* floor);

/// Both services' cheapest sizes put into `sized`, with their records, and what they save.
[[nodiscard]] Economy economize(const SizingInputs& brief, const Builder& b, Sized& sized, const Sizes* floor);

/// The pipe of a service.
[[nodiscard]] Line line_of(const Builder& b, Service service);

}  // namespace bw::piping
