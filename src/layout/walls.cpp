// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include "layout/job.h"

namespace bw::layout {
namespace {

constexpr std::size_t most_in_family = 9;

/// Puts the banks on walls in every way: some on this wall in line, the rest on later walls.
class WallSearch {
public:
    explicit WallSearch(Job& job) : job_(job) {}

    std::vector<Found> search() {
        place(0, 0);
        return std::move(found_);
    }

private:
    void place(std::size_t bank, int from_wall) {
        if (bank == job_.shares.size()) {
            keep();
            return;
        }
        const int walls = static_cast<int>(job_.room().plan.size());
        for (int wall = from_wall; wall < walls; ++wall) {
            const auto turns = turns_of_wall(job_.room().plan, wall);
            if (!turns || !carries(wall)) continue;
            for (std::size_t here = job_.shares.size() - bank; here >= 1; --here) place_on(wall, *turns, bank, here);
        }
    }

    [[nodiscard]] bool carries(int wall) const {
        return job_.measures.combustible <= 0 || !*job_.room().walls[wall].combustible;
    }

    void place_on(int wall, int turns, std::size_t bank, std::size_t here) {
        const std::vector<Share> shares(job_.shares.begin() + static_cast<std::ptrdiff_t>(bank),
                                        job_.shares.begin() + static_cast<std::ptrdiff_t>(bank + here));
        const Block block = make_block(job_.measures, plant::Arrangement::wall, shares, 1, WayRound::none);
        const View& view = job_.views[turns];
        const double across = view.plan[wall].y, start = view.plan[wall].x;
        const double end = view.plan[(wall + 1) % view.plan.size()].x;
        for (double u : stops(slide(view, block, across, start, end - block.length))) {
            placed_.push_back({block, turns, u, across, wall});
            add_to_views(job_, placed_.back());
            place(bank + here, wall + 1);
            remove_from_views(job_, placed_.back());
            placed_.pop_back();
            if (placed_.empty()) continue;
            if (const auto n = in_family_.find(family(wall)); n != in_family_.end() && n->second >= most_in_family)
                return;
        }
    }

    [[nodiscard]] std::string family(int last_wall = -1) const {
        std::string id = "wall";
        for (const Placed& p : placed_) id += fmt::format("-{}", p.wall + 1);
        return last_wall < 0 ? id : id + fmt::format("-{}", last_wall + 1);
    }

    void keep() {
        const std::string id = family();
        std::size_t& n = in_family_[id];
        if (n >= most_in_family) return;
        ++n;
        found_.push_back(assemble(job_, id, placed_, Feed::nearest));
        if (job_.shares.size() == 1) found_.push_back(assemble(job_, id, placed_, Feed::farthest));
    }

    Job& job_;
    std::vector<Placed> placed_;
    std::map<std::string, std::size_t> in_family_;
    std::vector<Found> found_;
};

}  // namespace

std::vector<Found> on_walls(Job& job) { return WallSearch(job).search(); }

}  // namespace bw::layout
