// SPDX-License-Identifier: MIT
#pragma once
// Small tools on top of the builder that vents, drains, reliefs and electrics share.

#include "piping/kit/builder.h"

namespace bw::piping {

/// A piece whose outlet looks another way than it is entered: relief valve, trap. `item.run` reaches from the inlet end
/// to the middle, `item.stem` from there to the outlet. The outlet takes the item's branch size and may change service.
PortRef angle(Builder& b, const Line& line, PortRef from, const Item* item, Vec out, Service out_service,
              std::string_view name);

/// A route between ends that stand off the room's grid, as a heater's own ports may: the grid is that of `ask.from`. A
/// simple way is tried before a search.
[[nodiscard]] Result<std::vector<Vec>> find_route_off_grid(const ClearanceMap& space, RouteRequest ask,
                                                           Thoroughness how = Thoroughness::searched);

/// The point of the grid that starts at `from`, nearest to `to`; along `facing` the nearest that is not behind `to`.
[[nodiscard]] Vec on_grid_from(Vec from, Vec to, Vec facing);

/// A piece of the catalogue with a body and without ports, named as its line's pieces are.
[[nodiscard]] Piece bare(Builder& b, const Line& line, const Item& item, std::string_view name);

/// The stand of a heater and the bank it is in.
struct Standing {
    const plant::Bank* bank = nullptr;
    const plant::Stand* stand = nullptr;
};
/// By heater number.
[[nodiscard]] std::vector<Standing> standings(const plant::Layout& layout);

}  // namespace bw::piping
