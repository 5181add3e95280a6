// SPDX-License-Identifier: MIT
#pragma once
// What stands in each main between the point of connection and the banks, and what hangs on its outlets.

#include <vector>

#include "piping/main/inline_items.h"

namespace bw::piping {

struct MainParts {
    std::vector<InlineItem> things;  ///< from the connection on
    Nominal size_first;              ///< of the main after the building's pipe
    Nominal size_last;               ///< of the main where the banks begin
};

[[nodiscard]] const survey::Connection& connection_of(const Builder& b, Service service);
[[nodiscard]] Nominal bank_size(const Builder& b, Service service, int bank);
/// The open port of a bank that a service's main is brought to, or `nowhere`.
[[nodiscard]] PortRef bank_feed(const Builder& b, Service service, int bank);
/// The greatest size on the way of a main that begins with `line` and leads to a bank.
[[nodiscard]] Nominal largest_size(const Builder& b, const Line& line, const MainParts& parts, int bank);

/// Shut-offs, gauges, regulators and the like of a service's main, sized.
[[nodiscard]] MainParts main_parts(Builder& b, const Line& line);
/// What stands between the main and one bank's header: a valve of its own where there is more than one bank, its
/// regulator where each has one, and the change to the header's size.
[[nodiscard]] std::vector<InlineItem> bank_things(Builder& b, const Line& line, Nominal from, int bank);
/// Lays what hangs on the outlets the mains left: expansion vessel, recirculation return.
void finish_outlets(Builder& b, const std::vector<Outlet>& outlets);

}  // namespace bw::piping
