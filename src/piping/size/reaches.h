// SPDX-License-Identifier: MIT
#pragma once
// A laid service cut into reaches: pieces in a row that carry one flow and are laid in one size.

#include <map>
#include <vector>

#include "network/service_tree.h"
#include "piping/kit/builder.h"

namespace bw::piping {

/// What is laid in one size: the pipe before a regulator, a main, one length of a header with what feeds it alone, or
/// the branches of all heaters.
struct Group {
    enum class Role { service, main, header, branch };
    Role role = Role::main;
    int bank = 0;            ///< of a header
    std::size_t length = 0;  ///< of a header, from the feed end
    auto operator<=>(const Group&) const = default;
};

struct Reach {
    Group group;
    int before = -1;
    int heaters = 0;  ///< whose flow it carries; 0 at a dead end
    int heater = 0;   ///< of a branch
    std::vector<network::Traversal> traversals;
};

/// Each reach stands after the one before it.
[[nodiscard]] std::vector<Reach> reaches_of(const Builder& b, const network::Tree& tree);
/// Every piece once, by the group it is laid with.
[[nodiscard]] std::map<Group, std::vector<int>> pieces_by_group(const std::vector<Reach>& reaches);

/// Every group of a service that sizes hold.
[[nodiscard]] std::vector<Group> groups_of(const Sizes& sizes, Service service);
/// The size a group has; only gas has one before a regulator.
[[nodiscard]] Nominal size_of(const Sizes& sizes, Service service, const Group& group);
void set_size(Sizes& sizes, Service service, const Group& group, Nominal size);

}  // namespace bw::piping
