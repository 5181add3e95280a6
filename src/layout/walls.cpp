// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <map>

#include "layout/job.h"

namespace bw::layout {
namespace {

/// Puts the banks on walls in every way: some on this wall in line, the rest on later walls.
class WallSearch {
public:
    WallSearch(Job& job, const std::vector<Share>& shares, Sketches& found)
        : job_(job), shares_(shares), found_(found) {}

    void search() { place(0, 0); }

private:
    void place(std::size_t bank, int from_wall) {
        if (bank == shares_.size()) return found_.weigh(job_, family(), placed_);
        const int walls = static_cast<int>(job_.room().plan.size());
        for (int wall = from_wall; wall < walls; ++wall) {
            const auto turns = turns_of_wall(job_.room().plan, wall);
            if (!turns || !carries(wall) || !leads_to_place(wall)) continue;
            for (std::size_t here = shares_.size() - bank; here >= 1; --here) place_on(wall, *turns, bank, here);
        }
    }

    /// Only a place asked for need be searched.
    [[nodiscard]] bool leads_to_place(int wall) const {
        return !job_.place || job_.place->family.starts_with(family() + fmt::format("-{}", wall + 1));
    }

    [[nodiscard]] bool carries(int wall) const {
        return job_.measures.combustible <= 0 || !*job_.room().walls[wall].combustible;
    }

    void place_on(int wall, int turns, std::size_t bank, std::size_t here) {
        const Block& block = block_of(bank, here);
        const View& view = job_.views[turns];
        const double across = view.plan[wall].y, start = view.plan[wall].x;
        const double end = view.plan[(wall + 1) % view.plan.size()].x;
        std::optional<double> wanted;
        if (job_.place && job_.place->exact()) {
            if (job_.place->at.size() <= placed_.size()) return;
            wanted = start + job_.place->at[placed_.size()];
        }
        const auto free = slide(view, block, across, start, end - block.length);
        for (double u : stops(job_, view, block, free, wanted)) {
            placed_.push_back({&block, turns, u, across, wall});
            const bool last = bank + here == shares_.size();
            if (!last) add_to_views(job_, placed_.back());
            place(bank + here, wall + 1);
            if (!last) remove_from_views(job_, placed_.back());
            placed_.pop_back();
        }
    }

    const Block& block_of(std::size_t bank, std::size_t here) {
        const Block*& block = blocks_[{bank, here}];
        if (!block) {
            const std::vector<Share> part(shares_.begin() + static_cast<std::ptrdiff_t>(bank),
                                          shares_.begin() + static_cast<std::ptrdiff_t>(bank + here));
            job_.blocks.push_back(make_block(job_.measures, plant::Arrangement::wall, part, 1, WayRound::none));
            block = &job_.blocks.back();
        }
        return *block;
    }

    /// Each bank's wall.
    [[nodiscard]] std::string family() const {
        std::string id = "wall";
        for (const Placed& p : placed_)
            for (std::size_t i = 0; i < p.block->banks.size(); ++i) id += fmt::format("-{}", p.wall + 1);
        return id;
    }

    Job& job_;
    const std::vector<Share>& shares_;
    Sketches& found_;
    std::vector<Placed> placed_;
    std::map<std::pair<std::size_t, std::size_t>, const Block*> blocks_;
};

}  // namespace

void on_walls(Job& job, const std::vector<Share>& shares, Sketches& found) { WallSearch(job, shares, found).search(); }

}  // namespace bw::layout
