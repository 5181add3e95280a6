// SPDX-License-Identifier: MIT
#pragma once
// What carries the plant: brackets, racks, strut arms, hangers, and the anchors that tie them to the building. It comes
// last and stands where the pipes leave room.

#include <functional>
#include <optional>
#include <vector>

#include "piping/kit/builder.h"

namespace bw::piping {

/// What an anchor holds in.
enum class Into { floor, wall, stud };

/// Laying structure: the builder and the numbers of the building's fixing points so far.
struct Structure {
    Builder& b;
    int floors = 0, walls = 0;  ///< "site.floor-<n>", "site.wall-<n>" (walls and ceilings) given out

    /// The shortest catalogue row of a part that is at least so long; the longest there is when none is.
    [[nodiscard]] const Item* row(Part part, double length) const;
    /// A piece of structure without ports yet. Gives up when the catalogue has no row.
    [[nodiscard]] std::optional<Piece> piece(const Item* row, Part part, const std::string& name, int bank,
                                             int heater = 0);
    /// Bolts two ports that look at one another.
    void bolt(PortRef a, PortRef c) { b.join(a, c, JointKind::bolted); }
    /// An anchor from a port that looks into the building, and the point of the building that holds it.
    void anchor(PortRef from, const std::string& name, int bank, Into into);
};

/// Strut rails across the studs behind a bank that stands off its wall, lag screws where the studs are: every 16 in,
/// found on site.
class StudRails {
public:
    StudRails(Structure& s, const plant::Bank& bank);
    /// From u = `low` to `high` at height w, metres; longer where that would reach fewer than two studs, and in
    /// pieces where a pipe comes out of the wall.
    void add(double low, double high, double w);
    /// A hole in the rail at a place of the bank's back plane; nowhere where none passes.
    PortRef hole(double u, double w, const std::string& name);

private:
    struct Rail {
        double low = 0, high = 0, w = 0;
        int piece = -1;
    };
    [[nodiscard]] bool is_free(double low, double high, double w) const;
    void cut(double low, double high, double w);
    void lay(double low, double high, double w);

    Structure& s_;
    const plant::Bank& bank_;
    std::vector<Rail> rails_;
};

[[nodiscard]] inline Port bolt_hole(std::string name, Vec at, Vec facing) {
    return {std::move(name), at, facing, {}, Service::structure};
}

/// Brackets on a wall, an anchor at either end of each.
void hang_on_wall(Structure& s, const plant::Bank& bank);
/// Feet, posts and rails of a rack, brackets on its rails, anchors at every foot.
void stand_rack(Structure& s, const plant::Bank& bank);

inline constexpr double clamp_height = 0.5 * inch_m;  ///< between an arm and the pipe it holds

/// A level pipe or fitting in a bank that a strut arm can hold from below, bank frame.
struct Held {
    int piece = -1;
    double from = 0, to = 0;  ///< u
    double v = 0, under = 0;  ///< axis, and the lowest w of its body
    bool pipe = false;        ///< bare pipe, where a clamp sits best
};
/// Level pieces that run along a bank below its heaters.
[[nodiscard]] std::vector<Held> level_pieces(const Builder& b, const plant::Bank& bank);
/// What arms hold at a station: one piece at a height, headers before branches, pipe before fittings.
[[nodiscard]] std::vector<Held> held_at(const Builder& b, const std::vector<Held>& all, double u);
/// Whether an arm (a box in the bank frame) and its clamp at a station would touch something else, or grip a fitting.
[[nodiscard]] bool arm_blocked(const Builder& b, const plant::Bank& bank, const Held& held, double u,
                               const shape::Box& arm);
/// Whether it would touch something else.
[[nodiscard]] bool arm_meets(const Builder& b, const plant::Bank& bank, const Held& held, double u,
                             const shape::Box& arm);
/// Stations along a bank, at most `most` apart, from near its low end to near its high end; each is moved by up to 10
/// in to where `blocked` says no, and left where nothing near is free.
[[nodiscard]] std::vector<double> stations_along(double length, double most,
                                                 const std::function<bool(double)>& blocked);
/// A clamp between a level piece and the top of an arm under it.
void clamp(Structure& s, const plant::Bank& bank, const Held& held, double u, int arm);
/// Longest stretch between supports that suits every header of a bank, at most 48 in.
[[nodiscard]] double most_between(const Builder& b, const plant::Bank& bank);

/// Hangers on every level run where what holds it so far is farther apart than its code allows.
void hang_runs(Structure& s);

}  // namespace bw::piping
