// SPDX-License-Identifier: MIT
#pragma once
// A line drawn level, hung with a fall: how much higher or lower each of its ports comes.

#include <functional>
#include <optional>
#include <vector>

#include "plant/plant.h"

namespace bw::network {

/// A vertical pipe that is cut longer or shorter so that the line above or below it may fall.
struct TakeUp {
    int piece = -1;
    double change = 0;  ///< metres
};

/// Pieces that flow into one low point.
struct Falling {
    struct Link {
        int piece = -1, in = -1;  ///< entered by this port, coming from the low point; -1 at the low point itself
        int before = -1;          ///< index of the link nearer to the low point
        double along = 0;         ///< level metres of the way from the low point to `in`
        bool fixed = false;       ///< ends here at something that does not move: a heater, a vent
    };
    text::Service service{};
    std::vector<Link> links;    ///< nearest to the low point first
    std::vector<int> first;     ///< of each link's ports in `reach`, and one past the last
    std::vector<double> reach;  ///< level metres of the way from the low point to every port
    std::vector<int> fed_by;    ///< how many links flow into each
    [[nodiscard]] std::size_t at(std::size_t link, std::size_t port) const {
        return static_cast<std::size_t>(first[link]) + port;
    }
};

/// Everything of a service reached from a piece, away from it, of a condensate pump what flows into it. Pieces of
/// other services and pumps it meets end it, fixed.
[[nodiscard]] Falling falling(const plant::Plant& plant, text::Service service, int low_point);

/// Shift of every port of the line, metres, up positive, and what takes it up.
struct Hung {
    std::vector<double> shift;  ///< of port p of link i: shift[line.at(i, p)]
    std::vector<TakeUp> take_ups;
    std::vector<int> stuck;  ///< fixed ends without a vertical pipe to take the shift up
    double most = 0;         ///< greatest shift
    double level = 0;        ///< metres: longest level way to the low point
};

/// With the low point `drop` metres below where it is drawn and the line rising `slope` metres a metre away from it.
/// Between a fixed end and the first fork the longest vertical pipe takes up the difference; what is beyond it falls
/// away from the fixed end, which stands where it is drawn or, where `held_at` (by piece) is given, so much higher. A
/// low point that is the building's or a heater's stays: the longest vertical pipe before the first fork takes the
/// drop. Each vertical pipe that a shared line falls through is cut shorter by `settled` of what that line would else
/// rise above where it is drawn: 0 leaves it, 1 brings its high end there, as far as the pipe's length allows.
[[nodiscard]] Hung hung(const plant::Plant& plant, const Falling& line, double slope, double drop,
                        const std::vector<double>& held_at = {}, double settled = 0);

/// A vertical pipe left too short where the fall is taken up; nullopt where none is.
[[nodiscard]] std::optional<TakeUp> too_short(const plant::Plant& plant, const Hung& hung);
/// Length a vertical pipe has once it has taken up the fall, metres.
[[nodiscard]] double length_after(const plant::Plant& plant, const TakeUp& take);

inline constexpr double usual_fall = 0.25 / 12, least_fall = 0.125 / 12;  ///< a quarter, an eighth of an inch in a foot
inline constexpr double shortest_take_up = 2 * 0.0254;                    ///< of vertical pipe, metres

/// How a line is hung.
struct Hanging {
    Hung hung;
    double slope = 0, drop = 0;
};
/// The steepest of the slopes at which it may be hung, as near to where it is drawn as it can be; nullopt where none
/// is. Of drains, shared lines come down where they must by the vertical pipes they fall through.
[[nodiscard]] std::optional<Hanging> hang(const plant::Plant& plant, const Falling& line,
                                          const std::vector<double>& slopes, const std::vector<double>& held_at,
                                          const std::function<bool(const Hung&)>& may_be);

}  // namespace bw::network
