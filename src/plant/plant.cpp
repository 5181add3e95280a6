// SPDX-License-Identifier: MIT
#include "plant/plant.h"

#include <cassert>
#include <cstdlib>
#include <iterator>
#include <utility>

namespace bw::plant {
std::string_view name(JointKind kind) {
    switch (kind) {
        case JointKind::threaded: return "threaded";
        case JointKind::soldered: return "soldered";
        case JointKind::pressed: return "pressed";
        case JointKind::flanged: return "flanged";
        case JointKind::solvent: return "solvent";
        case JointKind::gasketed: return "gasketed";
        case JointKind::slip: return "slip";
        case JointKind::bolted: return "bolted";
        case JointKind::wired: return "wired";
        case JointKind::welded: return "welded";
        case JointKind::flare: return "flare";
    }
    assert(false && "a joint kind without a name");
    std::abort();
}

int Plant::add(Piece piece) {
    const int index = static_cast<int>(pieces.size());
    by_id_.try_emplace(piece.id, index);
    mates_.emplace_back(piece.ports.size());
    pieces.push_back(std::move(piece));
    return index;
}

void Plant::join(PortRef a, PortRef b, JointKind kind) {
    const auto remember = [this](PortRef from, PortRef to) {
        auto& mates = mates_[from.piece];
        // a port may have been added to the piece since
        if (std::ssize(mates) <= from.port) mates.resize(from.port + 1);
        if (mates[from.port].piece < 0) mates[from.port] = to;
    };
    remember(a, b);
    remember(b, a);
    joints.push_back({a, b, kind});
}

int Plant::find(std::string_view id) const {
    const auto it = by_id_.find(std::string(id));
    return it == by_id_.end() ? -1 : it->second;
}

int Plant::port(int piece, std::string_view name) const {
    const auto& ports = pieces[piece].ports;
    for (std::size_t i = 0; i < ports.size(); ++i)
        if (ports[i].name == name) return static_cast<int>(i);
    return -1;
}

PortRef Plant::mate(PortRef port) const {
    if (port.piece < 0 || port.piece >= std::ssize(mates_)) return {};
    const auto& mates = mates_[port.piece];
    return port.port >= 0 && port.port < std::ssize(mates) ? mates[port.port] : PortRef{};
}

}  // namespace bw::plant
