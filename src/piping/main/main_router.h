// SPDX-License-Identifier: MIT
#pragma once
// Seeks the way of one main between two ports: asks for it, finds it, and judges whether what is set into the main
// finds straight legs on it.

#include <vector>

#include "piping/main/inline_items.h"
#include "piping/main/main_way.h"

namespace bw::piping {

enum class Wanted { all, sizes };  ///< what is set into a main, or only its changes of size

class MainRouter {
public:
    /// Of `line` only the service and the material count; sizes are given with each way.
    MainRouter(const Builder& b, const Line& line, Thoroughness how);

    [[nodiscard]] Thoroughness thoroughness() const { return how_; }
    [[nodiscard]] double walk_price() const { return walk_price_; }

    /// A way between two ports for pipe of a size.
    [[nodiscard]] RouteRequest request(const Port& from, const Port& to, Nominal size) const;

    [[nodiscard]] Result<std::vector<Vec>> find(PortRef from, PortRef to, Nominal size, const WayEnds& ends) const;
    /// A way that turns soon and then has a straight leg so long, metres.
    [[nodiscard]] Result<std::vector<Vec>> find_aside(PortRef from, PortRef to, Nominal size, double straight,
                                                      const WayEnds& ends) const;
    /// The way found first, unless another leaves room for more of the things: with all of them on its first leg, or
    /// on its last. `size` is the largest of the main's.
    [[nodiscard]] Result<std::vector<Vec>> find_roomy(const Line& line, PortRef from, PortRef to, Nominal size,
                                                      const std::vector<InlineItem>& things, const WayEnds& ends) const;

    /// Whether every thing wanted finds a leg with room for it on the way from a point through `path`.
    [[nodiscard]] bool fit(Line line, Vec from, const std::vector<Vec>& path, std::vector<InlineItem> things,
                           Wanted wanted = Wanted::all) const;

    /// What an elbow of a size takes of a leg, metres; 0 where the catalogue has none.
    [[nodiscard]] double turn(Nominal size) const;
    /// Straight length before a bank that leaves the mains of the other services room to rise before this one, metres:
    /// hot rises first, cold past it, gas outermost.
    [[nodiscard]] double stagger() const;

private:
    [[nodiscard]] RouteRequest request(PortRef from, PortRef to, Nominal size) const;
    [[nodiscard]] double stub_turn(PortRef from) const;

    const Builder& b_;
    Line line_;
    Thoroughness how_;
    double walk_price_;
    std::vector<KeepOff> keep_off_;
};

}  // namespace bw::piping
