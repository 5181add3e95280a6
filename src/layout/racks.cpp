// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "layout/headroom.h"
#include "layout/job.h"

namespace bw::layout {
namespace {

using plant::Arrangement;

constexpr double worth_a_line = 0.15;  ///< metres between lines that are worth telling apart

class RackSearch {
public:
    RackSearch(Job& job, Arrangement arrangement, const std::vector<Share>& shares, Sketches& found)
        : job_(job), arrangement_(arrangement), shares_(shares), found_(found) {}

    void search() {
        bool backed = false;
        for (const RackShape& shape : rack_shapes(arrangement_, shares_.size())) {
            if (backed && shape.rows == 1) continue;  // a rack finds its place against a wall
            for (const Hang& hang : job_.measures.hangs) {
                job_.blocks.push_back(make_block(
                    job_.measures, {arrangement_, shares_, hang, shape.rows, shape.way_round, 0, 0, shape.rack}));
                const Block& block = job_.blocks.back();
                const int before = found_.weighed();
                if (shape.rack.tied == plant::stations::Tied::wall)
                    against_walls(block, shape.rack);
                else
                    in_the_room(block, shape);
                if (found_.weighed() == before) continue;
                backed = shape.rack.tied == plant::stations::Tied::wall;
                break;  // lower ones stand where these do
            }
        }
    }

private:
    void against_walls(const Block& block, const plant::stations::Rack& rack) {
        const auto& plan = job_.room().plan;
        for (int wall = 0; wall < static_cast<int>(plan.size()); ++wall) {
            const auto turns = turns_of_wall(plan, wall);
            if (!turns) continue;
            const View& view = job_.views[*turns];
            const double back = rack.depth + job_.measures.behind(rack);
            const double end = view.plan[(wall + 1) % plan.size()].x;
            const double line = snap_up(view.plan[wall].y + back);
            const auto corner = wanted_corner(view);
            if (corner && std::abs(corner->y - line) > grid / 2) continue;
            try_line(block, fmt::format("{}-wall-{}{}", name(arrangement_), wall + 1, in_line(block)), *turns, line,
                     view.plan[wall].x, end - block.length);
        }
    }

    void in_the_room(const Block& block, const RackShape& shape) {
        // half a turn makes no other rack of one that looks both ways
        const bool both_ways = arrangement_ == Arrangement::rack_two_sided || shape.rows > 1;
        for (int turns = 0; turns < (both_ways ? 2 : 4); ++turns) {
            const View& view = job_.views[turns];
            const shape::Box room = hull(view);
            const std::string family =
                fmt::format("{}-{}{}{}", name(arrangement_), turns + 1, rows(shape), in_line(block));
            std::vector<double> used;
            for (double across : lines(view, block)) {
                const auto near = [across](double line) { return std::abs(line - across) < worth_a_line; };
                if (std::ranges::any_of(used, near)) continue;
                if (try_line(block, family, turns, across, room.min.x, room.max.x - block.length))
                    used.push_back(across);
            }
        }
    }

    static std::string rows(const RackShape& shape) {
        if (shape.rack.paired) return "-backs";
        return shape.rows > 1 ? fmt::format("-rows-{}", shape.rows) : "";
    }

    static std::string in_line(const Block& block) {
        const int columns = (static_cast<int>(block.banks.size()) + block.rows - 1) / block.rows;
        return columns > 1 ? fmt::format("-line-{}", columns) : "";
    }

    /// Where a place asked for has the block's corner, in a view.
    [[nodiscard]] std::optional<shape::Vec> wanted_corner(const View& view) const {
        if (!job_.place || job_.place->at.size() != 2) return std::nullopt;
        return view.from_room(hull(job_.views[0]).min + shape::Vec{job_.place->at[0], job_.place->at[1], 0});
    }

    [[nodiscard]] std::vector<double> lines(const View& view, const Block& block) const {
        if (const auto corner = wanted_corner(view)) return {corner->y};
        return lines_across(view, block);
    }

    bool try_line(const Block& block, const std::string& family, int turns, double across, double low, double high) {
        const View& view = job_.views[turns];
        std::optional<double> wanted;
        if (const auto corner = wanted_corner(view)) wanted = corner->x;
        const auto free = slide(view, block, across, low, high);
        const auto places = stops(job_, view, block, free, wanted);
        for (double u : places) {
            // a way round the other end is the same place
            if (!tried_.emplace(family, std::lround(u / grid), std::lround(across / grid)).second) continue;
            Placed placed{&block, turns, u, across, -1};
            for (const Stretch& s : free)
                if (u > s.low - grid && u < s.high + grid) placed.free_low = u - s.low, placed.free_high = s.high - u;
            found_.weigh(job_, family, {placed});
        }
        return !places.empty();
    }

    Job& job_;
    Arrangement arrangement_;
    const std::vector<Share>& shares_;
    Sketches& found_;
    std::set<std::tuple<std::string, long, long>> tried_;
};

}  // namespace

std::vector<RackShape> rack_shapes(Arrangement arrangement, std::size_t banks) {
    std::vector<RackShape> out;
    for (std::size_t rows = 1; rows <= banks; ++rows) {
        const std::size_t columns = (banks + rows - 1) / rows;
        if ((banks + columns - 1) / columns != rows) continue;  // the last row would stand empty
        const int n = static_cast<int>(rows);
        if (arrangement == Arrangement::rack_one_sided && rows == 1) {
            out.push_back({n, WayRound::none, plant::stations::wall_backed});
            out.push_back({n, WayRound::none});
        } else {
            if (arrangement == Arrangement::rack_one_sided && rows == 2)
                for (const auto way : {WayRound::low_end, WayRound::high_end})
                    out.push_back({n, way, plant::stations::back_to_back});
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
    for (double at : lines_under(view, block)) lines.push_back(at);
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

void on_racks(Job& job, Arrangement arrangement, const std::vector<Share>& shares, Sketches& found) {
    RackSearch(job, arrangement, shares, found).search();
}

}  // namespace bw::layout
