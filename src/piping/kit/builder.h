// SPDX-License-Identifier: MIT
#pragma once
// The tool every file of this room lays pipe with: it takes rows of the catalogue and turns them into joined pieces
// with ports, solids, masses and losses filled in. It keeps the first failure and does nothing after it, so that laying
// code reads straight on and `build` looks once at the end of each stage.
//
// clang-format off
//     Line line{.service = Service::cold, .material = Material::copper_l, .size = {16}, .name = "main.cold"};
//     // The building's pipe, looking into the room.
//     PortRef open = b.site("site.cold", Service::cold, at, facing, {16});
//     // Pipes and elbows; an open pipe end at `end`.
//     open = b.run(line, open, {corner, other_corner, end});
//     open = b.attach(line, open, b.item(Part::ball_valve, line), "isolation");  // "main.cold.isolation"
//     // A tee with a 3/4 in outlet looking up.
//     auto [on, branch] = b.tee(line, b.nipple(line, open), up, {6});
//     b.cap(line, b.pipe(line, on, 6 * 0.0254));
//     b.flexible(line, Part::flexible_water, branch, b.port("heater-3", "cold"));
// clang-format on
//
// Ports that one file leaves open for another are found by piece and port name: port("heater-3.hot.valve", "relief").
// Lengths are metres; everything rigid stands on the 1/16 in grid.

#include <initializer_list>
#include <map>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <unordered_map>
#include <vector>

#include "piping/kit/laying_inputs.h"
#include "piping/kit/sizes.h"
#include "piping/kit/vessel.h"
#include "piping/piping.h"
#include "route/clearance_map.h"
#include "shape/grid.h"
#include "units/constants.h"

namespace bw::piping {

using catalogue::Item;
using plant::JointKind;
using plant::Piece;
using plant::Port;
using plant::PortRef;
using route::ClearanceMap;
using route::Detail;
using route::KeepOff;
using route::RouteRequest;
using shape::snap;
using shape::snap_down;
using shape::snap_up;
using shape::Vec;
using text::Material;
using text::Part;
using text::Service;
using units::Nominal;

inline constexpr double inch_m = 0.0254;  ///< metres in an inch
using units::grid;
inline constexpr PortRef nowhere{-1, -1};

/// A line of pipe: what its pieces carry, are made of, are named after and serve.
struct Line {
    Service service{};
    Material material{};
    Nominal size;
    std::string name;  ///< "bank-1.cold.header": pieces become "bank-1.cold.header.pipe-2"
    int heater = 0;    ///< 1-based, 0 when shared
    int bank = 0;      ///< 1-based, 0 when shared
};

struct Fork {
    PortRef on;      ///< straight on; of a tee entered by its branch, the end `along` points to
    PortRef branch;  ///< the side outlet; of a tee entered by its branch, the other end of the run
};

/// How pipe of a material is joined at a size.
[[nodiscard]] JointKind joint_of(Material material, Nominal size);
/// Shortest piece of pipe that can be made up between two fittings, on the grid: the close nipple of threaded pipe
/// (ASME B1.20.1 lengths of the trade, from memory), twice the socket depth and 1/8 in for tube (ASME B16.22 depths,
/// from memory).
[[nodiscard]] double shortest(Material material, Nominal size);

class Builder {
public:
    /// Without `swell` no expansion vessel is found.
    explicit Builder(std::shared_ptr<const LayingInputs> on, std::optional<WaterDensities> swell = std::nullopt);

private:
    std::shared_ptr<const LayingInputs> ground_;

public:
    const LayingInputs& ground;
    const catalogue::Catalogue& catalogue;
    const catalogue::Heater& heater;
    const plant::Layout& layout;
    std::optional<WaterDensities> swell;
    Built built;
    std::optional<Vessel> vessel;  ///< the one hung
    bool no_vessel_suits = false;  ///< of the catalogue, wherever it hung
    Sizes sizes;                   ///< decided before anything is laid
    /// Open ports at the banks' feed ends, by bank number: what the mains are brought to.
    std::map<std::pair<int, Service>, PortRef> feeds;
    /// Room that outlets left open will want; routes keep off it until it is used.
    std::vector<KeepOff> reserved;
    ClearanceMap space;  ///< what is taken in the room; every piece added takes its place here

    [[nodiscard]] bool ok() const { return !error_; }
    [[nodiscard]] const std::optional<Error>& error() const { return error_; }
    /// Keeps the first failure; later calls on the builder do nothing and return `nowhere`.
    void give_up(std::string what, std::string expected);
    /// All that a copy of this builder laid since, where several ways are tried.
    void take_over(Builder&& tried);
    /// Something that could not be built as asked, but does not stop the rest.
    void finding(reason::Check check) { built.findings.push_back(std::move(check)); }

    /// The catalogue's row for a part of a line: the material's own, else one that goes with any material, allowed for
    /// the service. nullptr when there is none; `item` also gives up, naming what is missing.
    [[nodiscard]] const Item* seek(Part part, const Line& line, std::optional<Nominal> branch = {}) const;
    [[nodiscard]] const Item* item(Part part, const Line& line, std::optional<Nominal> branch = {});
    /// The tee in a line's run with the outlet wanted, else the one with the next larger; nullptr when there is none.
    [[nodiscard]] const Item* seek_tee(const Line& line, Nominal outlet) const;

    /// A port by names, or `nowhere`.
    [[nodiscard]] PortRef port(std::string_view piece, std::string_view port) const;
    [[nodiscard]] const Port& at(PortRef port) const { return built.plant.at(port); }
    [[nodiscard]] bool open(PortRef port) const { return built.plant.mate(port) == nowhere; }

    /// Adds a piece as it is and takes its place in the room. For what the functions below do not make.
    int add(Piece piece);
    void join(PortRef a, PortRef b, JointKind kind);
    /// "<line.name>.<name>" when a name is given, else "<line.name>.<part>-<next number>".
    [[nodiscard]] std::string id(const Line& line, Part part, std::string_view name = {});

    /// A point where the plant meets the building: one port "a" looking along `facing`.
    PortRef site(std::string id, Service service, Vec at, Vec facing, Nominal size);

    /// Gives a piece one more port, as a clamp, a hanger or a tapped hole needs, and returns it.
    PortRef tap(int piece, Port port);

    /// Joins an item's port "a" to an open port and returns its far port "b". Straight on, or with `side` given, the
    /// side outlet (`item.stem` above zero: "branch", named "relief" on a hot service valve) looks that way. Sizes: "a"
    /// takes the open port's size, "b" the item's branch size for reducers and adapters; the outlet of stemmed items
    /// the branch size.
    PortRef attach(const Line& line, PortRef from, const Item* item, std::string_view name = {}, Vec side = {});
    /// As `attach`, with what it takes to join it to the line's pipe: a shortest nipple where the open port is a
    /// fitting's, and where the item is threaded and the pipe is not, the material's adapter at either end. `last`
    /// leaves the far end bare, for a flexible connector or a union end.
    PortRef fit(const Line& line, PortRef from, const Item* item, std::string_view name = {}, Vec side = {},
                bool last = false);
    /// The adapter `fit` would set at either end of an item, or nullptr.
    [[nodiscard]] const Item* adapter_for(const Line& line, const Item* item) const;
    /// A piece with one port, "a", that ends a line: gauge, test port, vessel, cap. Its body stands `item.run` twice
    /// long.
    int end(const Line& line, PortRef from, const Item* item, std::string_view name = {});
    /// Pipe straight on; an open pipe end is made longer. Cut in lengths of stock with couplings between where it must
    /// be.
    PortRef pipe(const Line& line, PortRef from, double length, std::string_view name = {});
    PortRef nipple(const Line& line, PortRef from) { return pipe(line, from, shortest(line.material, line.size)); }
    PortRef elbow(const Line& line, PortRef from, Vec toward, std::string_view name = {});
    /// A tee in the run. The branch may be smaller; where the catalogue has no such reducing tee, the next larger
    /// outlet with a nipple and reducers.
    Fork tee(const Line& line, PortRef from, Vec branch_facing, std::optional<Nominal> branch = {},
             std::string_view name = {});
    /// A tee entered by its branch, as sediment traps are.
    Fork tee_by_branch(const Line& line, PortRef from, Vec along, std::string_view name = {});
    void cap(const Line& line, PortRef from, std::string_view name = {});
    /// Nipples and reducers until the line has the size wanted (larger or smaller); `from` when it has it already.
    PortRef reduce(const Line& line, PortRef from, Nominal to);
    /// The reducer that goes as far as one does towards a size, from the line's own; nullptr when there is none.
    [[nodiscard]] const Item* reducer_towards(const Line& line, Nominal to) const;
    /// Straight length `reduce` takes from a fitting's port of the line's size, and the shortest pipe beyond, metres.
    [[nodiscard]] double reducing(const Line& line, Nominal to) const;
    /// Pipes and elbows along an orthogonal polyline that begins at the open port and goes on to `corners`; ends as an
    /// open pipe end at the last corner. Take-outs are subtracted. Gives up where a leg is too short for its fittings.
    PortRef run(const Line& line, PortRef from, std::span<const Vec> corners);
    PortRef run(const Line& line, PortRef from, std::initializer_list<Vec> corners) {
        return run(line, from, std::span<const Vec>(corners.begin(), corners.size()));
    }
    /// As `run`, the last leg ending at a port that looks back along it, joined.
    void run_to(const Line& line, PortRef from, std::span<const Vec> corners, PortRef to);
    /// One straight pipe between two open ports that look at one another.
    void close(const Line& line, PortRef from, PortRef to);
    /// A flexible connector between two open ports that look at one another with an offset: the shortest in the
    /// catalogue that spans it. Where none does, the longest is drawn and a failing finding says by how much it is out.
    void flexible(const Line& line, Part part, PortRef from, PortRef to, std::string_view name = {});

    /// Straight length `fit` takes: nipple, adapters and the item.
    [[nodiscard]] double taken(const Line& line, const Item* item, bool last = false) const;
    /// A first piece with all its ports open: a tee whose run goes `along`, centred at a point, looking back with port
    /// "a".
    struct Free {
        PortRef back, on, branch;
    };
    Free free_tee(const Line& line, Vec middle, Vec along, Vec branch_facing, Nominal branch,
                  std::string_view name = {});
    /// Inside diameter of the line's pipe, or the nominal size where the catalogue has no such pipe, metres.
    [[nodiscard]] double bore(const Line& line) const;
    [[nodiscard]] bool on_pipe(PortRef from) const;  ///< whether the port is a pipe's end
    /// Whether a fitting is made up on the port without a nipple: a pipe's end, or the stub of the building's pipe.
    [[nodiscard]] bool takes_fitting(PortRef from) const;

private:
    Piece blank(const Line& line, Part part, const Item* item, std::string_view name);
    [[nodiscard]] Part pipe_part(const Line& line) const;
    PortRef lay(const Line& line, PortRef from, double length, std::string_view name);
    PortRef lengthen(const Line& line, PortRef from, double by);
    std::optional<Error> error_;
    std::unordered_map<std::string, int> counters_;
    mutable std::map<Part, std::vector<const Item*>> of_part_;
    mutable std::unordered_map<std::uint64_t, const Item*> sought_;
};

/// Distance and sideways offset between two ports that look at one another, metres.
struct Span {
    double ahead = 0, aside = 0;
};
[[nodiscard]] Span span_between(const Port& from, const Port& to);
/// Whether a flexible connector of a length spans it: neither stretched nor bowed (common practice, no source).
[[nodiscard]] bool spans(const Item& flexible, Span span);

/// Heater ports stand in the room by the layout: bank frame, turned half a turn on side 1.
[[nodiscard]] Vec heater_point(const plant::Bank& bank, const plant::Stand& stand, const catalogue::Heater& heater,
                               Vec at);
[[nodiscard]] Vec heater_direction(const plant::Bank& bank, const plant::Stand& stand, Vec facing);

/// Whether only what is quickly found is tried, or the room is searched after it.
enum class Thoroughness { simple, searched };

/// The room before any pipe: obstacles, the working space in front of heaters and panel.
[[nodiscard]] ClearanceMap space_of(const survey::Room& room, const plant::Layout& layout);

// The stages of `build`, in order. Each lays its service on what stands already.
void add_heaters(Builder& b);  ///< pieces "heater-<n>" with all ports open
void add_banks(Builder& b);    ///< headers and branches of gas, cold and hot
/// To the points of connection, in the order given; gives the service that found no way, if one did. Thoroughness says
/// whether the room is searched at fine detail.
std::optional<Service> add_mains(Builder& b, std::span<const Service> order, Thoroughness how);
void add_vents(Builder& b);
void add_drains(Builder& b);
void add_reliefs(Builder& b);
void add_electrics(Builder& b);
void add_structure(Builder& b);

}  // namespace bw::piping
