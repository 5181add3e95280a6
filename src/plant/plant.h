// SPDX-License-Identifier: MIT
#pragma once
// The central nouns: a plant is pieces whose ports are joined. Everything the user reads is computed from them.

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "shape/solid.h"
#include "text/vocabulary.h"
#include "units/error.h"
#include "units/nominal.h"

namespace bw::plant {

using text::Part;
using text::Service;
using units::Nominal;

enum class JointKind { threaded, soldered, pressed, flanged, solvent, gasketed, slip, bolted, wired, welded, flare };
[[nodiscard]] std::string_view name(JointKind kind);

struct Port {
    std::string name;    ///< "a", "b", "branch", or a heater's port name
    shape::Vec at;       ///< metres
    shape::Vec facing;   ///< unit vector out of the piece
    Nominal size;        ///< zero where size has no meaning
    Service service{};
};

struct Piece {
    std::string id;      ///< "heater-3", "bank-1.cold.header.pipe-2", "main.gas.elbow-1": stable while the thing stays
    Part part{};
    Service service{};
    std::string item;    ///< catalogue key; empty only for Part::connection
    Nominal size;
    std::vector<Port> ports;
    std::vector<shape::Solid> solids;
    double cut = 0;            ///< metres: cut length of pipe, vent pipe, strut, rail or cable; 0 for bought-by-the-piece
    double bore = 0;           ///< metres, inside diameter of the run; 0 where nothing flows
    double mass_dry = 0;       ///< kg
    double water = 0;          ///< m3 held when full
    double loss_run = 0, loss_stem = 0;  ///< K, velocity heads, from the catalogue
    int heater = 0;            ///< 1-based number of the heater it serves; 0 when shared
    int bank = 0;              ///< 1-based; 0 when shared
};

struct PortRef {
    int piece = -1, port = -1;
    bool operator==(const PortRef&) const = default;
};
struct Joint {
    PortRef a, b;
    JointKind kind{};
};

class Plant {
public:
    std::vector<Piece> pieces;
    std::vector<Joint> joints;

    /// Adds a piece and gives its index; ids must be unique.
    int add(Piece piece);
    void join(PortRef a, PortRef b, JointKind kind);
    /// Index of a piece by id, or -1.
    [[nodiscard]] int find(std::string_view id) const;
    /// Index of a port by name, or -1.
    [[nodiscard]] int port(int piece, std::string_view name) const;
    /// What a port is joined to, or {-1,-1}. Built by add/join, O(1).
    [[nodiscard]] PortRef mate(PortRef port) const;
    [[nodiscard]] const Port& at(PortRef r) const { return pieces[static_cast<std::size_t>(r.piece)].ports[static_cast<std::size_t>(r.port)]; }

private:
    std::unordered_map<std::string, int> by_id_;
    std::vector<std::vector<PortRef>> mates_;
};

/// The laws every plant keeps: unique ids, every port joined exactly once, joined ports at the same place within
/// 1/64 in, facing one another, of the same size and service, every piece reachable, cut lengths not negative and
/// multiples of 1/16 in for rigid pipe. Returns all violations, one sentence each with the piece's id; empty when lawful.
[[nodiscard]] std::vector<std::string> unlawful(const Plant& plant);

}  // namespace bw::plant
