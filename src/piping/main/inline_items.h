// SPDX-License-Identifier: MIT
#pragma once
// Valves, gauges and changes of size set into the legs of a routed main.

#include <string>
#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

/// One thing to set into a main, in order from its open end. Exactly one of `item`, `to`, `outlet` says what it is.
struct InlineItem {
    const Item* item = nullptr;  ///< set in line
    Nominal to;                  ///< reducers to this size
    Nominal outlet;              ///< a tee with an outlet of this size, left open
    std::string name;
    double reach = 0, girth = 0;  ///< what will hang on the outlet: how far out and how thick, metres
    Service outlet_service{};     ///< what the outlet carries on, where `outlet` is set

    [[nodiscard]] bool changes_size() const { return to.eighths > 0; }
};

struct Outlet {
    std::string name;
    PortRef port;
};

struct Dressed {
    PortRef end = nowhere;  ///< open pipe end at the last corner, or `nowhere` once joined to `to`
    std::vector<Outlet> outlets;
    std::vector<std::string> left_out;  ///< names of what found no leg long enough
    Nominal size;                       ///< at the end
};

/// Straight length a list of things takes, nipples included, from the line's size on, metres.
[[nodiscard]] double length_of(const Builder& b, const Line& line, const std::vector<InlineItem>& things);

/// How many things from `next` on fit a straight length in one go; `line.size` becomes the size after them.
[[nodiscard]] std::size_t things_that_fit(const Builder& b, Line& line, const std::vector<InlineItem>& things,
                                          std::size_t next, double room);

/// A straight leg: from where on, which way, how long to its corner, and whether it turns there.
struct Leg {
    Vec from, along;
    double length = 0;
    bool turns = false;
};
/// How many things stand on a leg, how far they are moved on along it so that no body stands in something else, and
/// what straight length is left then, metres.
struct OnLeg {
    std::size_t count = 0;
    double moved = 0, spare = 0;
};
[[nodiscard]] OnLeg things_on_leg(const Builder& b, const Line& line, const std::vector<InlineItem>& things,
                                  std::size_t next, const Leg& leg);

/// Lays pipe from an open port along `corners`, setting each thing into the first leg that has room for it. Where the
/// last leg has no room for all that is left, the changes of size come before other things. Ends at the last corner, or
/// joined to `to` when given.
[[nodiscard]] Dressed lay_dressed(Builder& b, Line line, PortRef from, const std::vector<Vec>& corners,
                                  std::vector<InlineItem> things, PortRef to = nowhere);

}  // namespace bw::piping
