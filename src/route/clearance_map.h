// SPDX-License-Identifier: MIT
#pragma once
// What is taken in the room, and the way through what is left.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "shape/ceiling.h"
#include "shape/polygon.h"
#include "shape/solid.h"
#include "units/constants.h"
#include "units/error.h"

namespace bw::route {

/// Boxes taken in a room, looked up by foot-wide cells.
class ClearanceMap {
public:
    ClearanceMap() = default;
    /// `plan` and `ceiling` bound the room.
    ClearanceMap(const shape::Polygon& plan, const shape::Ceiling& ceiling);

    /// `owner` is a piece's index, or negative for what is no piece: obstacles and spaces kept clear.
    void take(const shape::Box& box, int owner, std::string what = {});
    /// Owner of something that shares more than a touch with the box, other than `but`; nullopt when it is free.
    [[nodiscard]] std::optional<int> taken(const shape::Box& box, int but = no_owner, int also_but = no_owner) const;
    /// Whether a box lies in the room. Where the ceiling slopes, an upright pipe that ends in it is judged by its
    /// middle: it passes through.
    [[nodiscard]] bool in_room(const shape::Box& box) const;
    [[nodiscard]] const std::string& what(int owner) const;  ///< name of a negative owner

    /// People walk on the floor below `height`, metres, but for what lies within `strip` of a wall or in one of
    /// `aside`, seen from above.
    void keep_walkable(double height, double strip, std::vector<shape::Box> aside);
    /// How much of a straight leg lies where people walk, 0 to 1.
    [[nodiscard]] double walked_share(const shape::Vec& from, const shape::Vec& to) const;

    static constexpr int no_owner = INT32_MIN;
    static constexpr int kept_clear = -1;  ///< first free owner for what is no piece; further ones count down

    [[nodiscard]] const shape::Polygon& plan() const { return plan_; }
    [[nodiscard]] const shape::Ceiling& ceiling() const { return ceiling_; }
    /// The ceiling's greatest height, metres.
    [[nodiscard]] double top() const { return hull_.max.z; }
    /// The smallest box around the room.
    [[nodiscard]] const shape::Box& hull() const { return hull_; }
    struct Taken {
        shape::Box box;
        int owner = 0;
    };
    [[nodiscard]] const std::vector<Taken>& boxes() const { return boxes_; }

private:
    [[nodiscard]] bool under_ceiling(const shape::Box& box) const;
    [[nodiscard]] bool walked(const shape::Vec& at) const;
    [[nodiscard]] bool whole(int x, int y) const { return whole_[static_cast<std::size_t>(y * count_[0] + x)]; }
    [[nodiscard]] bool cells(const shape::Box& box, int (&low)[3], int (&high)[3]) const;
    shape::Polygon plan_;
    bool rectangle_ = false;
    shape::Box hull_;
    shape::Ceiling ceiling_;
    int count_[3] = {1, 1, 1};
    struct Link {
        int box, next;
    };
    std::vector<int> cells_;   ///< first link of each cell, or -1
    std::vector<char> whole_;  ///< whether a cell, seen from above, lies all inside the plan
    std::vector<Link> links_;
    std::vector<Taken> boxes_;
    std::vector<std::string> names_;
    double walk_height_ = 0, walk_strip_ = 0;
    std::vector<shape::Box> aside_;
};

/// A box only one route keeps off, and what it is.
struct KeepOff {
    shape::Box box;
    std::string what;
};

/// By which planes a way is sought: the ends, the walls and the levels; besides, what stands aside of the ends;
/// besides, what stands in the room.
enum class Detail { coarse, middle, fine };

/// A route asked for: an orthogonal polyline from an open end to another.
struct RouteRequest {
    shape::Vec from, from_facing;  ///< leaves this way
    shape::Vec to, to_facing;      ///< the far port's own facing: the route arrives against it
    double radius = 0;             ///< of the pipe or its fittings, whichever is greater, metres
    double clearance = 0;          ///< to everything else, metres
    double rises = 0;            ///< kept free above it besides, metres: hung with its fall it stands higher than drawn
    double turn = 0;             ///< take-out of an elbow's leg, metres
    double least = 0;            ///< shortest pipe between fittings, metres
    double first = 0, last = 0;  ///< straight length wanted at each end before the elbow's take-out, metres
    double turn_price = 0.6;     ///< metres of pipe one would rather lay than turn once more
    double walk_price = 1;       ///< a metre where people walk counts as that many
    std::vector<double> levels;  ///< heights this service likes to run at, metres
    std::optional<double> highest;  ///< metres: drains must not climb above where they begin
    std::optional<double> most;     ///< metres, turns at their price: a dearer way is of no use and not sought
    std::optional<Detail> detail;   ///< only at this detail; else coarse first, then finer
    std::vector<KeepOff> keep_off;  ///< besides what is taken in the room
    int from_owner = ClearanceMap::no_owner,
        to_owner = ClearanceMap::no_owner;  ///< pieces it starts and ends at, which it may touch
};

/// Whether a height is above what a way may climb to.
[[nodiscard]] inline bool too_high(const RouteRequest& ask, double height) {
    return ask.highest && height > *ask.highest + units::tolerance;
}

/// The failure of a route that what is named stands in the way of.
[[nodiscard]] tl::unexpected<Error> no_route(const RouteRequest& ask, const std::string& in_the_way);

/// What stands in the straight leg from an end to the middle of its first elbow and the elbow's radius beyond; nullopt
/// where nothing does. `straight` is what is wanted before the elbow, metres.
[[nodiscard]] std::optional<std::string> in_front(const ClearanceMap& space, const RouteRequest& ask,
                                                  const shape::Vec& end, const shape::Vec& facing, double straight);

/// Whether one of the two ends has not even the room for its first turn, which no search needs to find out: then the
/// failure. Ends that look straight at one another need no turn.
[[nodiscard]] std::optional<Error> blocked_at_end(const ClearanceMap& space, const RouteRequest& ask);

/// Corners after `from`, the last being `to`. Fails saying what is in the way. Deterministic.
[[nodiscard]] Result<std::vector<shape::Vec>> find_route(const ClearanceMap& space, const RouteRequest& ask);

/// Metres of a way that lie where people walk.
[[nodiscard]] double walked_length(const ClearanceMap& space, shape::Vec from, const std::vector<shape::Vec>& way);

/// Whether legs of a way that do not meet pass one another nearer than `apart`, axis to axis.
[[nodiscard]] bool nears_itself(const shape::Vec& from, const std::vector<shape::Vec>& way, double apart);

}  // namespace bw::route
