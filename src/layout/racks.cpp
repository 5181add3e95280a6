// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>

#include "layout/job.h"

namespace bw::layout {
namespace {

using plant::Arrangement;

constexpr std::size_t most_in_family = 4;

class RackSearch {
public:
    RackSearch(Job& job, Arrangement arrangement) : job_(job), arrangement_(arrangement) {}

    std::vector<Found> search() {
        for (const RackShape& shape : rack_shapes(arrangement_, job_.shares.size())) {
            const Block block = make_block(job_.measures, arrangement_, job_.shares, shape.rows, shape.way_round);
            const bool backed = arrangement_ == Arrangement::rack_one_sided && shape.rows == 1;
            if (!backed || !against_walls(block)) in_the_room(block, shape);
        }
        return std::move(found_);
    }

private:
    bool against_walls(const Block& block) {
        const std::size_t before = found_.size();
        const auto& plan = job_.room().plan;
        for (int wall = 0; wall < static_cast<int>(plan.size()); ++wall) {
            const auto turns = turns_of_wall(plan, wall);
            if (!turns) continue;
            const View& view = job_.views[*turns];
            const double back = plant::stations::rack_depth_back + job_.measures.behind;
            const double end = view.plan[(wall + 1) % plan.size()].x;
            try_line(block, fmt::format("{}-wall-{}", name(arrangement_), wall + 1), *turns,
                     snap_up(view.plan[wall].y + back), view.plan[wall].x, end - block.length);
        }
        return found_.size() > before;
    }

    void in_the_room(const Block& block, const RackShape& shape) {
        // half a turn makes no other rack of one that looks both ways
        const bool both_ways = arrangement_ == Arrangement::rack_two_sided || shape.rows > 1;
        for (int turns = 0; turns < (both_ways ? 2 : 4); ++turns) {
            const View& view = job_.views[turns];
            const shape::Box room = hull(view);
            const std::string family = fmt::format("{}-{}{}", name(arrangement_), turns + 1,
                                                   shape.rows > 1 ? fmt::format("-rows-{}", shape.rows) : "");
            for (double across : lines_across(view, block))
                if (!try_line(block, family, turns, across, room.min.x, room.max.x - block.length)) break;
        }
    }

    /// False once the family has enough.
    bool try_line(const Block& block, const std::string& family, int turns, double across, double low, double high) {
        std::size_t& n = in_family_[family];
        for (double u : stops(slide(job_.views[turns], block, across, low, high))) {
            if (n >= most_in_family) return false;
            ++n;
            const std::vector<Placed> placed{{block, turns, u, across, -1}};
            found_.push_back(assemble(job_, family, placed, Feed::nearest));
            if (job_.shares.size() == 1) found_.push_back(assemble(job_, family, placed, Feed::farthest));
        }
        return n < most_in_family;
    }

    Job& job_;
    Arrangement arrangement_;
    std::map<std::string, std::size_t> in_family_;
    std::vector<Found> found_;
};

}  // namespace

std::vector<RackShape> rack_shapes(Arrangement arrangement, std::size_t banks) {
    std::vector<RackShape> out;
    for (std::size_t rows = 1; rows <= banks; ++rows) {
        const std::size_t columns = (banks + rows - 1) / rows;
        if ((banks + columns - 1) / columns != rows) continue;  // the last row would stand empty
        const int n = static_cast<int>(rows);
        if (arrangement == Arrangement::rack_one_sided && rows == 1) {
            out.push_back({n, WayRound::none});
        } else {
            out.push_back({n, WayRound::low_end});
            out.push_back({n, WayRound::high_end});
        }
    }
    return out;
}

std::vector<double> lines_across(const View& view, const Block& block) {
    std::vector<double> sides;
    for (const Zone& zone : block.zones) sides.insert(sides.end(), {zone.box.min.y, zone.box.max.y});
    std::sort(sides.begin(), sides.end());
    sides.erase(std::unique(sides.begin(), sides.end()), sides.end());
    const shape::Box room = hull(view);
    const double least = snap_up(room.min.y - sides.front()), most = snap_down(room.max.y - sides.back());
    if (least > most) return {};
    std::vector<double> lines{least, most};
    const auto touch = [&](double at) {
        for (double side : sides) lines.insert(lines.end(), {snap_up(at - side), snap_down(at - side)});
    };
    for (const shape::Point& p : view.plan) touch(p.y);
    for (const Blocker& b : view.blockers) {
        touch(b.box.min.y);
        touch(b.box.max.y);
    }
    std::sort(lines.begin(), lines.end());
    const auto close = [](double a, double b) { return b - a < grid / 2; };
    lines.erase(std::unique(lines.begin(), lines.end(), close), lines.end());
    std::erase_if(lines, [&](double at) { return at < least - grid / 2 || at > most + grid / 2; });
    const double middle = snap_near((least + most) / 2);
    std::vector<double> out{middle};
    for (double at : lines)
        if (std::abs(at - middle) > grid / 2) out.push_back(at);
    return out;
}

std::vector<Found> on_racks(Job& job, Arrangement arrangement) { return RackSearch(job, arrangement).search(); }

}  // namespace bw::layout
