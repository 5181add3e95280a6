// SPDX-License-Identifier: MIT
#pragma once
// How exhaust leaves and air comes in: single pipes or common ones, how many, by which hole in the wall, of which size.
// Everything is planned before anything is laid, so that a plan that does not work out leaves no pieces behind.

#include <optional>
#include <string>
#include <vector>

#include "piping/kit/builder_extra.h"

namespace bw::piping {

enum class VentStyle { single, common };

struct VentChoice {
    VentStyle style{};
    bool room_air = false;  ///< burns the room's air through a screened cap; else outdoor air is piped in
    std::string says;       ///< why
};
/// By the survey's preference, the heater's listing and the count. Adds a finding where the preference cannot be met.
[[nodiscard]] VentChoice choose_vents(Builder& b);

/// One passage between heaters and outdoors.
struct Flue {
    Service service{};  ///< exhaust or intake
    std::string name;   ///< "vent-2", "intake-1"
    const plant::Bank* bank = nullptr;
    std::vector<int> heaters;  ///< by rising u
    bool shared = false;       ///< a common pipe, even where it serves one heater
};
/// Single: one a heater. Common: each row of a bank (a side of a two-sided rack) parted evenly, as few to a part as the
/// largest listed common size asks. Material decides which sizes can be bought.
[[nodiscard]] std::vector<Flue> flues(const Builder& b, Service service, VentStyle style, Material material);

/// `count` parts of `total` that differ by one at most.
[[nodiscard]] std::vector<int> parted(int total, int count);

/// Centre lines of `count` holes beside each other, `spacing` apart, about the point of connection; moved along the
/// wall where a corner is nearer than `margin`. Through a ceiling they stand along x. Fails where the wall is too
/// short.
[[nodiscard]] Result<std::vector<Vec>> terminal_row(const survey::Room& room, const survey::Connection& outlet,
                                                    int count, double spacing, double margin);
/// The same in rows above one another, the first at the point's height, a row's `spacing` between them: of each column
/// the upper first.
[[nodiscard]] Result<std::vector<Vec>> terminal_rows(const survey::Room& room, const survey::Connection& outlet,
                                                     int count, double spacing, double margin, int rows);
/// The point of connection, then others beside it along its wall, up to 4 ft away: holes are made for the plant, and
/// what stands before the surveyed place (a panel's own space) may leave the next one free.
[[nodiscard]] std::vector<survey::Connection> places_along(const survey::Room& room, const survey::Connection& outlet);
/// Index of the room's wall a point of connection is in; none for ceiling and floor.
[[nodiscard]] std::optional<std::size_t> wall_of(const survey::Room& room, const survey::Connection& outlet);

/// A polyline from an open end: what a listing counts.
struct Course {
    Vec from, facing;
    std::vector<Vec> corners;
    [[nodiscard]] double length() const;
    [[nodiscard]] int turns() const;
};

/// Where a common pipe runs above its heaters.
struct VentHeader {
    Vec along;                 ///< towards the way out; falls the other way
    Vec aside;                 ///< from the heaters' ports to the pipe; zero where it runs straight above them
    std::vector<Vec> middle;   ///< of each heater's collar, farthest from the way out first
    std::vector<int> heaters;  ///< in the same order
    Vec low_end;               ///< where the end cap meets the pipe
    double height = 0;         ///< of the centre line
};

/// A flue that has found its way.
struct FluePlan {
    Flue flue;
    Nominal size;
    Course course;      ///< from the heater's port, or from the header's last collar, to the wall's face
    VentHeader header;  ///< of common ones
    Vec outlet_facing;  ///< into the room
    std::vector<shape::Box> bodies = {};  ///< of a common one's tees and risers
    double developed = 0;                 ///< metres, as the listing counts it
    double limit = 0;                     ///< metres, by the listing
    reason::Derivation derivation;
};

/// Metres of a common pipe before its course: from its low end.
[[nodiscard]] inline double behind(const FluePlan& plan) {
    return plan.flue.shared ? shape::distance(plan.header.low_end, plan.course.from) : 0;
}

/// Plans for all flues of a service, sizes raised until every one is within the heater's own limits. Fails, naming the
/// service and what is short.
[[nodiscard]] Result<std::vector<FluePlan>> plan_single(const Builder& b, const std::vector<Flue>& all,
                                                        const survey::Connection& outlet, Material material);
[[nodiscard]] Result<std::vector<FluePlan>> plan_common(const Builder& b, const std::vector<Flue>& all,
                                                        const survey::Connection& outlet, Material material);

void lay_single(Builder& b, const FluePlan& plan, Material material, int outlet_number);
void lay_common(Builder& b, const FluePlan& plan, Material material, int outlet_number);

// Shared by the planners and the layers.

/// Drain tapping of a common vent's end cap.
inline constexpr Nominal vent_drain{4};
/// Length of pipe drawn from the wall's face outwards, cut to suit the wall's thickness on site.
inline constexpr double through_wall = 12 * inch_m;
/// Least distance between the middles of two terminals of one kind (common practice, no source), unless a row says
/// more.
inline constexpr double terminal_spacing = 12 * inch_m;

/// Distance of terminals from one another by the catalogue's terminal row (`spacing`), else common practice; never less
/// than lets the fittings pass.
[[nodiscard]] double spacing_of(const Builder& b, const Line& line);
/// The line's fattest body, metres of radius.
[[nodiscard]] double radius_of(const Builder& b, const Line& line);
/// The question a flue's route asks of the room; `behind` metres of it lie before `from`.
[[nodiscard]] RouteRequest ask_for(const Builder& b, const Line& line, Vec from, Vec facing, Vec to,
                                   const survey::Connection& outlet, double behind = 0);
/// The failure of a way that passes too near itself.
[[nodiscard]] inline tl::unexpected<Error> crosses_itself() {
    return fail("the only way found passes too near itself", "another outlet");
}
/// Half the width of a flue's terminal, metres.
[[nodiscard]] double mouth_of(const Builder& b, const Line& line);
/// Half widths of a flue: of its pipe, and of its terminal at the end.
struct Girth {
    double radius = 0, mouth = 0;
};
/// Takes the legs' boxes in a space used for planning, those of an exhaust with the room they rise into when it is hung
/// with its fall, `behind` metres of which lie before the course.
void take(ClearanceMap& space, const Course& course, Girth girth, int owner, Service service, double behind = 0);
/// Takes where each heater's own pipe of a service begins, for all but that heater's.
void take_starts(ClearanceMap& space, const Builder& b, Service service, Material material);
/// The places beside a point of connection, each first as much lower as an exhaust's fall from the heaters needs under
/// the ceiling, then as surveyed.
[[nodiscard]] std::vector<survey::Connection> places_to_leave(const Builder& b, const std::vector<Flue>& all,
                                                              const survey::Connection& outlet, const Line& line);
/// A way past everything with the fall an exhaust is hung with, else one past everything as it is drawn.
[[nodiscard]] Result<std::vector<Vec>> find_vent(const ClearanceMap& space, RouteRequest ask,
                                                 Thoroughness how = Thoroughness::searched);
/// Pipes the wall, sets the terminal and, where the wall is fire-rated, the firestop.
void lay_outlet(Builder& b, const Line& line, PortRef from, const FluePlan& plan, int outlet_number);
/// The collar with the analyser's opening on a heater's port and, where the vent has another size, the reducer.
PortRef start_vent(Builder& b, const Line& line, PortRef port, Nominal to);
/// How far those two reach, metres.
[[nodiscard]] double start_length(const Builder& b, const Line& line, Nominal port, Nominal to);
/// The fall of a level-drawn vent back to its drain, and what the headroom loses by it.
[[nodiscard]] reason::Step fall_step(double length);
/// The two orders of holes that keep a row of flues from crossing: as they stand, and the other way round.
[[nodiscard]] std::vector<std::vector<Vec>> assignments(const std::vector<Vec>& holes);
/// The heater's own port of a service.
[[nodiscard]] PortRef heater_port(const Builder& b, int heater, Service service);

}  // namespace bw::piping
