// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <map>

#include "layout/job.h"

namespace bw::layout {
namespace {

constexpr double easy_between = 36 * plant::stations::inch;
constexpr std::size_t most_searched_low = 2;  ///< banks past which only the best heights are tried

/// Puts the banks on walls in every way: some on this wall in line, the rest on later walls.
class WallSearch {
public:
    /// With `walls`, each bank on its own.
    WallSearch(Job& job, const std::vector<Share>& shares, Sketches& found, std::vector<int> walls = {})
        : job_(job), shares_(shares), found_(found), walls_(std::move(walls)) {}

    void search() { place(0, 0); }

private:
    void place(std::size_t bank, int from_wall) {
        if (bank == shares_.size()) return found_.weigh(job_, family() + shared(), placed_);
        const int walls = static_cast<int>(job_.room().plan.size());
        for (int wall = from_wall; wall < walls; ++wall) {
            const auto turns = turns_of_wall(job_.room().plan, wall);
            if (!turns || !leads_to_place(wall)) continue;
            if (!walls_.empty() && walls_[bank] != wall) continue;
            for (std::size_t here = walls_.empty() ? shares_.size() - bank : 1; here >= 1; --here)
                place_on(wall, *turns, bank, here);
        }
    }

    /// Only a place asked for need be searched.
    [[nodiscard]] bool leads_to_place(int wall) const {
        return !job_.place || job_.place->family.starts_with(family() + fmt::format("-{}", wall + 1));
    }

    /// Each place along the wall at the first height it is free at.
    void place_on(int wall, int turns, std::size_t bank, std::size_t here) {
        const View& view = job_.views[turns];
        const double off = stand_off(job_.room().walls[static_cast<std::size_t>(wall)]);
        const double across = view.plan[wall].y + off, start = view.plan[wall].x;
        const double end = view.plan[(wall + 1) % view.plan.size()].x;
        std::optional<double> wanted;
        if (job_.place && job_.place->exact()) {
            if (job_.place->at.size() <= placed_.size()) return;
            wanted = start + job_.place->at[placed_.size()];
        }
        std::vector<Stretch> higher;  ///< free at a better height
        bool found = false;
        const std::size_t levels = job_.measures.hangs.size();
        // banks in line share the room between them for the turns of all their mains
        for (std::size_t k = 0; k < (here > 1 ? 2 : 1) * levels; ++k) {
            const Block& block = block_of({bank, here, k % levels, off > 0, here > 1 && k < levels});
            const auto free = slide(view, block, across, start, end - block.length);
            for (double u : stops(job_, view, block, free, wanted)) {
                if (std::ranges::any_of(higher,
                                        [u](const Stretch& s) { return u > s.low - grid && u < s.high + grid; }))
                    continue;
                found = true;
                Placed placed{&block, turns, u, across, wall};
                for (const Stretch& s : free)
                    if (u > s.low - grid && u < s.high + grid)
                        placed.free_low = u - s.low, placed.free_high = s.high - u;
                put(placed, bank + here);
            }
            higher.insert(higher.end(), free.begin(), free.end());
            const bool everywhere =
                free.size() == 1 && free.front().low <= start + grid && free.front().high >= end - block.length - grid;
            if ((everywhere && here == 1) || (wanted && found) || (k > 0 && shares_.size() > most_searched_low)) break;
        }
    }

    void put(const Placed& placed, std::size_t next) {
        placed_.push_back(placed);
        if (next < shares_.size()) add_to_views(job_, placed);
        place(next, placed.wall + 1);
        if (next < shares_.size()) remove_from_views(job_, placed);
        placed_.pop_back();
    }

    struct Key {
        std::size_t bank, here, level;
        bool off, apart;
        auto operator<=>(const Key&) const = default;
    };
    const Block& block_of(const Key& key) {
        const Block*& block = blocks_[key];
        if (!block) {
            const auto first = shares_.begin() + static_cast<std::ptrdiff_t>(key.bank);
            job_.blocks.push_back(
                make_block(job_.measures, {.arrangement = plant::Arrangement::wall,
                                           .shares = {first, first + static_cast<std::ptrdiff_t>(key.here)},
                                           .hang = job_.measures.hangs[key.level],
                                           .stand_off = key.off ? plant::stations::stand_off : 0,
                                           .more_between = key.apart ? easy_between : 0}));
            block = &job_.blocks.back();
        }
        return *block;
    }

    /// Uneven shares, to tell such layouts from even ones on the same walls.
    [[nodiscard]] std::string shared() const {
        std::string id = walls_.empty() ? "" : "-share";
        for (std::size_t i = 0; i < walls_.size(); ++i) id += fmt::format("-{}", shares_[i].heaters);
        return id;
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
    std::vector<int> walls_;
    std::vector<Placed> placed_;
    std::map<Key, const Block*> blocks_;
};

/// Most heaters in one bank that any place on a wall holds.
int most_on(Job& job, int wall) {
    const auto turns = turns_of_wall(job.room().plan, wall);
    if (!turns) return 0;
    const View& view = job.views[*turns];
    const double off = stand_off(job.room().walls[static_cast<std::size_t>(wall)]);
    const double start = view.plan[wall].x, end = view.plan[(wall + 1) % view.plan.size()].x;
    const int longest =
        std::min({job.count, *job.survey.preferences.most_in_line, job.measures.columns_in(end - start)});
    for (int heaters = longest; heaters > 0; --heaters)
        for (const Hang& hang : job.measures.hangs) {
            const Block block = make_block(
                job.measures,
                {.arrangement = plant::Arrangement::wall, .shares = {{heaters, 1}}, .hang = hang, .stand_off = off});
            if (!slide(view, block, view.plan[wall].y + off, start, end - block.length).empty()) return heaters;
        }
    return 0;
}

/// As even as the most that each takes allows; empty where all together take too few.
std::vector<Share> spread(int count, const std::vector<int>& most) {
    std::vector<Share> out(most.size(), {0, 1});
    for (int left = count; left > 0; --left) {
        std::size_t least = most.size();
        for (std::size_t i = 0; i < most.size(); ++i)
            if (out[i].heaters < most[i] && (least == most.size() || out[i].heaters < out[least].heaters)) least = i;
        if (least == most.size()) return {};
        ++out[least].heaters;
    }
    return out;
}

bool tried_already(const Job& job, const std::vector<Share>& shares) {
    return std::ranges::any_of(job.shares, [&](const auto& tried) {
        return std::ranges::equal(tried, shares, {}, &Share::heaters, &Share::heaters);
    });
}

}  // namespace

void on_walls_unevenly(Job& job, Sketches& found) {
    const int walls = static_cast<int>(job.room().plan.size());
    constexpr int most_walls = 4, most_told_apart = 10;
    if (job.count > *job.survey.preferences.most_in_assembly || walls > most_told_apart) return;
    std::vector<int> most;
    for (int wall = 0; wall < walls; ++wall) most.push_back(most_on(job, wall));
    for (int banks = 2; banks <= most_walls && (banks == 2 || found.weighed() == 0); ++banks)
        for (unsigned set = 0; set < (1U << walls); ++set) {
            if (std::popcount(set) != banks) continue;
            std::vector<int> here, each;
            for (int wall = 0; wall < walls; ++wall)
                if ((set >> wall) & 1U) here.push_back(wall), each.push_back(most[static_cast<std::size_t>(wall)]);
            const auto shares = spread(job.count, each);
            if (shares.empty() || tried_already(job, shares)) continue;
            if (std::ranges::any_of(shares, [](const Share& s) { return s.heaters == 0; })) continue;
            WallSearch(job, shares, found, here).search();
        }
}

void on_walls(Job& job, const std::vector<Share>& shares, Sketches& found) { WallSearch(job, shares, found).search(); }

}  // namespace bw::layout
