// SPDX-License-Identifier: MIT
#include "layout/shortfall.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "layout/headroom.h"
#include "layout/shortage.h"
#include "units/amount.h"

namespace bw::layout {
namespace {

using plant::Arrangement;
using plant::Shortfall;

std::string feet(double metres) { return units::print_feet_inches(metres * units::metre); }

double depth_of(const Block& block) {
    double low = 0, high = 0;
    for (const Zone& zone : block.zones) {
        low = std::min(low, zone.box.min.y);
        high = std::max(high, zone.box.max.y);
    }
    return high - low;
}

double length_of(const Block& block) {
    double low = 0, high = 0;
    for (const Zone& zone : block.zones) {
        low = std::min(low, zone.box.min.x);
        high = std::max(high, zone.box.max.x);
    }
    return high - low;
}

std::string called(const Cause& cause, const View& view) {
    switch (cause.kind) {
        case Cause::Kind::wall: return fmt::format("wall {}", cause.index + 1);
        case Cause::Kind::blocker: return view.blockers[cause.index].name;
        case Cause::Kind::ceiling: return "the ceiling's fall";
        case Cause::Kind::limit: break;
    }
    return "the corner";
}

std::string fewer(const Job& job, double length, int sides) {
    const int would = job.measures.columns_in(length) * sides;
    if (would < 1) return "";
    return fmt::format(", or take {} heater{} of this model here", std::min(would, job.count - 1),
                       would == 1 ? "" : "s");
}

/// What would let the heaters stand under a ceiling that lacks so much.
std::string higher(const Job& job, double lacks, std::string_view where) {
    std::string remedy = fmt::format("a ceiling {} higher{}", feet(lacks), where);
    const double saved = job.measures.vents - job.single_vents;
    if (lacks <= saved + 1e-9) remedy += fmt::format(", or single vents, which take {} less", feet(saved));
    return remedy;
}

/// A sloping ceiling that alone keeps a block from where it comes nearest to fitting.
Shortfall too_low(const Job& job, std::string id, std::string_view where, const Headroom& least) {
    const std::string takes =
        solid(least.over)
            ? fmt::format("headers under the heaters ({}), the heaters with their clearance and vents above ({}) take",
                          feet(Measures::lowest().bottom), feet(job.measures.above()))
            : std::string("a person who works on them takes");
    const std::string over = solid(least.over) ? "the heaters" : "the working space";
    return {std::move(id),
            fmt::format("the sloping ceiling is {} high over {} {}; {} {}: {} short", feet(least.have), over, where,
                        takes, feet(least.need), feet(least.lacks())),
            least.need, least.have,
            solid(least.over) ? higher(job, least.lacks(), " there")
                              : fmt::format("a ceiling {} higher there", feet(least.lacks()))};
}

class WallCase {
public:
    WallCase(const Job& job, int wall, int turns)
        : job_(job),
          wall_(wall),
          turns_(turns),
          view_(without_ceiling(job.views[turns])),
          off_(stand_off(job.room().walls[static_cast<std::size_t>(wall)])),
          block_(lowest_block(job, Arrangement::wall, 1, WayRound::none, off_)) {}

    std::vector<Shortfall> judge() const {
        if (auto low = ceiling(block_)) return {*low};
        const auto short_by = shortage([this](double along, double across) { return !free(along, across).empty(); },
                                       block_.length, depth_of(block_));
        std::vector<Shortfall> out;
        if (!short_by) {
            out.push_back({id(), fmt::format("wall {} has no place where even one heater could hang", wall_ + 1),
                           block_.length, 0, "clear the wall of doors and obstacles, or use another"});
            return out;
        }
        const auto low = ceiling(shrunk(block_, short_by->along, short_by->across));
        if (short_by->across > 0) out.push_back(depth(*short_by));
        if (short_by->along > 0) out.push_back(length(*short_by, !low));
        if (low) out.push_back(*low);
        return out;
    }

private:
    [[nodiscard]] std::vector<Stretch> free(double along, double across) const {
        const Block block = shrunk(block_, along, across);
        auto out = slide(view_, block, line(), start(), end() - block.length);
        std::erase_if(out, [](const Stretch& s) { return snap_up(s.low) > snap_down(s.high) + grid / 2; });
        return out;
    }
    [[nodiscard]] double line() const { return view_.plan[wall_].y + off_; }
    [[nodiscard]] double start() const { return view_.plan[wall_].x; }
    [[nodiscard]] double end() const { return view_.plan[(wall_ + 1) % view_.plan.size()].x; }

    /// Where the block, or as much of it as has a place, would hang but for the ceiling.
    [[nodiscard]] std::optional<Shortfall> ceiling(const Block& block) const {
        if (job_.room().overhead().level()) return std::nullopt;
        LeastLacking least(job_);
        least.slide(turns_, block, line(), start(), end() - block.length);
        if (!least.found() || least.found()->lacks() <= 0) return std::nullopt;
        return too_low(job_, id(), fmt::format("at wall {}", wall_ + 1), *least.found());
    }

    [[nodiscard]] std::string id() const { return fmt::format("wall-{}", wall_ + 1); }

    [[nodiscard]] Shortfall length(const Shortage& by, bool high_enough) const {
        const double need = length_of(block_), have = need - by.along;
        const Stretch where = free(by.along, by.across).front();
        return {id(),
                fmt::format("wall {} is {} clear between {} and {}; {} heaters in line take {}: {} short", wall_ + 1,
                            feet(have), called(where.low_cause, view_), called(where.high_cause, view_), job_.count,
                            feet(need), feet(by.along)),
                need, have,
                fmt::format("clear {} more along the wall{}", feet(by.along), high_enough ? fewer(job_, have, 1) : "")};
    }

    [[nodiscard]] Shortfall depth(const Shortage& by) const {
        const double need = depth_of(block_), have = need - by.across;
        return {
            id(),
            fmt::format("in front of wall {} is {} clear; heaters {} deep with {} to work in front take {}: {} short",
                        wall_ + 1, feet(have), feet(job_.measures.depth), feet(job_.measures.front), feet(need),
                        feet(by.across)),
            need, have, fmt::format("make the room {} deeper in front of wall {}", feet(by.across), wall_ + 1)};
    }

    const Job& job_;
    int wall_;
    int turns_;
    View view_;
    double off_;
    Block block_;
};

/// Whether a line of all heaters, shared out to as few banks as may be, uses the wall: halves of it may where it does
/// not.
bool uses_wall(const Job& job, const Sketches& found, int wall) {
    const auto on_it = [wall](const Placed& p) { return p.wall == wall; };
    return std::ranges::any_of(found.families(), [&](const auto& family) {
        const auto& placed = family.second.front().placed;
        std::size_t banks = 0;
        for (const Placed& p : placed) banks += p.block->banks.size();
        return banks == job.fewest().size() && std::ranges::any_of(placed, on_it);
    });
}

/// The rack shape nearest to fitting, and what it lacks.
struct Nearest {
    Block block;
    Shortage by;
};

bool rack_fits(const std::vector<View>& views, const Block& whole, double along, double across) {
    const Block block = shrunk(whole, along, across);
    const bool both_ways = whole.arrangement == Arrangement::rack_two_sided || whole.rows > 1;
    for (int turns = 0; turns < (both_ways ? 2 : 4); ++turns) {
        const View& view = views[static_cast<std::size_t>(turns)];
        const shape::Box room = hull(view);
        if (length_of(block) > room.max.x - room.min.x + grid) continue;
        for (double line : lines_across(view, block))
            for (const Stretch& s : slide(view, block, line, room.min.x, room.max.x - block.length))
                if (snap_up(s.low) <= snap_down(s.high) + grid / 2) return true;
    }
    return false;
}

/// Where a rack of one of these shapes would stand but for the ceiling.
std::optional<Shortfall> rack_under_ceiling(const Job& job, Arrangement arrangement, const std::vector<Block>& blocks) {
    if (job.room().overhead().level()) return std::nullopt;
    LeastLacking least(job);
    for (const Block& block : blocks) {
        for (int turns = 0; turns < 4; ++turns) {
            const View& view = least.view(turns);
            const shape::Box room = hull(view);
            if (block.length > room.max.x - room.min.x + grid) continue;
            for (double line : lines_across(view, block))
                least.slide(turns, block, line, room.min.x, room.max.x - block.length);
        }
    }
    if (!least.found() || least.found()->lacks() <= 0) return std::nullopt;
    return too_low(job, std::string(name(arrangement)), "of a rack", *least.found());
}

std::optional<Nearest> nearest_rack(const Job& job, Arrangement arrangement) {
    std::optional<Nearest> best;
    std::vector<View> views;
    for (const View& view : job.views) views.push_back(without_ceiling(view));
    for (const RackShape& shape : rack_shapes(arrangement, job.fewest().size())) {
        if (shape.way_round == WayRound::high_end) continue;  // as short as with the way at the other end
        const Block block = lowest_block(job, arrangement, shape.rows, shape.way_round, 0, shape.rack);
        const auto by = shortage([&](double along, double across) { return rack_fits(views, block, along, across); },
                                 block.length, depth_of(block));
        if (by && (!best || by->along + by->across < best->by.along + best->by.across)) best = Nearest{block, *by};
    }
    return best;
}

}  // namespace

std::optional<Shortfall> ceiling_shortfall(const Job& job) {
    const double need = least_ceiling(job.measures), have = job.room().ceiling->value();
    if (need <= have + 1e-9) return std::nullopt;
    return Shortfall{
        "any",
        fmt::format("the ceiling is {} high; headers under the heaters ({}), the heaters with their clearance "
                    "and vents above ({}) take {}: {} short",
                    feet(have), feet(Measures::lowest().bottom), feet(job.measures.above()), feet(need),
                    feet(need - have)),
        need, have, higher(job, need - have, "")};
}

std::vector<Shortfall> wall_shortfalls(const Job& job, const Sketches& found) {
    std::vector<Shortfall> out;
    const double need = lowest_block(job, Arrangement::wall).length;
    for (int wall = 0; wall < static_cast<int>(job.room().plan.size()); ++wall) {
        if (uses_wall(job, found, wall)) continue;
        const std::string id = fmt::format("wall-{}", wall + 1);
        const auto turns = turns_of_wall(job.room().plan, wall);
        if (!turns) {
            out.push_back(
                {id,
                 fmt::format("wall {} stands at an angle to the room's axes: it bounds the room but carries no heaters",
                             wall + 1),
                 need, 0, "use a wall along the room's axes, or a rack"});
        } else {
            for (auto& s : WallCase(job, wall, *turns).judge()) out.push_back(std::move(s));
        }
    }
    return out;
}

std::vector<Shortfall> rack_shortfalls(const Job& job, Arrangement arrangement) {
    const std::string id(name(arrangement));
    std::vector<Block> whole;
    for (const RackShape& shape : rack_shapes(arrangement, job.fewest().size()))
        whole.push_back(lowest_block(job, arrangement, shape.rows, shape.way_round, 0, shape.rack));
    if (auto low = rack_under_ceiling(job, arrangement, whole)) return {*low};
    const auto nearest = nearest_rack(job, arrangement);
    if (!nearest)
        return {{id, "no place in the room would hold even one heater on a rack with its working space", 0, 0,
                 "clear the room of obstacles, or hang the heaters on a wall"}};
    std::vector<Shortfall> out;
    const auto add = [&](std::string_view way, double need, double short_by, const std::string& or_else) {
        out.push_back(
            {id,
             fmt::format("a rack for {} heaters with its working space and the way round it is {} {}; the room has {} "
                         "clear: {} short",
                         job.count, feet(need), way, feet(need - short_by), feet(short_by)),
             need, need - short_by, fmt::format("clear {} more{}", feet(short_by), or_else)});
    };
    const auto low =
        rack_under_ceiling(job, arrangement, {shrunk(nearest->block, nearest->by.along, nearest->by.across)});
    const int sides = arrangement == Arrangement::rack_two_sided ? 2 : 1;
    if (nearest->by.across > 0) add("across", depth_of(nearest->block), nearest->by.across, "");
    if (nearest->by.along > 0) {
        const double bank = nearest->block.length - nearest->by.along;
        add("long", length_of(nearest->block), nearest->by.along, low ? "" : fewer(job, bank, sides));
    }
    if (low) out.push_back(*low);
    return out;
}

Shortfall place_shortfall(const Job& job, const std::string& asked, const std::string& families) {
    Shortfall out{"place", fmt::format("{} heaters do not fit at the place asked for, '{}'", job.count, asked), 0, 0,
                  families.empty() ? "a larger room, or fewer heaters" : "one of the places that fit: " + families};
    const Place& place = *job.place;
    for (int wall = 0; wall < static_cast<int>(job.room().plan.size()); ++wall) {
        const auto turns = turns_of_wall(job.room().plan, wall);
        if (!turns || !place.exact() || place.family != fmt::format("wall-{}", wall + 1)) continue;
        const View& view = job.views[*turns];
        const double start = view.plan[wall].x, end = view.plan[(wall + 1) % view.plan.size()].x;
        const double off = stand_off(job.room().walls[static_cast<std::size_t>(wall)]);
        const Block block = lowest_block(job, Arrangement::wall, 1, WayRound::none, off);
        std::optional<double> nearest;
        for (const Stretch& s : slide(view, block, view.plan[wall].y + off, start, end - block.length)) {
            const double low = snap_up(s.low) - start, high = snap_down(s.high) - start;
            if (low > high + grid / 2) continue;
            const double at = std::clamp(place.at.front(), low, high);
            if (!nearest || std::abs(at - place.at.front()) < std::abs(*nearest - place.at.front())) nearest = at;
        }
        // free for one line of heaters, where these want more than one
        if (!nearest || std::abs(*nearest - place.at.front()) < grid / 2) break;
        out.what += fmt::format(": {} along wall {} something is in the way", feet(place.at.front()), wall + 1);
        out.remedy = fmt::format("the nearest free place is {}, {} along it", print(Place{place.family, {*nearest}, 0}),
                                 feet(*nearest));
    }
    return out;
}

}  // namespace bw::layout
